import * as z from 'zod'
import { quote } from '../base/quote.ts'
import { didYouMean, suggest } from '../base/suggest.ts'
import { keysOf, objectFor, type Schema, schemaAt, tagsKnowing } from './schema-path.ts'

/** One thing wrong with the shape of a document, in words. */
export interface Fault {
  readonly path: readonly (string | number)[]
  /** What is wrong, without a full stop. */
  readonly what: string
  /** What to write, a sentence. */
  readonly fix: string
  /** The same for the same mistake in another wire. */
  readonly cause: string
}

type Issue = z.core.$ZodIssue
type Path = readonly (string | number)[]

/** Messages of zod itself; all others were written for people beside the shape. */
const STOCK = /^(Invalid|Too (big|small)|Unrecognized)\b/

const TYPE_WORDS: Readonly<Record<string, string>> = {
  string: 'text in quotation marks',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false, without quotation marks',
  array: 'a list in square brackets',
  tuple: 'a list in square brackets',
  object: 'an object in braces',
  record: 'an object in braces',
}

/** A value as a message shows it: short, and never the whole of it. */
export function shown(value: unknown): string {
  if (typeof value === 'string') return quote(value)
  if (Array.isArray(value)) return 'a list'
  if (value === null) return 'null'
  if (typeof value === 'object') return 'an object'
  return String(value)
}

const list = (words: readonly string[]): string => words.map(quote).join(', ')
const numberOrText = (key: PropertyKey): string | number => (typeof key === 'number' ? key : String(key))

const sentence = (words: string): string =>
  `${words[0]?.toUpperCase() ?? ''}${words.slice(1)}${/[.?]$/.test(words) ? '' : '.'}`

/** An example written beside the shape of a value, on the schema itself or on one it wraps. */
function exampleFor(schema: Schema | undefined): string | undefined {
  if (!schema) return undefined
  const { examples } = z.globalRegistry.get(schema as unknown as z.ZodType) ?? {}
  const first: unknown = Array.isArray(examples) ? examples[0] : undefined
  return typeof first === 'string' ? first : exampleFor(schema.def.innerType ?? schema.def.in)
}

/** Parts a message written for people, "X is wrong; write Y.", into what is wrong and what to do. */
function parted(message: string, value: unknown, schema: Schema | undefined): { what: string; fix: string } {
  const text = message.replace(/\.$/, '')
  const wanted = /^expected (.*)$/s.exec(text)?.[1]
  if (wanted !== undefined)
    return { what: `${shown(value)} does not fit here`, fix: sentence(`write ${wanted}`) }
  const split = /^(.*?)[;:.] ((?:write|put) .*|Did you mean .*)$/s.exec(text)
  if (split) return { what: split[1] ?? text, fix: sentence(split[2] ?? '') }
  const expected = /^(.* is expected here), such as (.*)$/s.exec(text)
  if (expected) return { what: expected[1] ?? text, fix: `Write it like ${expected[2]}.` }
  const example = exampleFor(schema)
  const what = text.startsWith('“') ? text : `${shown(value)} does not fit: ${text}`
  return { what, fix: example === undefined ? 'Change it.' : `Write it like ${quote(example)}.` }
}

function unknownKey(schema: Schema | undefined, parent: unknown, key: string): { what: string; fix: string } {
  const keys = keysOf(schema && objectFor(schema, parent))
  const free = keys.filter((known) => !(typeof parent === 'object' && parent !== null && known in parent))
  const what = `${quote(key)} is not known here`
  const near = suggest(key, keys)
  if (near.length > 0)
    return { what, fix: didYouMean(key, free.some((k) => near.includes(k)) ? free : keys).trim() }
  const tags = schema ? tagsKnowing(schema, key) : []
  if (tags.length > 0)
    return { what, fix: `It belongs to kind ${list(tags.slice(0, 6))}; change the kind, or take it out.` }
  return { what, fix: free.length > 0 ? `Known here, and not yet used: ${list(free)}.` : 'Take it out.' }
}

function wrongChoice(value: unknown, choices: readonly unknown[]): { what: string; fix: string } {
  const names = choices.filter((choice) => choice !== undefined).map(String)
  const hint = typeof value === 'string' ? didYouMean(value, names).trim() : ''
  const all = `Write one of ${list(names)}.`
  return {
    what: `${shown(value)} is not a choice here`,
    fix: hint === '' ? all : names.length <= 8 ? `${hint} ${all}` : hint,
  }
}

