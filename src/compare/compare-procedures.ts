import type { Procedure } from '../describe/shop.ts'
import type { SubjectChange, ThingChange } from './changes.ts'
import { overlap, pairByKey, pairByName } from './pair-up.ts'
import { altered, oneSided } from './thing-change.ts'

/** A paragraph, a heading or one item of a list, as it reads; how its lines are broken makes no difference. */
interface Passage {
  readonly text: string
  /** 1-based line of the file where it begins. */
  readonly line: number
}

/** Numbers of a list count themselves: a step put in between must not look like a change of all that follow. */
const MARKER = /^(?:[-*+]|\d{1,9}[.)])\s+/
const STARTS_ANEW = /^(?:[-*+]\s|\d{1,9}[.)]\s|#{1,6}\s|>|\||---)/

function passagesOf(text: string): Passage[] {
  const passages: { text: string; line: number }[] = []
  let open = false
  for (const [index, raw] of text.split(/\r\n|\r|\n/).entries()) {
    const line = raw.trim().replace(/\s+/g, ' ')
    const last = passages.at(-1)
    if (line === '') open = false
    else if (open && last && !STARTS_ANEW.test(line)) last.text += ` ${line}`
    else {
      passages.push({ text: line.replace(MARKER, ''), line: index + 1 })
      open = !/^(#{1,6}\s|---)/.test(line)
    }
  }
  return passages
}

/** Above this the longest common run is not looked for: the passages are compared as a set. */
const MOST_STEPS = 2_000_000

/** Which passages stand in both, in the same order: the longest such run (Wagner and Fischer 1974, edit distance). */
function common(one: readonly Passage[], two: readonly Passage[]): (readonly [number, number])[] {
  if (one.length * two.length > MOST_STEPS) {
    const indexed = (list: readonly Passage[]) => list.map(({ text }, index) => ({ text, index }))
    const { kept } = pairByKey(indexed(one), indexed(two), ({ text }) => text)
    return kept.map(([a, b]) => [a.index, b.index] as const)
  }
  const width = two.length + 1
  const best = new Uint32Array((one.length + 1) * width)
  const at = (i: number, j: number): number => best[i * width + j] ?? 0
  for (let i = one.length - 1; i >= 0; i--)
    for (let j = two.length - 1; j >= 0; j--)
      best[i * width + j] =
        one[i]?.text === two[j]?.text ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1))
  const pairs: (readonly [number, number])[] = []
  for (let i = 0, j = 0; i < one.length && j < two.length; ) {
    if (one[i]?.text === two[j]?.text) pairs.push([i++, j++])
    else if (at(i + 1, j) >= at(i, j + 1)) i += 1
    else j += 1
  }
  return pairs
}

/** Passages between two that both have: as many as stand on both sides are changed, the rest came or went. */
function gap(file: string, old: readonly Passage[], now: readonly Passage[]): ThingChange[] {
  const place = ({ line }: Passage) => ({ at: { doc: file, path: ['line', line, 'column', 1] } })
  const name = ({ line }: Passage) => `at line ${line}`
  const both = Math.min(old.length, now.length)
  return [
    ...now.slice(0, both).flatMap((two, i) => {
      const [was, is] = excerpts(old[i]?.text ?? '', two.text)
      const values = [{ field: 'text', words: 'text', before: was, after: is }]
      return altered('passage', name(two), name(two), { values, ...place(two) }) ?? []
    }),
    ...now.slice(both).map((two) => oneSided('added', 'passage', name(two), quoted(two.text), place(two))),
    ...old.slice(both).map((one) => oneSided('removed', 'passage', name(one), quoted(one.text), place(one))),
  ].map((thing) => ({ ...thing, physical: false }))
}

const quoted = (text: string): string => `“${text}”`

/** Words left standing on each side of what changed, so that the place is known again. */
const AROUND = 4

/** The part of a passage that changed, with a few words around it, before and after. */
function excerpts(before: string, after: string): readonly [before: string, after: string] {
  const [old, now] = [before.split(' '), after.split(' ')]
  const shorter = Math.min(old.length, now.length)
  let head = 0
  while (head < shorter && old[head] === now[head]) head += 1
  let tail = 0
  while (tail < shorter - head && old.at(-1 - tail) === now.at(-1 - tail)) tail += 1
  const from = Math.max(0, head - AROUND)
  const cut = (words: readonly string[]): string => {
    const to = Math.min(words.length, words.length - tail + AROUND)
    return quoted(`${from > 0 ? '… ' : ''}${words.slice(from, to).join(' ')}${to < words.length ? ' …' : ''}`)
  }
  return [cut(old), cut(now)]
}

function passageChanges(before: Procedure, after: Procedure): ThingChange[] {
  const [old, now] = [passagesOf(before.text), passagesOf(after.text)]
  const ends = [...common(old, now), [old.length, now.length] as const]
  let [i, j] = [0, 0]
  return ends.flatMap(([a, b]) => {
    // Compared as sets the pairs need not rise; what lies behind was told of already.
    const things = gap(after.file, old.slice(i, Math.max(i, a)), now.slice(j, Math.max(j, b)))
    ;[i, j] = [Math.max(i, a + 1), Math.max(j, b + 1)]
    return things
  })
}

/** The first heading of a procedure, else its file. */
function titleOf({ file, text }: Procedure): string {
  return /^#\s+(.+?)\s*#*$/m.exec(text)?.[1] ?? file
}

const baseName = (file: string): string => file.slice(file.lastIndexOf('/') + 1)

/** By file; a file in another folder or under another name is known again by what it says. */
function pairProcedures(before: readonly Procedure[], after: readonly Procedure[]) {
  const texts = new Map(
    [...before, ...after].map((one) => [one, new Set(passagesOf(one.text).map(({ text }) => text))]),
  )
  const none: ReadonlySet<string> = new Set()
  return pairByName(before, after, {
    name: ({ file }) => file,
    least: 0.5,
    score: (one, two) =>
      overlap(texts.get(one) ?? none, texts.get(two) ?? none) +
      (baseName(one.file) === baseName(two.file) ? 0.5 : 0),
  })
}

/** What came, went and changed in the shop's own procedures, passage by passage. */
export function compareProcedures(
  before: readonly Procedure[],
  after: readonly Procedure[],
): SubjectChange[] {
  const paired = pairProcedures(before, after)
  const whole = (change: 'added' | 'removed', one: Procedure): SubjectChange => ({
    of: 'procedure',
    change,
    id: one.file,
    title: titleOf(one),
    facts: titleOf(one),
    things: [],
    at: { doc: one.file, path: ['line', 1, 'column', 1] },
  })
  return [
    ...paired.kept.flatMap(([one, two]): SubjectChange[] => {
      const things = one.text === two.text ? [] : passageChanges(one, two)
      const moved = baseName(one.file) !== baseName(two.file)
      if (things.length === 0 && !moved) return []
      const at = { doc: two.file, path: ['line', 1, 'column', 1] }
      const was = moved ? { was: one.file } : {}
      return [{ of: 'procedure', change: 'altered', id: two.file, ...was, title: titleOf(two), things, at }]
    }),
    ...paired.added.map((one) => whole('added', one)),
    ...paired.removed.map((one) => whole('removed', one)),
  ]
}
