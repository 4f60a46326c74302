import type { Pointer } from '../base/place.ts'
import { plainPins } from './find-end.ts'
import type { DraftHalf, GraphBuilder } from './graph-builder.ts'
import type { Half, Terminal } from './loom.ts'

/** One side of a joint: a half, and one pin of it where a ring or a lone end lands on a stud or a block. */
export interface MateSide {
  readonly half: DraftHalf
  readonly pin?: string
}

/** Studs and screw terminals take several rings or ends; a plug takes one partner. Of an unknown family nothing is known. */
export function takesMany(half: DraftHalf): boolean {
  const { family } = half
  return !family || family.manyWires === true || family.style === 'stud' || family.style === 'terminal'
}

/** Whether a further partner fits on this side. */
export function isFree(side: MateSide): boolean {
  return side.half.mates.length === 0 || takesMany(side.half)
}

/** Joins two halves, contact by contact of the same name; a single contact meets the pin that is named, or the only one. */
export function mateHalves(b: GraphBuilder, one: MateSide, two: MateSide): void {
  remember(one.half, two.half)
  remember(two.half, one.half)
  for (const [a, z] of contactsOf(b, one, two)) b.link({ kind: 'mate', a, b: z })
  const [shellA, shellB] = [one.half.pins.get('shell'), two.half.pins.get('shell')]
  if (shellA && shellB) b.link({ kind: 'mate', a: shellA, b: shellB })
}

function remember(half: DraftHalf, mate: Half): void {
  half.mate ??= mate
  half.mates.push(mate)
}

function contactsOf(b: GraphBuilder, one: MateSide, two: MateSide): [Terminal, Terminal][] {
  const pinsOne = sidePins(one)
  const pinsTwo = sidePins(two)
  const [firstOne] = pinsOne
  const [firstTwo] = pinsTwo
  if (pinsOne.length === 1 && pinsTwo.length === 1 && firstOne && firstTwo) return [[firstOne, firstTwo]]
  const pairs: [Terminal, Terminal][] = []
  for (const pin of pinsOne) {
    const other = pinsTwo.find((entry) => entry.name === pin.name) ?? madeUp(b, two, pin.name, pin.at)
    if (other) pairs.push([pin, other])
  }
  return pairs
}

function sidePins(side: MateSide): Terminal[] {
  const pins = plainPins(side.half)
  const named = side.pin === undefined ? undefined : side.half.pins.get(side.pin)
  return named ? [named] : pins
}

/** A loom half of unknown family has the pins of what it mates with. */
function madeUp(b: GraphBuilder, side: MateSide, name: string, at: Pointer): Terminal | undefined {
  if (side.half.family || side.half.side === 'equipment' || side.pin !== undefined) return undefined
  const pin = b.terminal({
    address: `${side.half.address}.${name}`,
    name,
    on: 'harness',
    at,
    half: side.half,
  })
  side.half.pins.set(name, pin)
  return pin
}
