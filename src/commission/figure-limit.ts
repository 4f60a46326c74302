import { asPrinted } from './judge.ts'
import type { FigureLimit, LookLimit } from './limit.ts'

type Draft<T> = Omit<T, 'kind' | 'level'> & Partial<Pick<FigureLimit, 'level'>>

/** Makes a figure to measure, its bounds rounded to what the paper prints. */
export function figureLimit(draft: Draft<FigureLimit>): FigureLimit {
  const limit: FigureLimit = { kind: 'figure', level: 'warning', ...draft }
  const { least, most } = limit
  return {
    ...limit,
    ...(least === undefined ? {} : { least: asPrinted(limit, least) }),
    ...(most === undefined ? {} : { most: asPrinted(limit, most) }),
  }
}

/** Makes a thing to look at. */
export const lookLimit = (draft: Draft<LookLimit>): LookLimit => ({
  kind: 'look',
  level: 'warning',
  ...draft,
})
