import { relative, resolve } from 'node:path'
import { escapeTerminal } from '../base/escape.ts'
import { showPlace } from '../base/place.ts'
import { countLevels } from '../report/check-report.ts'
import { printSummary } from '../report/summary-text.ts'
import type { Written } from '../write/write-output.ts'
import { type Args, CLEAN, COULD_NOT_RUN, type Runner, STOPS_FOUND, UsageError } from './command.ts'
import type { Io } from './io.ts'
import { readArrangements } from './kept-arrangements.ts'
import { Misshapen } from './misshapen.ts'
import { type Judged, judge, publish } from './pipeline.ts'
import type { PastOfShop } from './read-history.ts'
import { showFailure } from './show-failure.ts'
import { trustOf } from './trust-of.ts'
import { Unreadable } from './unreadable.ts'

interface Built {
  readonly judged: Judged
  readonly written: Written
  /** Templates of the shop that were not used, and why, each with its line. */
  readonly templates: readonly string[]
}

const MOST_COMMITS = 100

/** Past states of the harnesses, as far back as asked; nothing where none are asked for. */
async function pastOf(judged: Judged, args: Args, io: Io): Promise<Partial<PastOfShop>> {
  const past = await historyOf(judged, args, io)
  const since = args.text('since')
  return since === undefined
    ? past
    : { ...past, changeSheets: await changeSheetsSince(since, judged, args, io) }
}

async function historyOf(judged: Judged, args: Args, io: Io): Promise<Partial<PastOfShop>> {
  const asked = args.text('history')
  if (asked === undefined) return {}
  const most = /^\d{1,3}$/.test(asked) ? Number(asked) : Number.NaN
  if (!(most >= 1 && most <= MOST_COMMITS))
    throw new UsageError(
      `--history takes a number of commits from 1 to ${MOST_COMMITS}`,
      'build --history 10',
    )
  const { readHistory } = await import('./read-history.ts')
  return (await readHistory(judged, args.positionals, most, trustOf(args), io)) ?? {}
}

/** Change sheets against a revision or a folder that was named, whatever was issued in it. */
async function changeSheetsSince(
  since: string,
  judged: Judged,
  args: Args,
  io: Io,
): Promise<PastOfShop['changeSheets']> {
  const [path = '.', more] = args.positionals
  if (more !== undefined)
    throw new UsageError('--since takes one folder or file to build', `build ${path} --since ${since}`)
  const { withSide } = await import('./compare-sides.ts')
  const { changeSheets } = await import('../wiki/change-sheets.ts')
  const present = { shop: judged.shop, looms: judged.looms, result: judged.result }
  return withSide(since, path, { trust: trustOf(args), runCode: false }, io, ({ name, revision }) =>
    changeSheets({ name, revision }, present),
  )
}

async function buildOnce(args: Args, to: string, io: Io): Promise<Built> {
  const judged = await judge(args.positionals, io, trustOf(args), true)
  if (judged.misshapen.length > 0) throw new Misshapen(judged.misshapen, judged)
  const kept = await readArrangements(args, io)
  const { ownTemplates } = await import('./own-templates.ts')
  const own = await ownTemplates(args.positionals, io.cwd, trustOf(args))
  const { files, findings } = await publish(judged, io, await pastOf(judged, args, io), own, kept)
  io.progress.say('writing')
  const { writeOutput } = await import('../write/write-output.ts')
  const written = await writeOutput(resolve(io.cwd, to), files)
  await kept.save()
  io.progress.done()
  const result = { ...judged.result, findings: [...judged.result.findings, ...findings] }
  const templates = findings.map(({ at, what }) => `${showPlace(judged.locate(at))} ${what}`)
  return { judged: { ...judged, result }, written, templates }
}

function say({ judged, written, templates }: Built, to: string, inputs: readonly string[], io: Io): void {
  io.out(printSummary(judged.result, io.width, io.colour))
  const folder = relative(io.cwd, written.folder) || '.'
  const total = written.written + written.unchanged
  const removed = written.removed > 0 ? `, ${written.removed} taken away` : ''
  for (const line of templates) io.out(`WARNING ${escapeTerminal(line)}\n`)
  io.out(`Published ${total} files into ${folder} (${written.written} new or changed${removed}).\n`)
  if (judged.result.findings.length > 0)
    io.out(
      `Every finding with its place and cure: loomwright check ${inputs.join(' ')}`.trimEnd().concat('\n'),
    )
  io.out(`Open ${to.endsWith('/') ? to : `${to}/`}index.html\n`)
}

/** A failed build in watch mode says so and waits for the next change; what is published stays. Names the files to watch. */
async function buildAndStay(args: Args, to: string, io: Io): Promise<readonly string[]> {
  const { positionals } = args
  const clock = new Date().toTimeString().slice(0, 8)
  try {
    const built = await buildOnce(args, to, io)
    say(built, to, positionals, io)
    io.err(`${clock} built; waiting for a change, Ctrl-C ends\n`)
    return built.judged.source.watch
  } catch (error) {
    io.progress.done()
    io.err(await showFailure(error, io))
    io.err(
      `${clock} not built; ${to} is as it was after the last good build. Waiting for a change, Ctrl-C ends\n`,
    )
    return error instanceof Unreadable ? error.watch : []
  }
}

/** `build [FOLDER|FILE…]`: check, draw, publish; once, or again whenever a file changes. */
export const runBuild: Runner = async (args, io) => {
  const to = args.text('to') ?? 'out'
  if (args.flag('watch')) {
    const { watch } = await import('./watch.ts')
    const named = args.positionals.length > 0 ? args.positionals : ['.']
    await watch({
      inputs: named.map((input) => resolve(io.cwd, input)),
      build: () => buildAndStay(args, to, io),
    })
    return COULD_NOT_RUN
  }
  const built = await buildOnce(args, to, io)
  say(built, to, args.positionals, io)
  const stops = countLevels(built.judged.result.findings).stop
  return stops > 0 && !args.flag('allow-stops') ? STOPS_FOUND : CLEAN
}
