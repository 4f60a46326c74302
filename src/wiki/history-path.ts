import type { Harness } from '../describe/harness.ts'
import type { Site } from './page.ts'

/** The history page of a harness; undefined where nothing is known of its past. */
export function historyPath({ input, map }: Site, { id, revisions = [] }: Harness): string | undefined {
  const known = revisions.length > 0 || (input.history?.get(id)?.length ?? 0) > 0
  return known ? map.harness(id)?.replace(/^harness\//, 'history/') : undefined
}
