import { significant } from '../base/format-quantity.ts'
import type { FigureLimit, Limit } from './limit.ts'
import { inBase, inUnit, type ReadingUnit } from './measures.ts'
import type { Read } from './read-reading.ts'

export type Verdict = 'pass' | 'fail' | 'not measured'

/** A limit with what was read against it. */
export interface Judged {
  readonly limit: Limit
  readonly verdict: Verdict
  /** As it was written; empty where nothing was measured. */
  readonly reading: string
  /** Distance to the nearest bound in the base unit, below zero outside; undefined for a look and for an open reading. */
  readonly margin?: number
  readonly note?: string
}

/** Rounding of the last digit of a float is no fault. */
const SLACK = 1e-9

/** Judges a reading. A missing bound is kept by every reading. */
export function judge(limit: Limit, read: Read): Pick<Judged, 'verdict' | 'margin'> {
  if (limit.kind === 'look') return { verdict: read.kind === 'look' && read.good ? 'pass' : 'fail' }
  const value = read.kind === 'figure' ? read.value : Number.NaN
  const { least = Number.NEGATIVE_INFINITY, most = Number.POSITIVE_INFINITY } = limit
  const margin = Math.min(value - least, most - value)
  // An open reading is beyond every upper bound, and infinitely inside where there is none.
  const inside = value >= least - SLACK * Math.abs(least) && value <= most + SLACK * Math.abs(most)
  const good = inside || (value === most && most === Number.POSITIVE_INFINITY)
  return { verdict: good ? 'pass' : 'fail', ...(Number.isFinite(margin) ? { margin } : {}) }
}

const unitOf = (limit: FigureLimit): ReadingUnit => limit.measure.units[limit.unit] ?? { factor: 1 }

/** A figure of a limit as the paper prints it, in the limit's unit and without it: levels to a tenth of a decibel, the rest to three figures. */
export function printed(limit: FigureLimit, value: number): string {
  const figure = inUnit(value, unitOf(limit))
  if (limit.measure.difference === undefined) return significant(figure)
  const tenths = Math.round(figure * 10) / 10
  return String(tenths === 0 ? 0 : tenths)
}

/** `13.2 V`, `1.36:1`, `405 Hz`. */
export const withUnit = (limit: FigureLimit, value: number): string =>
  limit.unit.startsWith(':')
    ? `${printed(limit, value)}${limit.unit}`
    : `${printed(limit, value)} ${limit.unit}`

/** A bound exactly as it is printed, in the base unit: a paper that says 0.46 V lets 0.46 V pass. */
export const asPrinted = (limit: FigureLimit, value: number): number =>
  inBase(Number(printed(limit, value)), unitOf(limit))

/** `0.42 V inside`, `35 Hz over`; empty where there is no figure. */
export function marginText({ limit, margin, verdict }: Judged): string {
  if (margin === undefined || limit.kind === 'look') return ''
  // One value and no other: there is nothing to be inside of.
  if (limit.least === limit.most && verdict === 'pass') return ''
  const unit = limit.measure.difference ?? limit.unit
  const size = Math.abs(limit.measure.difference === undefined ? margin / unitOf(limit).factor : margin)
  const text = unit.startsWith(':') ? significant(size, 2) : `${significant(size, 2)} ${unit}`
  return `${text} ${verdict === 'fail' ? 'outside' : 'inside'}`
}

/** `at least 10.8 V, at most 15.6 V`, or `yes`. */
export function limitText(limit: Limit): string {
  if (limit.kind === 'look') return 'yes'
  const { least, most } = limit
  if (least !== undefined && most !== undefined) {
    if (least === most) return withUnit(limit, most)
    if (least === -most) return `within ±${withUnit(limit, most)}`
    return `${printed(limit, least)} to ${withUnit(limit, most)}`
  }
  if (most !== undefined) return `at most ${withUnit(limit, most)}`
  return least === undefined ? '' : `at least ${withUnit(limit, least)}`
}
