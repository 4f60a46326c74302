import { relative, resolve } from 'node:path'
import { quote } from '../base/quote.ts'
import { suggest } from '../base/suggest.ts'
import { countLevels } from '../report/check-report.ts'
import { printSummary } from '../report/summary-text.ts'
import { countOf } from '../report/text-layout.ts'
import { type Args, CLEAN, type Runner, STOPS_FOUND, UsageError } from './command.ts'
import { type DrawTarget, drawTargets } from './draw-targets.ts'
import { readArrangements } from './kept-arrangements.ts'
import { Misshapen } from './misshapen.ts'
import { type DrawWish, drawings, judge } from './pipeline.ts'
import { trustOf } from './trust-of.ts'

function missing(kind: string, name: string, known: readonly string[]): UsageError {
  const near = suggest(name, known)[0]
  const list = known.length > 0 ? `there is ${known.join(', ')}` : `there is no ${kind} at all`
  return new UsageError(
    `no ${kind} is called ${quote(name)}: ${list}`,
    near ? `--${kind} ${near}` : `name one of them, or leave --${kind} out to draw all`,
  )
}

/** The drawings asked for: one by name, or all. */
function chosen(all: readonly DrawTarget[], args: Args): readonly DrawTarget[] {
  const named = (['installation', 'harness'] as const).filter((kind) => args.text(kind) !== undefined)
  if (named.length > 1)
    throw new UsageError('--harness and --installation cannot be given together', 'give one of them')
  const [kind] = named
  if (!kind) return all
  const name = args.text(kind) ?? ''
  const ofKind = all.filter((target) => target.kind === kind)
  const found = ofKind.filter(({ id }) => id === name)
  if (found.length > 0) return found
  throw missing(
    kind,
    name,
    ofKind.map(({ id }) => id),
  )
}

/** What is to be drawn, from flags that leave each other out. */
function wishOf(args: Args): DrawWish {
  const kinds = (['face', 'formboard', 'diagram'] as const).filter((kind) => args.flag(kind))
  if (kinds.length > 1)
    throw new UsageError(`--${kinds.join(' and --')} cannot be given together`, 'give one of them at a time')
  const what = kinds[0] ?? 'wiring'
  const pdf = args.flag('pdf')
  const paper = args.text('paper')
  if (paper !== undefined && what !== 'formboard')
    throw new UsageError(
      '--paper is the paper of a formboard; other drawings choose their own',
      'add --formboard, or leave --paper out',
    )
  return { what, pdf, paper: paper === 'letter' ? 'letter' : 'a4' }
}

function nothingDrawn(what: DrawWish['what']): UsageError {
  if (what === 'diagram')
    return new UsageError('a diagram shows an installation, and there is none', 'name it with --installation')
  if (what === 'formboard')
    return new UsageError(
      'a formboard shows a harness with wires, and there is none',
      'name it with --harness',
    )
  return new UsageError('there is nothing to draw', 'describe a harness or an installation')
}

/** `draw [FOLDER|FILE…]`: wiring drawings, formboards, diagrams or connector faces as SVG or PDF files. */
export const runDraw: Runner = async (args, io) => {
  const to = args.text('to') ?? 'drawings'
  const wish = wishOf(args)
  const judged = await judge(args.positionals, io, trustOf(args))
  if (judged.misshapen.length > 0) throw new Misshapen(judged.misshapen, judged)
  const kept = await readArrangements(args, io)
  const files = await drawings(judged, chosen(drawTargets(judged.looms), args), { ...wish, kept }, io)
  if (files.size === 0 && wish.what !== 'face') throw nothingDrawn(wish.what)
  io.progress.say('writing')
  const { writeOutput } = await import('../write/write-output.ts')
  const written = await writeOutput(resolve(io.cwd, to), files)
  await kept.save()
  io.progress.done()
  io.out(printSummary(judged.result, io.width, io.colour))
  const folder = relative(io.cwd, written.folder) || '.'
  io.out(
    `Drew ${countOf(files.size, 'file')} into ${folder}:\n${[...files.keys()].map((name) => `  ${name}\n`).join('')}`,
  )
  return countLevels(judged.result.findings).stop > 0 ? STOPS_FOUND : CLEAN
}
