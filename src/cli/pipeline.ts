import type { Finding } from '../base/finding.ts'
import type { Locate, Place, Pointer } from '../base/place.ts'
import type { CheckResult } from '../check/check.ts'
import type { Shop } from '../describe/shop.ts'
import type { ShopSource } from '../read/shop-source.ts'
import type { Loom } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'
import type { OutputFiles } from '../write/write-output.ts'
import type { Io } from './io.ts'
import { Unreadable } from './unreadable.ts'

/*
 * The phases, in order. Each takes what the one above gives and is loaded when it is reached; no other file calls two of them.
 *
 *   read      files             → text as data, with places              describe()
 *   describe  data              → shop, findings of shape                describe()
 *   resolve   shop              → looms, findings of names               judge()
 *   solve     loom              → volts, amps, ohms                      judge()
 *   guide     procedures, looms → findings of stale citations            judge()
 *   check     looms, solutions  → findings, and what was not checked     judge()
 *   draw      loom, findings    → pictures                               drawings(), pages()
 *   sheets    loom, solution    → tables, labels, guides                 pages()
 *   wiki      all of it         → pages                                  pages()
 *   write     files             → a folder, whole or not at all          the command, once
 */

/** What reading and describing give. */
export interface Described {
  readonly source: ShopSource
  readonly shop: Shop
  /** Findings of shape: parts of the description were left out for them. */
  readonly misshapen: readonly Finding[]
  readonly locate: Locate
  readonly sourceLine: (place: Place) => string | undefined
}

/** A loom with what was computed from it. */
export interface SolvedLoom {
  readonly loom: Loom
  readonly solution: Solution
}

/** What a check gives. */
export interface Judged extends Described {
  readonly looms: readonly SolvedLoom[]
  readonly result: CheckResult
  /** A harness by itself, with stand-ins for the equipment it fits; undefined if there is none of that name. */
  readonly alone: (harness: string) => Promise<SolvedLoom | undefined>
}

/** Read and describe. Throws {@link Unreadable} when a file cannot be read: what is missing could be the fault that matters. */
export async function describe(inputs: readonly string[], io: Io): Promise<Described> {
  io.progress.say('reading')
  const { readShop } = await import('../read/read-shop.ts')
  const source = await readShop(inputs.length > 0 ? inputs : ['.'], io.cwd)
  if (source.troubles.length > 0) throw new Unreadable(source.troubles, source)
  const { describeShop } = await import('../describe/validate.ts')
  const { shop, findings, written } = describeShop(source.documents, source.procedures)
  const locate = (pointer: Pointer): Place => source.locate(inProcedure(pointer) ?? written(pointer))
  return { source, shop, misshapen: findings, locate, sourceLine: source.sourceLine }
}

/** A pointer into a procedure, which carries line and column, in the form the reader takes. */
function inProcedure({ doc, path }: Pointer): Pointer | undefined {
  const [lineWord, line, columnWord, column] = path
  return lineWord === 'line' && columnWord === 'column'
    ? { doc, path: [Number(line), Number(column)] }
    : undefined
}

async function solveAll(looms: readonly Loom[], io: Io): Promise<SolvedLoom[]> {
  const { solve } = await import('../solve/solve.ts')
  return looms.map((loom) => {
    io.progress.say(`solving ${loom.id}`)
    return { loom, solution: solve(loom) }
  })
}

/** Citations are held against the shop's rules here; the parser for Markdown is loaded only where there are procedures. */
async function staleCitations(solved: readonly SolvedLoom[], shop: Shop): Promise<Finding[]> {
  if (shop.procedures.length === 0) return []
  const { checkCitations } = await import('../guide/check-citations.ts')
  const { ruleList } = await import('../report/rule-list.ts')
  const ruleIds = ruleList.map(({ id }) => id)
  return solved.flatMap(({ loom, solution }) => checkCitations(loom, solution, shop.procedures, { ruleIds }))
}

/** Read, describe, resolve, solve and check. Throws {@link Unreadable}. */
export async function judge(inputs: readonly string[], io: Io): Promise<Judged> {
  const described = await describe(inputs, io)
  const { resolveShop, resolveHarness } = await import('../resolve/resolve.ts')
  const resolved = resolveShop(described.shop)
  const looms = await solveAll(resolved.looms, io)
  io.progress.say('checking')
  const { checkShop } = await import('../check/check.ts')
  const stale = await staleCitations(looms, described.shop)
  const { policy } = described.shop
  const result = checkShop(
    { looms, findings: [...described.misshapen, ...resolved.index.findings, ...stale] },
    policy ? { policy } : {},
  )
  io.progress.done()
  const alone = async (harness: string): Promise<SolvedLoom | undefined> => {
    const loom = resolveHarness(resolved.index, harness)
    return loom && (await solveAll([loom], io))[0]
  }
  return { ...described, looms, result, alone }
}

/** Drawings of looms as files by name. */
export async function drawings(
  _judged: Judged,
  _looms: readonly SolvedLoom[],
  _faces: boolean,
  _io: Io,
): Promise<OutputFiles> {
  throw new Error('drawing is not wired up yet')
}

/** The pages of the shop as files by name. */
export async function pages(_judged: Judged, _io: Io): Promise<OutputFiles> {
  throw new Error('publishing is not wired up yet')
}
