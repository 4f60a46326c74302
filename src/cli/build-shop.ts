import { existsSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { escapeTerminal } from '../base/escape.ts'
import { showPlace } from '../base/place.ts'
import { keepStamp, outputFiles, readStamp, summaryKey } from '../cache/build-stamp.ts'
import { pruneNowAndThen } from '../cache/prune.ts'
import { isOlderThan, traceOf } from '../cache/trace.ts'
import { countLevels } from '../report/check-report.ts'
import { printSummary } from '../report/summary-text.ts'
import { isOutputFolder, type Written, writeOutput } from '../write/write-output.ts'
import { type BuildOrder, lastLines } from './build-order.ts'
import { type Args, COULD_NOT_RUN } from './command.ts'
import type { Io } from './io.ts'
import { readArrangements } from './kept-arrangements.ts'
import { Misshapen } from './misshapen.ts'
import { templateFiles } from './own-templates.ts'
import type { DeskCount } from './picture-desk.ts'
import { type Judged, judge, publish } from './pipeline.ts'
import type { PastOfShop } from './read-history.ts'
import { keepShard, takeShards } from './shards.ts'
import { showFailure } from './show-failure.ts'
import { trustOf } from './trust-of.ts'
import { Unreadable } from './unreadable.ts'

interface Built {
  readonly judged: Judged
  readonly count: DeskCount
  /** Undefined where only a share was drawn. */
  readonly written: Written | undefined
  /** Names of the files written. */
  readonly names: readonly string[]
  /** Templates of the shop that were not used, and why, each with its line. */
  readonly templates: readonly string[]
}

/** Past states of the harnesses, as far back as asked; nothing where none are asked for. */
async function pastOf(judged: Judged, order: BuildOrder, args: Args, io: Io): Promise<Partial<PastOfShop>> {
  const past = await historyOf(judged, order, args, io)
  return order.since === undefined
    ? past
    : { ...past, changeSheets: await changeSheetsSince(order.since, judged, args, io) }
}

async function historyOf(
  judged: Judged,
  order: BuildOrder,
  args: Args,
  io: Io,
): Promise<Partial<PastOfShop>> {
  if (order.history === undefined) return {}
  const { readHistory } = await import('./read-history.ts')
  return (await readHistory(judged, order.inputs, order.history, trustOf(args), io)) ?? {}
}

/** Change sheets against a revision or a folder that was named, whatever was issued in it. */
async function changeSheetsSince(
  since: string,
  judged: Judged,
  args: Args,
  io: Io,
): Promise<PastOfShop['changeSheets']> {
  const [path = '.'] = args.positionals
  const { withSide } = await import('./compare-sides.ts')
  const { changeSheets } = await import('../wiki/change-sheets.ts')
  const present = { shop: judged.shop, looms: judged.looms, result: judged.result }
  return withSide(since, path, { trust: trustOf(args), runCode: false }, io, ({ name, revision }) =>
    changeSheets({ name, revision }, present),
  )
}

/** What a build depends on besides the files that were read: folders that imports are looked for in, templates, the repository. */
async function tracedBesides({ source }: Judged, order: BuildOrder, io: Io): Promise<string[]> {
  const inputs = order.inputs.length > 0 ? order.inputs : ['.']
  const templates = inputs.flatMap((input) => templateFiles(resolve(io.cwd, input)))
  const files = [...source.texts.map(({ path }) => path), ...source.imported]
  const besides = [...new Set(files.map((path) => dirname(path))), ...templates]
  if (order.history === undefined) return besides
  const { repositoryFiles } = await import('../read/git-revision.ts')
  return [...besides, ...(await repositoryFiles(io.cwd))]
}

/** Folders that a build writes itself. */
const isOurs = (folder: string): boolean => isOutputFolder(folder) || existsSync(join(folder, 'CACHEDIR.TAG'))

/** Keeps what tells the next build that nothing has changed, where that can be told. */
async function remember(
  built: Built & { written: Written },
  order: BuildOrder,
  io: Io,
  begunMs: number,
): Promise<void> {
  const { judged, written } = built
  // What another revision or folder holds is not traced, and templates that were not used are told of each time.
  if (
    !order.keeping ||
    !judged.source.repeatable ||
    order.since !== undefined ||
    order.arranged ||
    built.templates.length > 0
  )
    return
  const besides = await tracedBesides(judged, order, io)
  const paths = [...judged.source.watch, ...besides]
  // Of the rest some need not exist.
  const there = [...judged.source.watch, ...besides.filter((path) => existsSync(path))]
  if (!isOlderThan(there, begunMs, isOurs)) return
  const output = outputFiles(written.folder, built.names)
  if (!output) return
  const { findings } = judged.result
  const inputs = traceOf(paths)
  const before = readStamp(order.keeping.store, order.stampKey)
  const same = before && JSON.stringify(before.inputs) === JSON.stringify(inputs)
  keepStamp(order.keeping.store, order.stampKey, {
    inputs,
    output,
    stops: countLevels(findings).stop,
    summaries: {
      ...(same ? before.summaries : {}),
      [summaryKey(io.width, io.colour)]: printSummary(judged.result, io.width, io.colour),
    },
    hasFindings: findings.length > 0,
  })
}

async function buildOnce(order: BuildOrder, args: Args, io: Io): Promise<Built> {
  const begunMs = Date.now()
  if (order.merge !== undefined && order.keeping)
    takeShards(resolve(io.cwd, order.merge), order.keeping.store, order.keeping.tool)
  const judged = await judge(order.inputs, io, trustOf(args), true, order.keeping)
  if (judged.misshapen.length > 0) throw new Misshapen(judged.misshapen, judged)
  const { keeping, share } = order
  const past = share ? {} : await pastOf(judged, order, args, io)
  const desk = {
    ...(keeping ? { keeping } : {}),
    ...(share ? { share } : {}),
    ...(order.jobs === undefined ? {} : { jobs: order.jobs }),
  }
  const arranged = order.arranged ? await readArrangements(args, io) : undefined
  const { ownTemplates } = await import('./own-templates.ts')
  const own = await ownTemplates(order.inputs, io.cwd, trustOf(args))
  const isOwn = Object.keys(own.templates).length + own.troubles.length > 0
  const { files, findings, count } = await publish(judged, io, {
    past,
    desk,
    ...(isOwn ? { own } : {}),
    ...(arranged ? { arranged } : {}),
  })
  if (keeping) pruneNowAndThen(keeping.store.folder)
  if (share) {
    if (keeping) keepShard(keeping.store.folder, share, keeping.tool)
    io.progress.done()
    return { judged, count, written: undefined, names: [], templates: [] }
  }
  io.progress.say('writing')
  const written = await writeOutput(order.target, files)
  await arranged?.save()
  io.progress.done()
  const result = { ...judged.result, findings: [...judged.result.findings, ...findings] }
  const templates = findings.map(({ at, what }) => `${showPlace(judged.locate(at))} ${what}`)
  const built = { judged: { ...judged, result }, count, written, names: [...files.keys()], templates }
  await remember(built, order, io, begunMs)
  return built
}

function say({ judged, written, count, templates }: Built, order: BuildOrder, io: Io): void {
  io.out(printSummary(judged.result, io.width, io.colour))
  if (!written) {
    const { share, keeping } = order
    const folder = relative(io.cwd, keeping?.store.folder ?? '') || '.'
    io.out(
      `Shard ${share?.number} of ${share?.of}: ${count.drawn} drawings made, ${count.kept} there already, ${count.left} left to others.\n`,
    )
    io.out(`When all shards are done, put their folders into one and run: loomwright build --merge FOLDER\n`)
    io.out(`This one: ${folder}\n`)
    return
  }
  const folder = relative(io.cwd, written.folder) || '.'
  const total = written.written + written.unchanged
  const removed = written.removed > 0 ? `, ${written.removed} taken away` : ''
  for (const line of templates) io.out(`WARNING ${escapeTerminal(line)}\n`)
  const change = `${written.written} new or changed${removed}`
  io.out(lastLines(order, { folder, total, change }, judged.result.findings.length > 0))
}

/** Builds and says what came of it; gives the number of findings at stop level. */
export async function buildShop(order: BuildOrder, args: Args, io: Io): Promise<number> {
  const built = await buildOnce(order, args, io)
  say(built, order, io)
  return countLevels(built.judged.result.findings).stop
}

/** A failed build in watch mode says so and waits for the next change; what is published stays. Names the files to watch. */
async function buildAndStay(order: BuildOrder, args: Args, io: Io): Promise<readonly string[]> {
  const clock = new Date().toTimeString().slice(0, 8)
  try {
    const built = await buildOnce(order, args, io)
    say(built, order, io)
    io.err(`${clock} built; waiting for a change, Ctrl-C ends\n`)
    return built.judged.source.watch
  } catch (error) {
    io.progress.done()
    io.err(await showFailure(error, io))
    io.err(
      `${clock} not built; ${order.to} is as it was after the last good build. Waiting for a change, Ctrl-C ends\n`,
    )
    return error instanceof Unreadable ? error.watch : []
  }
}

/** Builds whenever a file changes, until the process is ended. */
export async function buildAndWatch(order: BuildOrder, args: Args, io: Io): Promise<number> {
  const { watch } = await import('./watch.ts')
  const named = order.inputs.length > 0 ? order.inputs : ['.']
  await watch({
    inputs: named.map((input) => resolve(io.cwd, input)),
    build: () => buildAndStay(order, args, io),
  })
  return COULD_NOT_RUN
}
