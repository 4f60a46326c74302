import type { Limit } from './limit.ts'
import type { ReadingUnit } from './measures.ts'

/** A limit as the script of the record page judges it: the same bounds and units, as data. */
export interface PageLimit {
  readonly kind: Limit['kind']
  readonly least?: number
  readonly most?: number
  readonly floor?: number
  readonly ceiling?: number
  readonly open?: true
  readonly units?: Readonly<Record<string, ReadingUnit>>
  readonly words?: string
  readonly example?: string
  readonly powers?: Readonly<Record<string, ReadingUnit>>
  readonly unit?: string
  readonly difference?: string
}

/** What the page needs of a limit to judge a reading on the spot. */
export function pageLimit(limit: Limit): PageLimit {
  if (limit.kind === 'look') return { kind: 'look' }
  const { measure, least, most, unit } = limit
  const { floor, ceiling, open, powers, units, words, example, difference } = measure
  return {
    kind: 'figure',
    ...(least === undefined ? {} : { least }),
    ...(most === undefined ? {} : { most }),
    floor,
    ceiling,
    ...(open ? { open } : {}),
    ...(powers ? { powers } : {}),
    units,
    words,
    example,
    unit,
    ...(difference === undefined ? {} : { difference }),
  }
}
