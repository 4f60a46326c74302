import type { Flag } from './sheet-model.ts'

/** More marks on one thing than this hide it; the report has them all. */
const MOST_MARKS = 4

/** Marks of what is at some addresses or anywhere below them, each number once, in their order. */
export function flagsBelow(
  flags: ReadonlyMap<string, readonly Flag[]> | undefined,
  addresses: readonly string[],
): readonly Flag[] {
  const found = new Map<number, Flag>()
  for (const [at, list] of flags ?? [])
    if (addresses.some((address) => at === address || at.startsWith(`${address}.`)))
      for (const flag of list) found.set(flag.number, flag)
  return [...found.values()].sort((a, b) => a.number - b.number).slice(0, MOST_MARKS)
}
