import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { originalPositionFor, TraceMap } from '@jridgewell/trace-mapping'
import { documentOf, gather } from '../author/as-document.ts'
import { markOf } from '../author/site.ts'
import type { Trouble } from '../base/finding.ts'
import { type Bundle, bundleTypescript, type Display, mapRoot } from './bundle-typescript.ts'
import { isRepeatable } from './is-repeatable.ts'
import { LineIndex } from './line-index.ts'
import { locateTypescript, type SourceLookup } from './locate-typescript.ts'
import { plainData } from './plain-data.ts'
import { type Ran, runTypescript } from './run-typescript.ts'
import { follow } from './scan-call.ts'
import type { SourceDocument } from './shop-source.ts'
import { startOf } from './trouble-error.ts'
import { writtenAtIn } from './written-at.ts'

/** A description file to run. */
export interface CodeFile {
  readonly path: string
  /** As documents are called. */
  readonly name: string
  /** As people call it. */
  readonly file: string
  readonly named: boolean
}

export interface CodeResult {
  readonly documents: readonly SourceDocument[]
  readonly troubles: readonly Trouble[]
  /** Everything that was bundled, absolute. */
  readonly inputs: readonly string[]
  /** Files of `inputs` whose change may change what other files describe, absolute. */
  readonly imported: readonly string[]
  /** Whether the same files will give the same again. */
  readonly repeatable: boolean
}

function lookupFor(bundle: Bundle, display: Display): SourceLookup {
  const byName = new Map(bundle.inputs.map((path) => [display(path), path]))
  const sources = new Map<string, { text: string; lines: LineIndex } | undefined>()
  let map: TraceMap | undefined
  const read = (file: string): { text: string; lines: LineIndex } | undefined => {
    const path = byName.get(file)
    if (path === undefined) return undefined
    try {
      const text = readFileSync(path, 'utf8')
      return { text, lines: new LineIndex(text) }
    } catch {
      return undefined
    }
  }
  return {
    original: ({ file, line, column }) => {
      if (file !== bundle.path) return undefined
      map ??= new TraceMap(bundle.map)
      const spot = originalPositionFor(map, { line, column: column - 1 })
      if (spot.source === null) return undefined
      const source = display(resolve(mapRoot(bundle), spot.source))
      return byName.has(source) ? { file: source, line: spot.line, column: spot.column + 1 } : undefined
    },
    source: (file) => {
      if (!sources.has(file)) sources.set(file, read(file))
      return sources.get(file)
    },
  }
}

/** The file in which a builder was called to make a thing. */
function homeOf(thing: object, lookup: SourceLookup): string | undefined {
  for (const frame of markOf(thing)?.frames ?? []) {
    const [file, line, column] = [frame.getFileName(), frame.getLineNumber(), frame.getColumnNumber()]
    const place =
      file && line !== null && column !== null ? lookup.original({ file, line, column }) : undefined
    if (place) return place.file
  }
  return undefined
}

/**
 * Deals things out to the files that made them; what a file outside the shop made goes to the first file that uses it.
 * So a thing that many files import and export again is one thing in one document.
 */
function dealOut(
  files: readonly CodeFile[],
  ran: readonly Ran[],
  lookup: SourceLookup,
): Map<string, object[]> {
  const dealt = new Map<string, object[]>(files.map(({ file }) => [file, []]))
  const seen = new Set<object>()
  const gathered = ran.map((result) => ('exported' in result ? gather(Object.values(result.exported)) : []))
  for (const [index, { file }] of files.entries()) {
    for (const thing of gathered[index] ?? []) {
      if (seen.has(thing)) continue
      seen.add(thing)
      const home = homeOf(thing, lookup)
      const list = dealt.get(home !== undefined && dealt.has(home) ? home : file)
      list?.push(thing)
    }
  }
  return dealt
}

function isWritten(value: unknown): value is object {
  return typeof value === 'object' && value !== null && !Array.isArray(value) && 'loomwright' in value
}

/** Documents a file exports as plain objects, in the shape that JSON has. */
const writtenIn = (result: Ran): object[] =>
  'exported' in result ? [...new Set(Object.values(result.exported).filter(isWritten))] : []

