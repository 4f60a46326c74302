import { naturalOrder } from '../base/natural-order.ts'

/** Things of two revisions, put side by side. */
export interface Paired<T> {
  readonly kept: readonly (readonly [before: T, after: T])[]
  readonly removed: readonly T[]
  readonly added: readonly T[]
}

/** Groups by key, each group in the order of the list. */
export function groupBy<T>(items: Iterable<T>, key: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>()
  for (const item of items) {
    const name = key(item)
    const group = groups.get(name)
    if (group) group.push(item)
    else groups.set(name, [item])
  }
  return groups
}

/** Pairs what carries the same key; among several with one key, in the order of the list. */
export function pairByKey<T>(
  before: Iterable<T>,
  after: Iterable<T>,
  keyBefore: (item: T) => string,
  keyAfter: (item: T) => string = keyBefore,
): Paired<T> {
  const waiting = groupBy(after, keyAfter)
  const kept: (readonly [T, T])[] = []
  const removed: T[] = []
  for (const item of before) {
    const found = waiting.get(keyBefore(item))?.shift()
    if (found === undefined) removed.push(item)
    else kept.push([item, found])
  }
  return { kept, removed, added: [...waiting.values()].flat() }
}

/** How alike two things are; below `least` they are not taken for the same thing. */
export interface Likeness<T> {
  readonly score: (before: T, after: T) => number
  readonly least: number
  readonly name: (item: T) => string
  /** Says the same of two things only when they are alike in everything; spares comparing each with each. */
  readonly exact?: (item: T, side: 'before' | 'after') => string
}

/** Pairs what is most alike first. The lists are what names alone could not pair, so they are short. */
export function pairByLikeness<T>(
  before: readonly T[],
  after: readonly T[],
  likeness: Likeness<T>,
): Paired<T> {
  const candidates = before.flatMap((one) =>
    after.flatMap((two) => {
      const score = likeness.score(one, two)
      return score >= likeness.least ? [{ one, two, score }] : []
    }),
  )
  const { name } = likeness
  candidates.sort(
    (a, b) =>
      b.score - a.score || naturalOrder(name(a.one), name(b.one)) || naturalOrder(name(a.two), name(b.two)),
  )
  const partner = new Map<T, T>()
  const taken = new Set<T>()
  for (const { one, two } of candidates) {
    if (partner.has(one) || taken.has(two)) continue
    partner.set(one, two)
    taken.add(two)
  }
  return {
    kept: [...partner],
    removed: before.filter((one) => !partner.has(one)),
    added: after.filter((two) => !taken.has(two)),
  }
}

/** By name first; then what is left over by likeness, which is how a renamed thing is recognised. */
export function pairByName<T>(before: Iterable<T>, after: Iterable<T>, likeness: Likeness<T>): Paired<T> {
  const { name, exact } = likeness
  const named = pairByKey(before, after, name)
  const same = exact
    ? pairByKey(
        named.removed,
        named.added,
        (one) => exact(one, 'before'),
        (one) => exact(one, 'after'),
      )
    : { kept: [], removed: named.removed, added: named.added }
  const alike = pairByLikeness(same.removed, same.added, likeness)
  return { kept: [...named.kept, ...same.kept, ...alike.kept], removed: alike.removed, added: alike.added }
}

/** Share of what two sets have in common, 0 to 1; 0 when both are empty. */
export function overlap(one: ReadonlySet<string>, two: ReadonlySet<string>): number {
  if (one.size === 0 && two.size === 0) return 0
  let common = 0
  for (const item of one) if (two.has(item)) common += 1
  return common / (one.size + two.size - common)
}
