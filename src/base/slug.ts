import { hashCode } from './hash.ts'

const LONGEST_SLUG = 60
/** Names Windows keeps for devices, with or without an ending. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/

/**
 * A file or anchor name made only of `a-z`, `0-9` and single hyphens, never empty, never `.` or `..`, at most 60 long.
 * Accents are dropped; a text with no Latin letter or digit at all gets a name from its hash. Different texts may share
 * a slug: use {@link uniqueSlugs} where they must not.
 */
export function slug(text: string): string {
  const plain = text
    .slice(0, 4 * LONGEST_SLUG)
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, LONGEST_SLUG)
    .replace(/-+$/, '')
  if (plain === '') return `n-${hashCode(text).toLowerCase()}`
  return RESERVED.test(plain) ? `${plain}-${hashCode(text, 4).toLowerCase()}` : plain
}

/**
 * One different slug for each different text. Texts whose slugs clash all get a piece of their hash, so that a name
 * does not depend on the order of the list and stays put when another text comes or goes later without a clash.
 */
export function uniqueSlugs(texts: Iterable<string>): Map<string, string> {
  const bySlug = new Map<string, string[]>()
  for (const text of new Set(texts)) {
    const name = slug(text)
    bySlug.set(name, [...(bySlug.get(name) ?? []), text])
  }
  const result = new Map<string, string>()
  const taken = new Set(bySlug.keys())
  for (const [name, group] of bySlug) {
    for (const text of group)
      result.set(text, group.length === 1 || text === name ? name : freeName(name, text, taken))
  }
  return result
}

function freeName(name: string, text: string, taken: Set<string>): string {
  const stem = name.slice(0, LONGEST_SLUG - 12).replace(/-+$/, '')
  let salted = text
  for (;;) {
    const candidate = `${stem}-${hashCode(salted).toLowerCase()}`
    if (!taken.has(candidate)) {
      taken.add(candidate)
      return candidate
    }
    salted += '\u0000'
  }
}
