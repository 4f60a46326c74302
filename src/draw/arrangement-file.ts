import type { ArrangedSheet, Arrangement } from './arrangement.ts'

/** Arrangements by the name of the drawing. */
export type Arrangements = ReadonlyMap<string, Arrangement>

const VERSION = 1

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

const isTexts = (value: unknown): value is string[] =>
  Array.isArray(value) && value.every((one) => typeof one === 'string')

function isSheet(value: unknown): value is ArrangedSheet {
  if (!isRecord(value)) return false
  const { style, conductors, columns, order } = value
  const numbers = isRecord(columns) && Object.values(columns).every((one) => Number.isFinite(one))
  return (style === 'facing' || style === 'steps') && isTexts(conductors) && numbers && isTexts(order)
}

/** Reads what {@link arrangementText} wrote; undefined where it is anything else. */
export function parseArrangements(text: string): Arrangements | undefined {
  let read: unknown
  try {
    read = JSON.parse(text)
  } catch {
    return undefined
  }
  if (!isRecord(read) || read['arranged'] !== VERSION || !isRecord(read['drawings'])) return undefined
  const entries = Object.entries(read['drawings'])
  const whole = (entry: [string, unknown]): entry is [string, ArrangedSheet[]] =>
    Array.isArray(entry[1]) && entry[1].every(isSheet)
  return entries.every(whole) ? new Map(entries) : undefined
}

/** Arrangements as JSON, one line a sheet and drawings by name, so that versions of the file can be compared. */
export function arrangementText(arrangements: Arrangements): string {
  const drawings = [...arrangements]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, sheets]) => {
      const lines = sheets.map((sheet) => `    ${JSON.stringify(sheet)}`)
      return `  ${JSON.stringify(name)}: [\n${lines.join(',\n')}\n  ]`
    })
  return `{ "arranged": ${VERSION}, "drawings": {\n${drawings.join(',\n')}\n} }\n`
}
