import type { Chance } from './chance.ts'

export type Json = string | number | boolean | null | Json[] | { [key: string]: Json }
type Path = (string | number)[]

/** Words that break what forgets to expect them. None of them holds a word that the outcome is searched for. */
export const HOSTILE: readonly string[] = [
  ...['', ' ', '.', '..', '../../x', '-', '--help', '/', '\\', '0', '-1', '1e309', '٣', '½'],
  ...['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'then', 'length', 'valueOf'],
  ...['<script>x</script>', '"><img src=x onerror=x>', "'", '"', '`', '&amp;', '</text>', ']]>', '<!--'],
  ...['=1+1', '@x', '\t=1', '{{x}}', '{{{x}}}', '${x}', '%s', '[x](javascript:x)', '|', '\n# x'],
  ...['\u0000', '\u001b[2J', '\u202e', '\u2028', '\ud800', '\ufeff', 'é', '𝄞', 'x'.repeat(300)],
  ...[
    '0 V',
    '-5 V',
    '1e9 A',
    '0 mm',
    '1e-30 m',
    '0 Ω',
    '999999 km',
    '0 mm²',
    '0 W',
    '12..3 V',
    '1 V..',
    '3 kg',
  ],
  ...['0 Hz', '0 dB', '1 %', '100000 °C', '-300 °C', 'P1.', '.1', 'P1.1.1', 'P1.__proto__', 'radio.J1.1.1'],
]

const ODD: readonly Json[] = [null, true, false, 0, -1, 1.5, 1e308, 4294967296, [], {}, [[]], [null]]

export function pathsOf(value: Json, path: Path = []): Path[] {
  const inner = Array.isArray(value)
    ? value.flatMap((entry, i) => pathsOf(entry, [...path, i]))
    : value !== null && typeof value === 'object'
      ? Object.entries(value).flatMap(([key, entry]) => pathsOf(entry, [...path, key]))
      : []
  return [path, ...inner]
}

export function at(value: Json, path: Path): Json | undefined {
  let found: Json | undefined = value
  for (const key of path)
    found = found !== null && typeof found === 'object' ? (found as Record<string, Json>)[key] : undefined
  return found
}

function change(value: Json, path: Path, to: (old: Json) => Json | undefined): Json | undefined {
  const [key, ...rest] = path
  if (key === undefined) return to(value)
  if (Array.isArray(value))
    return value.flatMap((entry, i) => {
      const made = i === key ? change(entry, rest, to) : entry
      return made === undefined ? [] : [made]
    })
  const made: [string, Json][] = Object.entries(value as Record<string, Json>).flatMap(([name, entry]) => {
    const one = name === String(key) ? change(entry, rest, to) : entry
    return one === undefined ? [] : [[name, one] as [string, Json]]
  })
  return Object.fromEntries(made)
}

type Slip = (doc: Json, paths: Path[], chance: Chance) => Json | undefined

const atTexts = (doc: Json, paths: Path[]): Path[] =>
  paths.filter((path) => typeof at(doc, path) === 'string')

/** Another text of the same key: what a person mistakes, and what passes the schema. */
const mistake: Slip = (doc, paths, chance) => {
  const texts = atTexts(doc, paths)
  const path = chance.of(texts)
  const key = path.at(-1)
  const alike = texts.filter((other) => other.at(-1) === key)
  const word = at(doc, chance.of(alike.length > 1 ? alike : texts)) ?? ''
  return change(doc, path, () => word)
}

/** Another figure in front of the unit. */
const figure: Slip = (doc, paths, chance) => {
  const texts = atTexts(doc, paths).filter((path) => /^[-\d.]+ ?\S/.test(String(at(doc, path))))
  if (texts.length === 0) return doc
  const number = chance.of(['0', '0.001', '1', '7.5', '400', '-3', '1e6', '99999', '1e-9', '0.0000001'])
  return change(doc, chance.of(texts), (old) => String(old).replace(/^[-\d.e]+/, number))
}

const hostile: Slip = (doc, paths, chance) =>
  change(doc, chance.of(atTexts(doc, paths)), () => chance.of(HOSTILE))
const otherType: Slip = (doc, paths, chance) => change(doc, chance.of(paths), () => chance.of(ODD))
const without: Slip = (doc, paths, chance) => change(doc, chance.of(paths), () => undefined)
const twice: Slip = (doc, paths, chance) => {
  const lists = paths.filter((path) => Array.isArray(at(doc, path)))
  return change(doc, chance.of(lists.length > 0 ? lists : paths), (old) =>
    Array.isArray(old) && old.length > 0 ? [...old, chance.of(old)] : old,
  )
}
const moved: Slip = (doc, paths, chance) => {
  const value = at(doc, chance.of(paths)) ?? null
  return change(doc, chance.of(paths), () => value)
}
const renamed: Slip = (doc, paths, chance) => {
  const objects = paths.filter((path) => {
    const value = at(doc, path)
    return (
      typeof value === 'object' && value !== null && !Array.isArray(value) && Object.keys(value).length > 0
    )
  })
  if (objects.length === 0) return doc
  return change(doc, chance.of(objects), (old) => {
    const entries = Object.entries(old as Record<string, Json>)
    const which = chance.below(entries.length)
    const name = chance.next() < 0.5 ? chance.of(HOSTILE) : chance.of(entries)[0]
    return Object.fromEntries(entries.map(([key, value], i) => [i === which ? name : key, value]))
  })
}

const MILD: readonly Slip[] = [mistake, mistake, mistake, figure, figure, twice, without]
const WILD: readonly Slip[] = [...MILD, hostile, hostile, otherType, without, moved, renamed]

/** A document with one to six slips in it. `mild` ones are those a person makes. */
export function mutate(doc: Json, chance: Chance, mild: boolean): Json {
  let made: Json = doc
  for (let left = 1 + chance.below(6); left > 0; left--) {
    const paths = pathsOf(made)
    if (atTexts(made, paths).length === 0) return made
    made = chance.of(mild ? MILD : WILD)(made, paths, chance) ?? {}
  }
  return made
}

/** Text damaged as text: cut off, bytes changed, stretches doubled. */
export function damage(text: string, chance: Chance): string {
  const place = () => chance.below(text.length + 1)
  const [a, b] = [place(), place()].sort((one, other) => one - other) as [number, number]
  switch (chance.below(5)) {
    case 0:
      return text.slice(0, a)
    case 1:
      return (
        text.slice(0, a) +
        chance.of(['{', '}', '[', ']', ',', ':', '"', '\\', '/*', '\u0000', '\ud800']) +
        text.slice(a)
      )
    case 2:
      return text.slice(0, a) + text.slice(b)
    case 3:
      return text.slice(0, b) + text.slice(a)
    default:
      return text.slice(0, a) + chance.of(HOSTILE) + text.slice(Math.min(a + 3, text.length))
  }
}
