import type { Finding } from '../base/finding.ts'
import type { Locate, Place, Pointer } from '../base/place.ts'
import type { CheckResult, KeepRaw } from '../check/check.ts'
import type { RawResult } from '../check/run-rules.ts'
import type { JudgedRecords } from '../commission/judge-records.ts'
import type { Shop } from '../describe/shop.ts'
import type { RecordsRead, ShopRecords } from '../describe/shop-records.ts'
import type { TilePaper } from '../draw/formboard/board-tiles.ts'
import type { ShopSource } from '../read/shop-source.ts'
import type { Trust } from '../read/trust.ts'
import type { Loom } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'
import type { KeepPages } from '../wiki/publish-site.ts'
import type { Job, Pictures, SiteFile, SiteInput } from '../wiki/site-input.ts'
import type { OutputFiles } from '../write/write-output.ts'
import type { PageKind } from './draw-pages.ts'
import type { DrawTarget } from './draw-targets.ts'
import type { Io } from './io.ts'
import type { KeepJob } from './keep-jobs.ts'
import type { KeptArrangements } from './kept-arrangements.ts'
import type { OwnTemplates } from './own-templates.ts'
import type { DeskCount, DeskOptions, Keeping } from './picture-desk.ts'
import { Unreadable } from './unreadable.ts'

/*
 * The phases, in order. Each takes what the one above gives and is loaded when it is reached; no other file calls two of them.
 *
 *   read      files             → text as data, with places              describe()
 *   describe  data              → shop, findings of shape                describe()
 *   resolve   shop              → looms, findings of names               judge()
 *   solve     loom              → volts, amps, ohms                      judge()
 *   guide     procedures, looms → findings of stale citations            judge()
 *   commission records, looms   → readings judged, findings              judge()
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
  /** What was built and measured, and findings of the shape of those files: nothing is left out of the description for them. */
  readonly records: ShopRecords
  readonly recordFindings: readonly Finding[]
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
  /** What was made of unchanged jobs by earlier builds. */
  readonly keep?: KeepJob
  /** What rules said of each loom, so that none is judged twice. */
  readonly keepRaw?: KeepRaw
  readonly looms: readonly SolvedLoom[]
  readonly commissioned: JudgedRecords
  readonly result: CheckResult
}

/** Read and describe. Throws {@link Unreadable} when a file cannot be read: what is missing could be the fault that matters. */
export async function describe(inputs: readonly string[], io: Io, trust: Trust = 'own'): Promise<Described> {
  io.progress.say('reading')
  const { readShop } = await import('../read/read-shop.ts')
  const source = await readShop(inputs.length > 0 ? inputs : ['.'], io.cwd, trust)
  if (source.troubles.length > 0) throw new Unreadable(source.troubles, source)
  const { describeShop } = await import('../describe/validate.ts')
  const { shop, findings, written } = describeShop(source.documents, source.procedures)
  const kept = await keptRecords(source)
  const locate = (pointer: Pointer): Place =>
    inTemplate(pointer) ?? source.locate(inProcedure(pointer) ?? kept.written(written(pointer)))
  return {
    source,
    shop,
    misshapen: findings,
    records: kept.records,
    recordFindings: kept.findings,
    locate,
    sourceLine: source.sourceLine,
  }
}

/** Records by their shape; nothing is loaded for a shop that keeps none. */
async function keptRecords({ records }: ShopSource): Promise<RecordsRead> {
  const none = { readings: [], asBuilt: [] }
  if (records.length === 0) return { records: none, findings: [], written: (pointer) => pointer }
  return (await import('../describe/shop-records.ts')).readRecords(records)
}

