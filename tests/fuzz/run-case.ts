import type { Locate } from '../../src/base/place.ts'
import { checkShop } from '../../src/check/check.ts'
import type { Io } from '../../src/cli/io.ts'
import { type Judged, pages } from '../../src/cli/pipeline.ts'
import { printChanges } from '../../src/cli/print-changes.ts'
import { changesData } from '../../src/compare/changes-data.ts'
import { changesMarkdown } from '../../src/compare/changes-markdown.ts'
import { compare } from '../../src/compare/compare.ts'
import type { Procedure } from '../../src/describe/shop.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { checkCitations } from '../../src/guide/check-citations.ts'
import { jsonLocator, parseJson } from '../../src/read/parse-json.ts'
import { TroubleError } from '../../src/read/trouble-error.ts'
import { printJson } from '../../src/report/json.ts'
import { ruleList } from '../../src/report/rule-list.ts'
import { printSarif } from '../../src/report/sarif.ts'
import { printText } from '../../src/report/text.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'
import { solve } from '../../src/solve/solve.ts'
import type { Case } from './corpus.ts'

/** How far a case came: text that was refused, a shape that was refused, judged with or without findings, or published. */
export type Reached = 'refused' | 'misshapen' | 'judged' | 'published'

/** A world that hears nothing. */
export const quiet: Io = {
  out: () => undefined,
  err: () => undefined,
  progress: { say: () => undefined, done: () => undefined },
  cwd: '.',
  width: 100,
  colour: false,
  errColour: false,
  debug: false,
}

/** Words that no text for people holds; they come from a value that was not there or no number. */
const LEAK = /\bNaN\b|\bundefined\b|\[object |\bInfinity\b/

/** @throws if a text holds a word that only a mistake of ours puts there */
export function expectWords(name: string, text: string): void {
  const found = LEAK.exec(text)
  if (found) {
    const around = text.slice(Math.max(0, found.index - 90), found.index + 60)
    throw new Error(`${name} says ${found[0]}: …${around}…`)
  }
}

/** Text of a page without its scripts and its machine-readable parts. */
const textOf = (html: string): string =>
  html.replace(/<script\b[\s\S]*?<\/script>/g, '').replace(/<style\b[\s\S]*?<\/style>/g, '')

/** Reads, describes, resolves, solves and checks, without files. Throws `TroubleError` for text that is no JSON. */
export function judgeText(text: string, procedures: readonly Procedure[]): Judged {
  const data = parseJson(text, 'case.json')
  const { shop, findings, written } = describeShop([{ name: 'case.json', data }], procedures)
  const find = jsonLocator(text, 'case.json')
  const locate: Locate = (pointer) =>
    pointer.doc === 'case.json' ? find(written(pointer).path) : { file: pointer.doc, line: 1, column: 1 }
  const resolved = resolveShop(shop)
  const looms = resolved.looms.map((loom) => ({ loom, solution: solve(loom) }))
  const ruleIds = ruleList.map(({ id }) => id)
  const stale = looms.flatMap(({ loom, solution }) =>
    checkCitations(loom, solution, shop.procedures, { ruleIds }),
  )
  const options = shop.policy ? { policy: shop.policy } : {}
  const result = checkShop({ looms, findings: [...findings, ...resolved.index.findings, ...stale] }, options)
  const sourceLine = () => undefined
  const source = {
    documents: [],
    records: [],
    procedures: [],
    texts: [],
    watch: [],
    imported: [],
    repeatable: true,
    troubles: [],
    locate,
    sourceLine,
  }
  const none = { readings: [], asBuilt: [] }
  const commissioned = { assets: [], findings: [] }
  return {
    source,
    shop,
    misshapen: findings,
    records: none,
    recordFindings: [],
    locate,
    sourceLine,
    looms,
    commissioned,
    result,
  }
}

/** The report as text, held against what no report may say. */
export function reportOf({ result, locate, sourceLine }: Judged): string {
  const text = printText(result, { width: 100, colour: false, locate, sourceLine })
  expectWords('the report', text)
  const json = printJson(result, locate, '1')
  if (/"(NaN|Infinity|undefined)"/.test(json)) throw new Error('the JSON report holds a word for no number')
  for (const { rule, facts } of result.findings)
    for (const [name, { value }] of Object.entries(facts))
      if (typeof value === 'number' && !Number.isFinite(value))
        throw new Error(`the fact ${name} of ${rule} is no number`)
  JSON.parse(printSarif(result, { locate, toolVersion: '1', rules: ruleList }))
  return text
}

/** Compares the case with what it was made from, both ways, in every form a program or person reads. */
function compareBoth(one: Judged, two: Judged): void {
  for (const [before, after] of [
    [one, two],
    [two, one],
  ] as const) {
    const changes = compare(before, after)
    const places = { before: before.locate, after: after.locate }
    const names = { before: 'before', after: 'after', places }
    expectWords('the review', changesMarkdown(changes, names))
    expectWords(
      'the sentences',
      printChanges(changes, { ...names, width: 100, colour: false, findingsOnly: false }),
    )
    JSON.parse(JSON.stringify(changesData(changes, places, '1')))
  }
}

/** Takes one description through every stage. Throws only for a fault of ours. */
export async function runCase({ text, procedures, before }: Case, draw: boolean): Promise<Reached> {
  let judged: Judged
  try {
    judged = judgeText(text, procedures)
  } catch (error) {
    if (!(error instanceof TroubleError)) throw error
    expectWords('the trouble', `${error.trouble.what} ${error.trouble.fix}`)
    return 'refused'
  }
  reportOf(judged)
  if (before !== undefined) compareBoth(judgeText(before, []), judged)
  if (judged.misshapen.length > 0) return 'misshapen'
  if (!draw) return 'judged'
  for (const [name, content] of await pages(judged, quiet))
    if (typeof content === 'string' && /\.(html|svg|csv|txt)$/.test(name)) expectWords(name, textOf(content))
  return 'published'
}
