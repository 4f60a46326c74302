import { hashCode } from '../../src/base/hash.ts'
import { drawWiring } from '../../src/draw/draw-wiring.ts'
import { LEAST_SCALE, UNITS_PER_MM } from '../../src/draw/metrics.ts'
import { type PlannedSheet, planWiring } from '../../src/draw/plan-wiring.ts'
import type { SheetModel } from '../../src/draw/sheet-model.ts'
import { inspect, partedPairs } from './inspect.ts'

/** What is counted on one drawing. */
export interface DrawingFigures {
  /** Of what is drawn: figures of another description are not comparable. */
  readonly model: string
  readonly sheets: number
  readonly conductors: number
  readonly crossings: number
  readonly bends: number
}

export interface Inspected extends DrawingFigures {
  readonly faults: readonly string[]
}

/** The geometry of every sheet of a drawing. */
export function inspectSheets(model: SheetModel, sheets: readonly PlannedSheet[]): Inspected {
  const pairs = model.trunks.flatMap((trunk) => trunk.pairs)
  let [crossings, bends] = [0, 0]
  const faults = sheets.flatMap(({ name, drawing, furniture, paper, scale }) => {
    const onPaper = { w: paper.wMm * UNITS_PER_MM, h: paper.hMm * UNITS_PER_MM }
    const found = inspect(drawing.items, drawing)
    crossings += found.crossings
    bends += found.bends
    const small = scale < LEAST_SCALE ? [`it had to be shrunk to ${scale.toFixed(2)}`] : []
    const all = [
      ...found.faults,
      ...inspect(furniture, onPaper).faults,
      ...partedPairs(drawing.items, pairs),
      ...small,
    ]
    return all.map((fault) => `sheet ${name}: ${fault}`)
  })
  const { blocks, conductors, trunks } = model
  return {
    model: hashCode(JSON.stringify([blocks, conductors, trunks]), 10),
    sheets: sheets.length,
    conductors: conductors.length,
    crossings,
    bends,
    faults,
  }
}

/** Draws and inspects. */
export const inspectDrawing = async (model: SheetModel): Promise<Inspected> =>
  inspectSheets(model, await planWiring(model))

/** The bytes of a drawing as a file, font included. */
export async function bytesOf(model: SheetModel): Promise<number> {
  const { sheets } = await drawWiring(model)
  return sheets.reduce((sum, { svg }) => sum + Buffer.byteLength(svg), 0)
}
