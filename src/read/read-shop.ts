import { readFileSync, statSync } from 'node:fs'
import { realpath } from 'node:fs/promises'
import { relative, resolve, sep } from 'node:path'
import type { Trouble } from '../base/finding.ts'
import type { Place } from '../base/place.ts'
import { isRecord } from '../describe/is-record.ts'
import { LIMITS } from '../describe/limits.ts'
import type { Procedure } from '../describe/shop.ts'
import { displayPath, type FoundFile, findFiles } from './find-files.ts'
import { LineIndex } from './line-index.ts'
import { readText } from './read-text.ts'
import type { CodeResult } from './read-typescript.ts'
import type { ShopSource, SourceDocument } from './shop-source.ts'
import { startOf, TroubleError } from './trouble-error.ts'
import type { Trust } from './trust.ts'

interface TextFile extends FoundFile {
  readonly name: string
  readonly file: string
  readonly text: string
}

interface Reading {
  readonly documents: SourceDocument[]
  readonly records: SourceDocument[]
  readonly procedures: Procedure[]
  readonly troubles: Trouble[]
}

const isDescription = (data: unknown): boolean =>
  typeof data === 'object' && data !== null && 'loomwright' in data

/** JSON that code imports is that code's business, unless it says that it is a description. */
async function takeJson(
  { text, file, name, path }: TextFile,
  imported: ReadonlySet<string>,
  into: Reading,
): Promise<void> {
  const { jsonLocator, parseJson } = await import('./parse-json.ts')
  try {
    const data = parseJson(text, file)
    const document = { name, data, locate: jsonLocator(text, file) }
    if (isRecord(name, data)) into.records.push(document)
    else if (!imported.has(path) || isDescription(data)) into.documents.push(document)
  } catch (error) {
    if (!(error instanceof TroubleError)) throw error
    into.troubles.push(error.trouble)
  }
}

async function readTexts(
  found: readonly FoundFile[],
  names: (path: string) => { name: string; file: string },
  troubles: Trouble[],
): Promise<TextFile[]> {
  const texts: TextFile[] = []
  for (const file of found) {
    const named = names(file.path)
    try {
      texts.push({ ...file, ...named, text: await readText(file.path, named.file) })
    } catch (error) {
      if (!(error instanceof TroubleError)) throw error
      troubles.push(error.trouble)
    }
  }
  return texts
}

/** The text of a file outside the shop that a description imports. */
function otherText(file: string, cwd: string): string | undefined {
  try {
    const path = resolve(cwd, file)
    if (statSync(path).size > LIMITS.fileBytes) return undefined
    const text = readFileSync(path, 'utf8')
    return text.includes('\0') ? undefined : text
  } catch {
    return undefined
  }
}

/**
 * Hands out lines of what was read, and of what code imports. No other file is opened for it: a link that was refused must not be
 * shown after all, by the line that a message quotes.
 */
function lineReader(
  texts: readonly TextFile[],
  imported: readonly string[],
  cwd: string,
): (place: Place) => string | undefined {
  const others = new Set(imported.map((path) => displayPath(path, cwd)))
  const indexes = new Map<string, LineIndex>()
  const byFile = new Map(texts.map(({ file, text }) => [file, text]))
  return ({ file, line }) => {
    const known = indexes.get(file)
    if (known) return known.line(line)
    const text = byFile.get(file) ?? (others.has(file) ? otherText(file, cwd) : undefined)
    if (text === undefined) return undefined
    const index = new LineIndex(text)
    indexes.set(file, index)
    return index.line(line)
  }
}

const byPlace = (a: Trouble, b: Trouble): number => {
  const [left, right] = [a.place ?? startOf(''), b.place ?? startOf('')]
  if (left.file !== right.file) return left.file < right.file ? -1 : 1
  return left.line - right.line || left.column - right.column
}

