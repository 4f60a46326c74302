import { realpathSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { hashOf } from '../cache/content-hash.ts'
import { ContentStore } from '../cache/content-store.ts'
import { toolIdentity } from '../cache/tool-identity.ts'
import { type Args, UsageError } from './command.ts'
import type { Io } from './io.ts'
import { readShare, type Share } from './share.ts'
import { trustOf } from './trust-of.ts'

/** What a build is asked for. */
export interface BuildOrder {
  readonly inputs: readonly string[]
  /** The output folder as typed, and whole. */
  readonly to: string
  readonly target: string
  /** Commits of history wanted. */
  readonly history: number | undefined
  /** Whether how drawings are arranged is read from a file, and written there. */
  readonly arranged: boolean
  /** Revision or folder that change sheets are wanted against. */
  readonly since: string | undefined
  readonly share: Share | undefined
  /** Threads that draw at once; as many as pay when undefined. */
  readonly jobs: number | undefined
  /** Folder of shards whose work is taken in. */
  readonly merge: string | undefined
  /** Undefined where nothing is to be kept. */
  readonly keeping: { readonly store: ContentStore; readonly tool: string } | undefined
  /** Name of this very build in the cache: of its options, not of its inputs. */
  readonly stampKey: string
}

const MOST_COMMITS = 100
const CACHE = '.loomwright-cache'

function historyWanted(args: Args): number | undefined {
  const asked = args.text('history')
  if (asked === undefined) return undefined
  const most = /^\d{1,3}$/.test(asked) ? Number(asked) : Number.NaN
  if (!(most >= 1 && most <= MOST_COMMITS))
    throw new UsageError(
      `--history takes a number of commits from 1 to ${MOST_COMMITS}`,
      'build --history 10',
    )
  return most
}

const MOST_JOBS = 64

function jobsWanted(args: Args): number | undefined {
  const asked = args.text('jobs')
  if (asked === undefined) return undefined
  const jobs = /^\d{1,2}$/.test(asked) ? Number(asked) : Number.NaN
  if (!(jobs >= 1 && jobs <= MOST_JOBS))
    throw new UsageError(`--jobs takes a number of threads from 1 to ${MOST_JOBS}`, 'build --jobs 2')
  return jobs
}

/** Where a path leads; a link may come to lead somewhere else. */
export function realPath(path: string): string {
  try {
    return realpathSync(path)
  } catch {
    return path
  }
}

function shardsOf(args: Args): Pick<BuildOrder, 'share' | 'merge'> {
  const [shard, merge] = [args.text('shard'), args.text('merge')]
  if (shard !== undefined && args.text('cache') === undefined)
    throw new UsageError(
      '--shard needs a folder to put its drawings in',
      `build --shard ${shard} --cache shard`,
    )
  if (shard !== undefined && merge !== undefined)
    throw new UsageError('--shard draws a part and --merge takes parts in', 'one of the two')
  if ((shard !== undefined || merge !== undefined) && args.flag('no-cache'))
    throw new UsageError('shards are handed over in a cache folder', 'leave --no-cache out')
  return { share: shard === undefined ? undefined : readShare(shard), merge }
}

/** What was typed, as an order. Throws {@link UsageError}. */
export function orderOf(args: Args, io: Io): BuildOrder {
  const to = args.text('to') ?? 'out'
  const target = resolve(io.cwd, to)
  const shards = shardsOf(args)
  const history = historyWanted(args)
  const tool = args.flag('no-cache') ? undefined : toolIdentity()
  const folder = resolve(io.cwd, args.text('cache') ?? join(dirname(target), CACHE))
  const inputs = args.positionals
  const since = args.text('since')
  if (since !== undefined && inputs.length > 1)
    throw new UsageError('--since takes one folder or file to build', `build ${inputs[0]} --since ${since}`)
  const roots = (inputs.length > 0 ? inputs : ['.']).map((input) => realPath(resolve(io.cwd, input)))
  const options = [trustOf(args), String(history), realPath(io.cwd), realPath(target), ...inputs, ...roots]
  return {
    ...shards,
    inputs,
    to,
    target,
    history,
    since,
    arranged: args.text('arranged') !== undefined,
    jobs: jobsWanted(args),
    keeping: tool === undefined ? undefined : { store: new ContentStore(folder), tool },
    stampKey: hashOf('build', tool ?? '', ...options),
  }
}

/** The last lines of every build. */
export function lastLines(
  order: BuildOrder,
  { folder, total, change }: { readonly folder: string; readonly total: number; readonly change: string },
  hasFindings: boolean,
): string {
  const check = `loomwright check ${order.inputs.join(' ')}`.trimEnd()
  return [
    `Published ${total} files into ${folder} (${change}).`,
    ...(hasFindings ? [`Every finding with its place and cure: ${check}`] : []),
    `Open ${order.to.endsWith('/') ? order.to : `${order.to}/`}index.html`,
    '',
  ].join('\n')
}
