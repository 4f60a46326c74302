import type { FaceGeometry } from '../describe/part.ts'

type Spot = FaceGeometry['pins'][string]

/** Rows a person still counts at a glance. */
const MOST_ROWS = 5

/**
 * Where each position is on a face as it is drawn, in words that find it without the picture: `latch up: top row, 3rd of 5 from
 * the left`, or by the hours of a clock on a round face. Positions that words would not tell apart are left out.
 */
export function cavityWords(face: FaceGeometry): ReadonlyMap<string, string> {
  const pins = Object.entries(face.pins)
  if (pins.length < 2 || face.outline.shape === 'jack') return new Map()
  const round = face.outline.shape === 'circle'
  // A coaxial face has a middle and a ring round it: the drawing says that better.
  if (round && pins.length === 2 && pins.some(([, spot]) => Math.hypot(spot.xMm, spot.yMm) < 0.1))
    return new Map()
  const place = (round ? byClock(pins) : undefined) ?? byRows(pins)
  const hold = holdWords(face)
  const all = pins.flatMap(([name, spot]) => {
    const words = place?.(spot)
    return words === undefined ? [] : [[name, words] as const]
  })
  const count = (words: string) => all.filter(([, other]) => other === words).length
  return new Map(all.filter(([, words]) => count(words) === 1).map(([name, words]) => [name, hold + words]))
}

type Place = (spot: Spot) => string | undefined

const NTH = ['1st', '2nd', '3rd'] as const
const nth = (index: number): string => NTH[index] ?? `${index + 1}th`

function byRows(pins: readonly (readonly [string, Spot])[]): Place | undefined {
  const apart = leastDistance(pins.map(([, spot]) => spot)) * 0.3
  const rows: Spot[][] = []
  for (const [, spot] of [...pins].sort(([, a], [, b]) => b.yMm - a.yMm)) {
    const row = rows.at(-1)
    if (row && Math.abs((row[0]?.yMm ?? 0) - spot.yMm) < apart) row.push(spot)
    else rows.push([spot])
  }
  if (rows.length > MOST_ROWS && rows.some((row) => row.length > 1)) return undefined
  return (spot) => {
    const index = rows.findIndex((row) => row.includes(spot))
    const row = [...(rows[index] ?? [])].sort((a, b) => a.xMm - b.xMm)
    const inRow = row.length === 1 ? '' : `${nth(row.indexOf(spot))} of ${row.length} from the left`
    return [rowWords(index, rows.length, row.length), inRow].filter((text) => text !== '').join(', ')
  }
}

function rowWords(index: number, rows: number, inRow: number): string {
  if (rows === 1) return ''
  if (rows === 2 && inRow === 1) return index === 0 ? 'the upper one' : 'the lower one'
  if (index === 0) return 'top row'
  if (index === rows - 1) return 'bottom row'
  return rows === 3 ? 'middle row' : `${nth(index)} row from the top`
}

/** Hours of a clock with 12 at the top, to the half hour; undefined where rings within rings would need more words. */
function byClock(pins: readonly (readonly [string, Spot])[]): Place | undefined {
  const far = Math.max(...pins.map(([, { xMm, yMm }]) => Math.hypot(xMm, yMm)))
  const inner = pins.filter(([, { xMm, yMm }]) => Math.hypot(xMm, yMm) < far * 0.7)
  if (inner.length > 1) return undefined
  return ({ xMm, yMm }) => {
    if (Math.hypot(xMm, yMm) < far * 0.2) return 'in the middle'
    const halves = Math.round(((Math.atan2(xMm, yMm) / Math.PI) * 12 + 24) % 24) % 24
    const hour = Math.floor(halves / 2) || 12
    return halves % 2 === 0 ? `at ${hour} o’clock` : `between ${hour} and ${(hour % 12) + 1} o’clock`
  }
}

function leastDistance(spots: readonly Spot[]): number {
  let least = Number.POSITIVE_INFINITY
  for (const [index, a] of spots.entries())
    for (const b of spots.slice(index + 1)) least = Math.min(least, Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm))
  return Number.isFinite(least) ? least : 1
}

const HOLDS = ['latch', 'key', 'notch', 'tongue', 'flat'] as const

/** How to hold it so that left and right mean something: by its key or latch, a D by its wide side. */
function holdWords(face: FaceGeometry): string {
  if (face.outline.shape === 'd') return 'wide side up: '
  const marks = face.marks ?? []
  const kind = HOLDS.find((one) => marks.some((mark) => mark.kind === one))
  const found = marks.filter((mark) => mark.kind === kind)
  const [mark] = found
  if (!mark || found.length > 1) return ''
  const side =
    Math.abs(mark.yMm) >= Math.abs(mark.xMm)
      ? mark.yMm >= 0
        ? 'up'
        : 'down'
      : mark.xMm >= 0
        ? 'right'
        : 'left'
  return `${mark.kind} ${side}: `
}