function outOfBounds(issue: Issue, value: unknown): { what: string; fix: string } {
  const bound = 'minimum' in issue ? issue.minimum : 'maximum' in issue ? issue.maximum : 0
  const origin = 'origin' in issue ? issue.origin : 'value'
  const few = issue.code === 'too_small'
  const inclusive = !('inclusive' in issue) || issue.inclusive !== false
  if (Array.isArray(value)) {
    const exact = `${value.length} ${value.length === 1 ? 'entry' : 'entries'}`
    return { what: `the list has ${exact}`, fix: `It takes at ${few ? 'least' : 'most'} ${bound}.` }
  }
  const relation = few ? (inclusive ? 'at least' : 'more than') : inclusive ? 'at most' : 'less than'
  return {
    what: `${shown(value)} is out of bounds`,
    fix: `Write a ${origin === 'int' ? 'number' : origin} of ${relation} ${bound}.`,
  }
}

function wrongType(expected: string, value: unknown): { what: string; fix: string } {
  const words = TYPE_WORDS[expected] ?? expected
  // JSON has no word for it: 1e309 is read as infinity, which no figure can be worked out from.
  if (typeof value === 'number' && !Number.isFinite(value))
    return { what: 'this number is too large to be one', fix: `Write ${words} below 1.8e308.` }
  return { what: `${shown(value)} stands where ${words} is needed`, fix: `Write ${words}.` }
}

/** The faults within the member of a plain union that the value was meant for, or none if that cannot be told. */
function withinUnion(issue: Issue): Issue[] {
  if (issue.code !== 'invalid_union') return []
  const meant = issue.errors.find((branch) =>
    branch.every(
      (inner) =>
        inner.path.length > 0 || inner.code === 'custom' || (!STOCK.test(inner.message) && isNumber(inner)),
    ),
  )
  return (meant ?? []).map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] }))
}

/** A bare number where text with a unit belongs: the message that says so beats that of the union. */
const isNumber = (issue: Issue): boolean => issue.message.includes(' has no unit')

function missing(issue: Issue, name: string, schema: Schema | undefined): { what: string; fix: string } {
  const what = `${quote(name)} is missing`
  const wanted = /^expected (.*)$/s.exec(issue.message)?.[1]
  const example = exampleFor(schema)
  if (wanted !== undefined) return { what, fix: sentence(`write ${wanted}`) }
  if (!STOCK.test(issue.message)) return { what, fix: sentence(`write it: ${issue.message}`) }
  if (example !== undefined) return { what, fix: `Write it, such as ${quote(example)}.` }
  const type = 'expected' in issue ? TYPE_WORDS[String(issue.expected)] : undefined
  return { what, fix: type === undefined ? 'Write it.' : `Write it, as ${type}.` }
}

function words(root: Schema, data: unknown, issue: Issue): { what: string; fix: string } {
  const path = issue.path.map(numberOrText)
  const { schema, value } = schemaAt(root, data, path)
  if (value === undefined) return missing(issue, String(path.at(-1) ?? 'the document'), schema)
  if (issue.code === 'invalid_union' && 'options' in issue && Array.isArray(issue.options))
    return wrongChoice(value, issue.options)
  if (!STOCK.test(issue.message)) return parted(issue.message, value, schema)
  if (issue.code === 'invalid_value') return wrongChoice(value, issue.values)
  if (issue.code === 'too_big' || issue.code === 'too_small') return outOfBounds(issue, value)
  if (issue.code === 'invalid_type') return wrongType(String(issue.expected), value)
  return { what: `${shown(value)} does not fit here`, fix: 'Change it.' }
}

/** Where a mistake stands, whatever the wire: indexes and names of pins are left out. */
const general = (path: Path, code: string): string =>
  `${code} ${path.filter((key) => typeof key === 'string' && !/\d/.test(key)).join('.')}`

/** Tells one issue of the schema library in words; several where it covers several mistakes. */
export function faultsOf(root: Schema, data: unknown, issue: Issue): Fault[] {
  const path = issue.path.map(numberOrText)
  if (issue.code === 'unrecognized_keys') {
    const { schema, value } = schemaAt(root, data, path)
    return issue.keys.map((key) => ({
      path: [...path, key],
      ...unknownKey(schema, value, key),
      cause: general([...path, key], issue.code),
    }))
  }
  const inner = withinUnion(issue)
  if (inner.length > 0) return inner.flatMap((one) => faultsOf(root, data, one))
  const name = path.at(-1)
  const { what, fix } = words(root, data, issue)
  return [
    {
      path,
      what: what.endsWith(' is missing') || typeof name !== 'string' ? what : `${name}: ${what}`,
      fix,
      cause: general(path, issue.code),
    },
  ]
}
