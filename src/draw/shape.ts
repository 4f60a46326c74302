import type { Item, Point } from './scene.ts'

export type Side = 'WEST' | 'EAST'

/** A conductor's end at a block, before the block has a shape. */
export interface WireEnd {
  /** Id of the port that the end gets. */
  readonly port: string
  readonly pin: string
  readonly side: Side
  /** Printed beside the pin, so that a long run can be told at both ends. */
  readonly number: string
}

export interface Port {
  readonly id: string
  readonly side: Side
  readonly x: number
  readonly y: number
}

/** Where a block is found on another sheet, such as `sheet 2 · C4`. */
export type FindElsewhere = (sheet: number, block: string) => string

/** Points from the left upper corner of the block: level as far as `levelTo`, then straight to the goal. */
export interface Reach {
  readonly levelTo?: number
  readonly goal: Point
}

/** A block with its size and ports fixed, ready to be placed. */
export interface Shape {
  readonly width: number
  readonly height: number
  readonly ports: readonly Port[]
  /** The layout may move the ports along their sides. */
  readonly loose?: boolean
  /** Where the conductors of some ports go on to inside the block. */
  readonly reach?: ReadonlyMap<string, Reach>
  draw(at: Point, find: FindElsewhere): Item[]
}