/** A pointer into a template of the shop, which carries line and column; the reader knows nothing of templates. */
function inTemplate({ doc, path }: Pointer): Place | undefined {
  const [, line, , column] = path
  return doc.endsWith('.hbs') ? { file: doc, line: Number(line), column: Number(column) } : undefined
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

/** Readings against the limits of their installations; nothing is loaded for a shop that keeps none. */
async function commission(
  { readings, asBuilt }: ShopRecords,
  looms: readonly SolvedLoom[],
): Promise<JudgedRecords> {
  if (readings.length + asBuilt.length === 0) return { assets: [], findings: [] }
  const { judgeRecords } = await import('../commission/judge-records.ts')
  return judgeRecords({ readings, asBuilt }, looms)
}

/** Papers issued under another match code; with `made`, also what the papers count and test, which costs making them. */
async function paperFindings(looms: readonly SolvedLoom[], made: boolean, keep: KeepJob): Promise<Finding[]> {
  const isIssued = ({ loom }: SolvedLoom) =>
    [loom.source, ...loom.looms.map((use) => use.harness)].some(({ match }) => match !== undefined)
  const issued = looms.filter(isIssued)
  const { auditIssue } =
    issued.length > 0 ? await import('../sheets/audit-issue.ts') : { auditIssue: () => [] }
  const changed = issued.flatMap(({ loom }) => auditIssue(loom))
  if (!made) return changed
  const { auditPapers } = await import('../sheets/audit-papers.ts')
  return [
    ...changed,
    ...looms.flatMap(({ loom, solution }) => keep('audit', loom, '', () => auditPapers(loom, solution))),
  ]
}

/** Findings that are no rule's and belong on the page of a job all the same. */
const OF_PAPERS: ReadonlySet<string> = new Set([
  'stale-citation',
  'pick-list-complete',
  'ring-out-complete',
  'issued-paper-unchanged',
])

/** Code that asks for the clock may describe other things from the same files, so nothing of it is kept. */
async function keeperOf({ source, shop }: Described, keeping: Keeping | undefined): Promise<KeepJob> {
  if (!keeping || !source.repeatable) return (_kind, _loom, _besides, make) => make()
  const { keepJobs } = await import('./keep-jobs.ts')
  return keepJobs(keeping, source, shop)
}

/** What rules say of a loom is asked for twice, for the shop and for its own pages. */
function keepRaw(keep: KeepJob): KeepRaw {
  const known = new Map<Loom, RawResult>()
  return (loom, judgeAnew) => {
    const raw = known.get(loom) ?? keep('rules', loom, '', judgeAnew)
    known.set(loom, raw)
    return raw
  }
}

/** Read, describe, resolve, solve and check, with `papers` also what will be printed. Throws {@link Unreadable}. */
export async function judge(
  inputs: readonly string[],
  io: Io,
  trust: Trust = 'own',
  papers = false,
  keeping: Keeping | undefined = undefined,
): Promise<Judged> {
  const described = await describe(inputs, io, trust)
  const keep = await keeperOf(described, keeping)
  const { resolveShop } = await import('../resolve/resolve.ts')
  const resolved = resolveShop(described.shop)
  const looms = await solveAll(resolved.looms, io)
  io.progress.say('checking')
  const { checkShop } = await import('../check/check.ts')
  const stale = await staleCitations(looms, described.shop)
  const printed = await paperFindings(looms, papers, keep)
  const commissioned = await commission(described.records, looms)
  const { policy } = described.shop
  const raw = keepRaw(keep)
  const ofRecords = [...described.recordFindings, ...commissioned.findings]
  const result = checkShop(
    {
      looms,
      findings: [...described.misshapen, ...resolved.index.findings, ...stale, ...printed, ...ofRecords],
    },
    { ...(policy ? { policy } : {}), keep: raw },
  )
  io.progress.done()
  return { ...described, keep, keepRaw: raw, looms, commissioned, result }
}

const isAbout = (loom: Loom, subject: string): boolean =>
  subject === loom.id || subject.startsWith(`${loom.id}/`) || subject.startsWith(`${loom.id}.`)

/** Findings of one job as its own papers show them: a fault that two jobs share stands on the papers of both. */
async function jobsOf(judged: Judged): Promise<Job[]> {
  const { checkLoom } = await import('../check/check.ts')
  const { policy } = judged.shop
  const { keepRaw: keep } = judged
  const options = { ...(policy ? { policy } : {}), ...(keep ? { keep } : {}) }
  const stale = judged.result.findings.filter(({ rule }) => OF_PAPERS.has(rule))
  return judged.looms.map(({ loom, solution }) => {
    const { findings, notChecked, questions } = checkLoom(loom, solution, options)
    const cited = stale.filter(({ subject }) => isAbout(loom, subject))
    return { loom, solution, findings: [...findings, ...cited], notChecked, questions }
  })
}

/** How drawings are wanted. */
export interface DrawWish {
  readonly what: PageKind
  /** Paper of the true-size sheets of a formboard. */
  readonly paper: TilePaper
  /** One vector PDF for each target instead of an SVG for each sheet. */
  readonly pdf: boolean
  /** Where how wiring drawings were arranged is kept. */
  readonly kept?: KeptArrangements
}

/** Sheets of every target as files by name. */
async function sheetFiles(
  jobs: ReadonlyMap<Loom, readonly Finding[]>,
  targets: readonly DrawTarget[],
  what: PageKind,
  { paper, pdf, kept }: DrawWish,
  io: Io,
): Promise<OutputFiles> {
  const { pageFiles, targetPages } = await import('./draw-pages.ts')
  const { asFiles } = await import('./draw-looms.ts')
  const files = new Map<string, string | Uint8Array>()
  for (const target of targets) {
    const name = what === 'wiring' ? target.name : `${what} ${target.name}`
    io.progress.say(`drawing ${name}`)
    const pages = await targetPages(target, what, jobs.get(target.loom) ?? [], paper, kept)
    for (const [words, content] of pageFiles(name, pages, pdf)) files.set(words, content)
  }
  return asFiles(files, pdf ? 'pdf' : 'svg')
}

/** Wiring drawings, formboards, diagrams or the faces of connectors, as files by name. */
export async function drawings(
  judged: Judged,
  targets: readonly DrawTarget[],
  wish: DrawWish,
  io: Io,
): Promise<OutputFiles> {
  const draw = await import('./draw-looms.ts')
  const { matchCodeOf } = await import('../sheets/match-code.ts')
  const jobs = new Map((await jobsOf(judged)).map((job) => [job.loom, job.findings]))
  const { what } = wish
  if (what === 'formboard' || what === 'diagram' || wish.pdf) return sheetFiles(jobs, targets, what, wish, io)
  const faces = what === 'face'
  const pictures = new Map<string, string>()
  for (const { name, loom, use } of targets) {
    io.progress.say(`drawing ${name}`)
    const findings = jobs.get(loom) ?? []
    const drawn = faces
      ? draw.drawHalves(name, loom, use, 'embedded')
      : await draw.drawSheets(name, {
          loom,
          use,
          findings,
          matchCode: matchCodeOf(loom, use),
          style: 'embedded',
          ...(wish.kept ? { kept: wish.kept } : {}),
        })
    for (const [words, svg] of drawn) pictures.set(words, svg)
  }
  return draw.asFiles(pictures)
}

/** The faces of connectors, drawn when a page asks for them. */
async function facePictures(looms: readonly SolvedLoom[]): Promise<Pictures['faces']> {
  const { facesOfFamily, facesOfHalf } = await import('./draw-looms.ts')
  const homes = new Map(looms.flatMap(({ loom }) => loom.halves.map((half) => [half, loom] as const)))
  return ({ family, gender, half, bare }) => {
    const home = half && homes.get(half)
    return home ? facesOfHalf(home, half, 'shared', bare) : facesOfFamily(family, gender, 'shared')
  }
}

type Past = Pick<SiteInput, 'history' | 'changeSheets'>

/** The pages of the shop as files by name. */
export async function pages(judged: Judged, io: Io, past: Past = {}): Promise<OutputFiles> {
  return (await publish(judged, io, { past })).files
}

/** The pages of a shop, what was wrong with its own templates, and how its drawings came about. */
export interface PublishedShop {
  /** Empty where only a share of the drawings was asked for. */
  readonly files: OutputFiles
  readonly findings: readonly Finding[]
  readonly count: DeskCount
}

/** What pages are made with besides what was judged. */
export interface PublishOptions {
  readonly past?: Past
  readonly own?: OwnTemplates
  readonly desk?: DeskOptions
  /** Where how drawings were arranged is kept. */
  readonly arranged?: KeptArrangements
}

const NO_TEMPLATES: OwnTemplates = { templates: {}, troubles: [] }

/** Publishes with the pages of jobs that were kept. */
function publishWith(
  publishSite: (input: SiteInput, keep?: KeepPages) => readonly SiteFile[],
  whole: SiteInput,
  { keep }: Judged,
  besides: string,
): readonly SiteFile[] {
  if (!keep) return publishSite(whole)
  const site = publishSite(whole, (part, loom, make) => keep(`pages ${part}`, loom, besides, make))
  // Papers whose names fold into one are numbered in the order they are asked for, which is another where some are not made anew.
  return new Set(site.map(({ path }) => path)).size === site.length ? site : publishSite(whole)
}

/** Draws and publishes a shop; with a share, draws only that. */
export async function publish(
  judged: Judged,
  io: Io,
  { past = {}, own = NO_TEMPLATES, desk = {}, arranged }: PublishOptions = {},
): Promise<PublishedShop> {
  const looms = await jobsOf(judged)
  const { showPlace } = await import('../base/place.ts')
  const { ruleList } = await import('../report/rule-list.ts')
  const { catalogueCoverage } = await import('../report/catalogue-coverage.ts')
  const { readSite } = await import('./read-site.ts')
  const { siteMap } = await import('../wiki/site-map.ts')
  const { publishSite } = await import('../wiki/publish-site.ts')
  const { templates, assets, ours } = await readSite(own.templates)
  const input: Omit<SiteInput, 'pictures'> = {
    shop: judged.shop,
    looms,
    shopFindings: judged.result.findings.filter(
      ({ subject }) => !looms.some(({ loom }) => isAbout(loom, subject)),
    ),
    rules: ruleList,
    commissioned: judged.commissioned,
    coverage: catalogueCoverage(),
    templates,
    assets,
    showPlace: (pointer) => showPlace(judged.locate(pointer)),
    ...past,
  }
  const none: Pictures = { harness: () => [], installation: () => [], faces: () => [] }
  const { drawSite } = await import('./draw-site.ts')
  const say = (done: number, all: number) => {
    if (done < all) io.progress.say(`drawing ${done + 1} of ${all}`)
  }
  const map = siteMap({ ...input, pictures: none })
  const { shownOfOthers } = await import('./keep-jobs.ts')
  const { pictures, count } = await drawSite(map, { say, ...desk }, arranged)
  if (desk.share) return { files: new Map(), findings: [], count }
  io.progress.say('publishing')
  const whole = { ...input, pictures: { ...pictures, faces: await facePictures(judged.looms) } }
  // Change sheets and arrangements are not among the files of the shop, and its templates are judged by filling them in.
  const mayKeep = !past.changeSheets && !arranged && own === NO_TEMPLATES
  const first = mayKeep
    ? publishWith(publishSite, whole, judged, shownOfOthers(map, input, io.cwd))
    : publishSite(whole)
  const { templateFindings } = await import('./own-templates.ts')
  const findings = templateFindings(own, templates, ours)
  const shopFindings = [...(input.shopFindings ?? []), ...findings]
  // Only filling them in shows what is wrong with templates, and the pages have to tell it.
  const site = findings.length === 0 ? first : publishSite({ ...whole, shopFindings })
  return { files: new Map(site.map(({ path, content }) => [path, content])), findings, count }
}