/** Places in a document that was written out as one object, without builders. */
function locateWritten(file: string, lookup: SourceLookup): SourceDocument['locate'] {
  return (path) => {
    const source = lookup.source(file)
    const key = source ? /\bloomwright['"]?\s*:/.exec(source.text) : null
    if (!source || !key) return startOf(file)
    const start = source.text.lastIndexOf('{', key.index)
    const span = { start: Math.max(0, start), end: source.text.length }
    return {
      file,
      ...source.lines.at(follow(source.text, { start: span.start, value: span, whole: false }, path).start),
    }
  }
}

function documentFrom(
  made: unknown,
  name: string,
  locate: SourceDocument['locate'],
  writtenAt?: SourceDocument['writtenAt'],
): { document: SourceDocument } | { trouble: Trouble } {
  const plain = plainData(made)
  if ('data' in plain)
    return { document: { name, data: plain.data, locate, ...(writtenAt ? { writtenAt } : {}) } }
  const { path, what } = plain.problem
  return {
    trouble: {
      what: `${path.length > 0 ? `${path.join('.')}: ` : ''}${what}`,
      fix: 'A description holds text, numbers, true and false, lists and plain objects, so that it can be kept as JSON.',
      place: locate(path),
    },
  }
}

function secondPolicy(things: readonly object[], file: string, lookup: SourceLookup): Trouble[] {
  const [, second] = things.filter((thing) => markOf(thing)?.kind === 'policy')
  if (!second) return []
  return [
    {
      what: 'this file has more than one shop policy',
      fix: 'Move all decisions into one policy.',
      place: locateTypescript({ policy: second }, ['policy'], file, lookup),
    },
  ]
}

/** A file that makes things but gives none away would be left out in silence. */
function silent(code: CodeFile, ran: Ran, bundle: Bundle, lookup: SourceLookup): Trouble[] {
  if (!('exported' in ran)) return []
  const exports = /\bexport\b/.test(lookup.source(code.file)?.text ?? '')
  const empty = Object.keys(ran.exported).length === 0
  const describes = bundle.describing.has(code.path)
  if (!(describes && !exports) && !(code.named && empty)) return []
  return [
    {
      what: 'the file exports nothing, so nothing in it is used',
      fix: 'Write “export” before each harness and installation.',
      place: startOf(code.file),
    },
  ]
}

/** An error reaches every file that imports the one that threw it; it is told once. */
function failures(ran: readonly Ran[]): Trouble[] {
  const troubles = ran.flatMap((result) => ('trouble' in result ? [result.trouble] : []))
  return [...new Map(troubles.map((trouble) => [JSON.stringify(trouble), trouble])).values()]
}

/**
 * Runs description files and takes up what they export: things the builders made, in lists and records too, and whatever those
 * mention. Functions and other values are passed over.
 */
export async function readTypescript(
  files: readonly CodeFile[],
  root: string,
  display: Display,
  trust: 'own' | 'apart' = 'own',
): Promise<CodeResult> {
  const paths = files.map(({ path }) => path)
  const apart = trust === 'apart' ? await import('./sandbox/run-apart.ts') : undefined
  const bundle = await (apart?.bundleApart ?? bundleTypescript)(paths, root, display)
  if ('troubles' in bundle)
    return { documents: [], troubles: bundle.troubles, inputs: paths, imported: paths, repeatable: false }
  const lookup = lookupFor(bundle, display)
  const names = files.map(({ file }) => file)
  const ran = apart
    ? await apart.runApart(bundle, names, lookup.original)
    : runTypescript(bundle, await import('../index.ts'), names, lookup.original)
  const troubles = failures(ran)
  const documents: SourceDocument[] = []
  const add = (result: ReturnType<typeof documentFrom>): void => {
    if ('document' in result) documents.push(result.document)
    else troubles.push(result.trouble)
  }
  const dealt = dealOut(files, ran, lookup)
  const everything = [...dealt.values()].flat()
  for (const [index, code] of files.entries()) {
    const result: Ran = ran[index] ?? { exported: {} }
    const things = dealt.get(code.file) ?? []
    const written = writtenIn(result)
    troubles.push(...secondPolicy(things, code.file, lookup), ...silent(code, result, bundle, lookup))
    const made = documentOf(things)
    if (things.length > 0)
      add(
        documentFrom(
          made,
          code.name,
          (path) => locateTypescript(made, path, code.file, lookup),
          writtenAtIn(made, () => everything, lookup),
        ),
      )
    for (const [number, one] of written.entries()) {
      const first = things.length === 0 && number === 0
      add(
        documentFrom(one, first ? code.name : `${code.name}+${number + 1}`, locateWritten(code.file, lookup)),
      )
    }
  }
  return {
    documents,
    troubles,
    inputs: bundle.inputs,
    imported: [...bundle.imported],
    repeatable: isRepeatable(bundle.code),
  }
}
