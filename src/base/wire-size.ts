import { significant } from './format-quantity.ts'
import { quote } from './quote.ts'
import { bad, good, type Result } from './result.ts'
import { didYouMean } from './suggest.ts'

/** Nominal areas in mm² that wire is sold in: IEC 60228, with the ISO 6722 road-vehicle and small signal sizes. */
export const METRIC_AREAS = [
  '0.05',
  '0.08',
  '0.13',
  '0.14',
  '0.2',
  '0.22',
  '0.25',
  '0.34',
  '0.35',
  '0.5',
  '0.75',
  '0.8',
  '1',
  '1.5',
  '2',
  '2.5',
  '3',
  '4',
  '5',
  '6',
  '8',
  '10',
  '12',
  '16',
  '20',
  '25',
  '35',
  '50',
  '70',
  '95',
  '120',
  '150',
  '185',
  '240',
] as const

/** Gauges of ASTM B258 by name, thickest first. `0` to `0000` may also be written `1/0` to `4/0`. */
export const AWG_NAMES = [
  '4/0',
  '3/0',
  '2/0',
  '1/0',
  '0000',
  '000',
  '00',
  '0',
  '1',
  '2',
  '3',
  '4',
  '5',
  '6',
  '7',
  '8',
  '9',
  '10',
  '11',
  '12',
  '13',
  '14',
  '15',
  '16',
  '17',
  '18',
  '19',
  '20',
  '21',
  '22',
  '23',
  '24',
  '25',
  '26',
  '27',
  '28',
  '29',
  '30',
  '31',
  '32',
  '33',
  '34',
  '35',
  '36',
  '37',
  '38',
  '39',
  '40',
] as const

export type MetricSize = `${(typeof METRIC_AREAS)[number]} ${'mm²' | 'mm2'}`
export type AwgSize = `${(typeof AWG_NAMES)[number]} AWG`
/** A wire size as written in a description; a misspelt one is a compile-time error. */
export type WireSize = MetricSize | AwgSize

/** A size understood: its copper area, its gauge number if it was given as a gauge (0 = 1/0, -3 = 4/0), its usual spelling. */
export type WireGauge = { readonly areaMm2: number; readonly awg?: number; readonly label: string }

/** One circular mil, the area of a circle a thousandth of an inch across, in mm². */
export const CIRCULAR_MIL_MM2 = (Math.PI / 4) * 0.0254 ** 2
const LARGEST_AREA_MM2 = 1000
const SMALLEST_AREA_MM2 = 0.004
/** Within this ratio two areas are the same size for a person choosing wire or a contact. */
const SAME_SIZE = 1.15

/** Diameter in mm of a solid wire of gauge `awg` (0 = 1/0 … -3 = 4/0): 0.127 · 92^((36-n)/39), ASTM B258. */
export const awgDiameterMm = (awg: number): number => 0.127 * 92 ** ((36 - awg) / 39)
/** Copper area in mm² of gauge `awg`, ASTM B258. */
export const awgAreaMm2 = (awg: number): number => (Math.PI / 4) * awgDiameterMm(awg) ** 2
/** The gauge number, not rounded, whose area this is. */
export const awgFromArea = (areaMm2: number): number =>
  36 - (39 * Math.log(Math.sqrt((4 * areaMm2) / Math.PI) / 0.127)) / Math.log(92)
/** Diameter in mm of a solid wire of that area. */
export const solidDiameterMm = (areaMm2: number): number => Math.sqrt((4 * areaMm2) / Math.PI)
export const circularMils = (areaMm2: number): number => areaMm2 / CIRCULAR_MIL_MM2
export const areaFromCircularMils = (mils: number): number => mils * CIRCULAR_MIL_MM2

/** The usual name of a gauge number: `18 AWG`, `1/0 AWG`, `4/0 AWG`. */
export const awgLabel = (awg: number): string => `${awg > 0 ? awg : `${1 - awg}/0`} AWG`
/** `1.5 mm²`. */
export const metricLabel = (areaMm2: number): string => `${significant(areaMm2)} mm²`

/** The whole-number gauges a shop can buy without asking: even ones, then each size from 2 AWG up. */
const TRADE_AWG = [30, 28, 26, 24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3] as const
/** The metric sizes a shop can buy without asking. */
const TRADE_MM2 = [
  0.14, 0.25, 0.34, 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240,
] as const

const awgGauge = (awg: number): WireGauge => ({ areaMm2: awgAreaMm2(awg), awg, label: awgLabel(awg) })
const metricGauge = (areaMm2: number): WireGauge => ({ areaMm2, label: metricLabel(areaMm2) })

/** The sizes in common stock, thinnest first. */
export function tradeSizes(series: 'metric' | 'awg'): readonly WireGauge[] {
  return series === 'awg' ? TRADE_AWG.map(awgGauge) : TRADE_MM2.map(metricGauge)
}

/** The smallest stock size with at least that area, or undefined beyond the series. */
export function sizeAtLeast(areaMm2: number, series: 'metric' | 'awg' = 'metric'): WireGauge | undefined {
  return tradeSizes(series).find((size) => size.areaMm2 >= areaMm2 * (1 - 1e-9))
}

