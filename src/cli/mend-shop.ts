import { readFile } from 'node:fs/promises'
import { dirname } from 'node:path'
import { type Finding, identity } from '../base/finding.ts'
import { valueAt } from '../check/mends/change-data.ts'
import { shopJudge } from '../check/mends/judge-shop.ts'
import { type MendPlan, planMends } from '../check/mends/plan-mends.ts'
import type { Shop } from '../describe/shop.ts'
import type { SourceText } from '../read/shop-source.ts'
import { type MendReport, printMends } from '../report/mend-text.ts'
import { printPatch } from '../report/patch.ts'
import type { Loom } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'
import { replaceTexts } from '../write/replace-text.ts'
import { type Args, CLEAN, STOPS_FOUND, UsageError } from './command.ts'
import type { Io } from './io.ts'
import { type FileEdits, type PlacedEdits, placeEdits } from './mend-edits.ts'
import { type Judged, judge } from './pipeline.ts'
import { trustOf } from './trust-of.ts'

/** Figures cited in procedures that an edit would make untrue. */
async function citationsOf(shop: Shop) {
  if (shop.procedures.length === 0) return undefined
  const { checkCitations } = await import('../guide/check-citations.ts')
  const { ruleList } = await import('../report/rule-list.ts')
  const ruleIds = ruleList.map(({ id }) => id)
  return (loom: Loom, solution: Solution): readonly Finding[] =>
    checkCitations(loom, solution, shop.procedures, { ruleIds })
}

/** The certain cures of a shop that was judged. */
export async function planFor({ source, shop }: Judged, io: Io): Promise<MendPlan> {
  io.progress.say('trying cures')
  const also = await citationsOf(shop)
  const judgeShop = shopJudge({ procedures: source.procedures, ...(also ? { also } : {}) })
  const plan = planMends(source.documents, judgeShop)
  io.progress.done()
  return plan
}

/** The folder of the shop: the one that the names of documents start from. */
function rootOf(texts: readonly SourceText[]): string {
  const [first] = texts
  if (!first) return '.'
  return first.name.split('/').reduce((path) => dirname(path), first.path)
}

async function patchOf(files: readonly FileEdits[]): Promise<string> {
  const patches = await Promise.all(
    files.map(async ({ source, edits }) => {
      const bytes = await readFile(source.path)
      // A patch speaks of the bytes of the first line, and the mark is among them.
      const bom = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf
      if (!bom) return printPatch(source.file, source.text, edits)
      const moved = edits.map((edit) => ({ ...edit, start: edit.start + 1, end: edit.end + 1 }))
      return printPatch(source.file, `\ufeff${source.text}`, moved)
    }),
  )
  return patches.join('')
}

function reportOf(plan: MendPlan, placed: PlacedEdits, isDry: boolean): MendReport {
  const json = new Set(placed.json.map(({ source }) => source.name))
  const words = new Set(placed.inWords)
  const applied = plan.mended.filter((one) => one.edit.changes.every(({ at }) => json.has(at.doc)))
  return {
    applied,
    patched: plan.mended.filter((one) => !applied.includes(one) && !words.has(one)),
    inWords: placed.inWords,
    unmended: plan.unmended,
    isDry,
  }
}

function difference(before: readonly Finding[], after: readonly Finding[]): Finding[] {
  const known = new Set(after.map(identity))
  return before.filter((finding) => !known.has(identity(finding)))
}

const everything = ({ result }: Judged): readonly Finding[] => [...result.findings, ...result.heldBack]

async function write(placed: PlacedEdits, { source }: Judged): Promise<void> {
  if (placed.json.length === 0) return
  await replaceTexts(
    placed.json.map(({ source: { path, file, text }, after }) => ({ path, file, before: text, after })),
    rootOf(source.texts),
  )
}

function refuseMixed(args: Args): void {
  if (args.text('baseline') !== undefined)
    throw new UsageError('--mend mends the shop as it is, so it takes no --baseline', 'leave --baseline out')
  const format = args.text('format') ?? 'text'
  if (format !== 'text' && !(format === 'json' && args.flag('dry-run')))
    throw new UsageError(
      `--mend cannot print ${format}`,
      'check --mend --dry-run --format json, which gives findings with their edits',
    )
}

/** Prints a report of what was judged, in the format asked for. */
type Print = (judged: Judged) => Promise<string>

/**
 * `check --mend`: finds the certain cures, puts those of JSON files in place, prints a patch for TypeScript, and checks again.
 * With `--dry-run` nothing is written and the patch has both.
 */
export async function mendShop(
  args: Args,
  io: Io,
  print: Print,
): Promise<{ text: string; status: number; watch: readonly string[] }> {
  refuseMixed(args)
  const isDry = args.flag('dry-run')
  const before = await judge(args.positionals, io, trustOf(args))
  const plan = await planFor(before, io)
  const status = (judged: Judged) =>
    judged.result.findings.some(({ level }) => level === 'stop') ? STOPS_FOUND : CLEAN
  const { watch } = before.source
  if (args.text('format') === 'json') {
    const edits = new Map(plan.mended.map((one) => [identity(one), one.edit]))
    const findings = before.result.findings.map((finding) => {
      const edit = edits.get(identity(finding))
      return edit ? { ...finding, edit } : finding
    })
    const judged = { ...before, result: { ...before.result, findings } }
    return { text: await print(judged), status: status(before), watch }
  }
  const placed = placeEdits(before.source, plan)
  const data = new Map(before.source.documents.map((document) => [document.name, document]))
  const options = {
    width: io.width,
    locate: ({ doc, path }: Finding['at']) => before.source.locate({ doc, path }),
    oldValue: ({ doc, path }: Finding['at']) => valueAt(data.get(doc)?.data, path),
  }
  const report = reportOf(plan, placed, isDry)
  const code = isDry ? [...placed.json, ...placed.code] : placed.code
  const patch = await patchOf(code)
  if (isDry) return { text: `${printMends(report, options)}${patch}`, status: status(before), watch }
  await write(placed, before)
  const after = placed.json.length > 0 ? await judge(args.positionals, io, trustOf(args)) : before
  const gone = difference(everything(before), everything(after))
  const come = difference(everything(after), everything(before))
  const words = printMends({ ...report, result: { gone, come } }, options)
  return { text: `${words}${patch}${patch ? '\n' : ''}${await print(after)}`, status: status(after), watch }
}