/** Reads procedures' places, which are a line and a column already, and documents' by their own means. */
function locator(documents: readonly SourceDocument[], texts: readonly TextFile[]): ShopSource['locate'] {
  const byName = new Map(documents.map((document) => [document.name, document]))
  const files = new Map(texts.map(({ name, file }) => [name, file]))
  return ({ doc, path }) => {
    const document = byName.get(doc)
    if (document) return document.locate(path)
    const [line, column] = path.map(Number)
    return { file: files.get(doc) ?? doc, line: line || 1, column: column || 1 }
  }
}

/** A stranger's TypeScript, named by its first file: what else there is would say the same again. */
function refusedCode([first, ...more]: readonly TextFile[]): Trouble[] {
  if (!first) return []
  const others = more.length === 0 ? '' : ` (and ${more.length} more)`
  return [
    {
      what: `this${others} is TypeScript of somebody not trusted, and was not run`,
      fix: 'Read it; then leave --untrusted out, or put --apart, which runs it without files, processes and network.',
      place: startOf(first.file),
    },
  ]
}

async function readCode(
  code: readonly TextFile[],
  root: string,
  display: (path: string) => string,
  trust: Trust,
): Promise<CodeResult> {
  const none = { documents: [], troubles: [], inputs: [], imported: [], repeatable: true }
  if (code.length === 0) return none
  if (trust === 'refuse') return { ...none, troubles: refusedCode(code) }
  const { readTypescript } = await import('./read-typescript.ts')
  return readTypescript(code, root, display, trust)
}

/**
 * Reads a shop's files: descriptions in TypeScript and JSON, procedures in Markdown. JSON is never executed; TypeScript is run in
 * this process unless it is a stranger's. Bad input of any kind becomes a trouble at its place; nothing is thrown for it.
 * @param paths files and folders, as typed
 * @param cwd the folder that relative paths start from, and that messages count from
 * @param trust whose TypeScript it is; a stranger's is not run, or run apart
 */
export async function readShop(
  paths: string | readonly string[],
  cwd: string,
  trust: Trust = 'own',
): Promise<ShopSource> {
  const from = await realpath(cwd)
  const found = await findFiles(typeof paths === 'string' ? [paths] : paths, from)
  const display = (path: string): string => displayPath(path, from)
  const names = (path: string) => ({
    name: relative(found.root, path).split(sep).join('/'),
    file: display(path),
  })
  const into: Reading = { documents: [], records: [], procedures: [], troubles: [...found.troubles] }
  const texts = await readTexts(found.files, names, into.troubles)
  const code = texts.filter(({ kind }) => kind === 'typescript')
  const ran = await readCode(code, found.root, display, trust)
  into.documents.push(...ran.documents)
  into.troubles.push(...ran.troubles)
  const imported = new Set(ran.inputs)
  for (const file of texts.filter(({ kind }) => kind === 'json')) await takeJson(file, imported, into)
  for (const { kind, name, text } of texts)
    if (kind === 'markdown') into.procedures.push({ file: name, text })
  if (into.documents.length === 0 && into.troubles.length === 0)
    into.troubles.push({
      what: 'no description was found',
      fix: 'Name a folder or a file that holds a harness: “loomwright init” writes one to start from.',
    })
  const known = new Set(texts.map(({ path }) => path))
  return {
    documents: into.documents.sort((a, b) => (a.name < b.name ? -1 : 1)),
    records: into.records.sort((a, b) => (a.name < b.name ? -1 : 1)),
    procedures: into.procedures,
    texts: texts.map(({ name, file, path, kind, text }) => ({ name, file, path, kind, text })),
    watch: [...new Set([...found.folders, ...found.files.map(({ path }) => path), ...ran.inputs])].sort(),
    imported: [...new Set([...ran.imported, ...ran.inputs.filter((path) => !known.has(path))])],
    repeatable: ran.repeatable,
    troubles: into.troubles.sort(byPlace),
    locate: locator([...into.documents, ...into.records], texts),
    sourceLine: lineReader(texts, ran.inputs, from),
  }
}