/** The next stock size thicker than that area, or undefined at the end of the series. */
export function nextSizeUp(areaMm2: number, series: 'metric' | 'awg' = 'metric'): WireGauge | undefined {
  return tradeSizes(series).find((size) => size.areaMm2 > areaMm2 * (1 + 1e-9))
}

/** The stock sizes thicker than that area, thinnest first, at most `count`: what to offer as a remedy. */
export function nextSizesUp(
  areaMm2: number,
  count: number,
  series: 'metric' | 'awg' = 'metric',
): WireGauge[] {
  return tradeSizes(series)
    .filter((size) => size.areaMm2 > areaMm2 * (1 + 1e-9))
    .slice(0, count)
}

/**
 * The size in the other system: `≈16 AWG` when the areas are within 15 %, else the two gauges it lies between, `14–12 AWG`.
 * Trade names pair sizes that differ by a quarter in copper; saying so keeps a crimp from being made on the wrong contact.
 */
export function nearestAwg(areaMm2: number): string {
  const sizes = tradeSizes('awg')
  const near = sizes.find((size) => ratio(size.areaMm2, areaMm2) <= SAME_SIZE)
  if (near) return `≈${closest(sizes, areaMm2).label}`
  const below = sizes.filter((size) => size.areaMm2 < areaMm2).at(-1)
  const above = sizes.find((size) => size.areaMm2 > areaMm2)
  if (!below) return `thinner than ${sizes[0]?.label}`
  if (!above) return `thicker than ${below.label}`
  return `${below.label.replace(' AWG', '')}–${above.label}`
}

const ratio = (a: number, b: number): number => Math.max(a / b, b / a)

function closest(sizes: readonly WireGauge[], areaMm2: number): WireGauge {
  return sizes.reduce((best, size) =>
    ratio(size.areaMm2, areaMm2) < ratio(best.areaMm2, areaMm2) ? size : best,
  )
}

/** Both systems at once: `1.5 mm² (≈16 AWG)` for a metric wire, `18 AWG (0.823 mm²)` for a gauge. */
export function bothSizes(size: WireGauge | number): string {
  const gauge = typeof size === 'number' ? metricGauge(size) : size
  return gauge.awg === undefined
    ? `${gauge.label} (${nearestAwg(gauge.areaMm2)})`
    : `${gauge.label} (${metricLabel(gauge.areaMm2)})`
}

const METRIC = /^(\d+(?:\.\d+)?|\.\d+)\s*(?:mm²|mm2|mm\^2|sqmm)$/i
const GAUGE = /^(?:(\d{1,2})\/0|(0{1,4})|([1-9]\d?))\s*AWG$/i
const GAUGE_FIRST = /^AWG\s*((?:\d{1,2}\/0|0{1,4}|[1-9]\d?))$/i

/**
 * Reads a wire size: `1.5 mm²`, `1.5 mm2`, `18 AWG`, `1/0 AWG`, `0000 AWG`. Never throws.
 * Any metric area from 0.004 to 1000 mm² is taken, in the trade series or not; gauges go from 4/0 to 40.
 */
export function parseWireSize(text: string): Result<WireGauge> {
  if (typeof text !== 'string' || text.length > 32) return notASize(String(text))
  const tidied = text.trim().replace(/\s+/g, ' ')
  const metric = METRIC.exec(tidied)
  if (metric) return metricSize(Number(metric[1]), text)
  const swapped = GAUGE_FIRST.exec(tidied)
  const gauge = GAUGE.exec(swapped ? `${swapped[1]} AWG` : tidied)
  if (!gauge) return notASize(text)
  const [, ought, zeros, number] = gauge
  const awg = ought ? 1 - Number(ought) : zeros ? 1 - zeros.length : Number(number)
  if (awg < -3 || awg > 40 || ought === '0')
    return bad(`${quote(text)} is not a gauge of ASTM B258, which runs from “4/0 AWG” to “40 AWG”.`)
  return good(awgGauge(awg))
}

function metricSize(areaMm2: number, text: string): Result<WireGauge> {
  if (areaMm2 >= SMALLEST_AREA_MM2 && areaMm2 <= LARGEST_AREA_MM2) return good(metricGauge(areaMm2))
  return bad(`${quote(text)} is not a wire size; write an area from 0.05 to 240 mm², such as “1.5 mm²”.`)
}

function notASize(text: string): Result<never> {
  if (/^\s*\d+(\.\d+)?\s*$/.test(text))
    return bad(`${quote(text)} has no unit: write a size such as “1.5 mm²” or “18 AWG”.`)
  if (/^\s*\d+,\d/.test(text)) return bad(`${quote(text)} has a comma: write a point, such as “1.5 mm²”.`)
  const known = [...METRIC_AREAS.map((area) => `${area} mm²`), ...AWG_NAMES.map((name) => `${name} AWG`)]
  const hint = didYouMean(text.trim(), known)
  return bad(
    `${quote(text)} is not a wire size${hint === '' ? '; write one such as “1.5 mm²” or “18 AWG”.' : `.${hint}`}`,
  )
}
