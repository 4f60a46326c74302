import { availableParallelism } from 'node:os'
import { hashOf } from '../cache/content-hash.ts'
import type { ContentStore } from '../cache/content-store.ts'
import { keptLayouts } from '../cache/kept-layouts.ts'
import { type Drawn, drawPicture, type Picture } from '../draw/picture.ts'
import type { Share } from './share.ts'

/** Where finished pictures are kept, and under whose name. */
export interface Keeping {
  readonly store: ContentStore
  /** Hash of everything of the tool that shows in a picture. */
  readonly tool: string
}

export interface DeskOptions {
  /** Nothing is kept when left out. */
  readonly keeping?: Keeping
  /** Only this share is drawn; others are taken from what is kept, or left empty. */
  readonly share?: Share
  /** Threads, where it is not to be chosen by the number of drawings and cores. */
  readonly jobs?: number
  /** Called before each picture that is drawn, with how many are done. */
  readonly say?: (done: number, all: number) => void
}

/** What came of the desk's work. */
export interface DeskCount {
  readonly drawn: number
  readonly kept: number
  /** Not drawn, since they are another's share. */
  readonly left: number
}

export interface DeskResult {
  /** What came of each picture, in the order they were asked for. */
  readonly drawn: readonly Drawn[]
  readonly count: DeskCount
}

/**
 * The layout library takes several seconds of a processor to get warm, in each thread anew, and about 20 ms a drawing from then on. Two
 * threads are faster only from about this many drawings.
 */
const LEAST_FOR_THREADS = 600

/** Each thread takes some 200 MB. */
const MOST_THREADS = 8

const KIND = 'picture'

interface Wanted {
  readonly key: string
  readonly picture: Picture
  readonly index: number
}

const isMine = (share: Share | undefined, index: number): boolean =>
  share === undefined || index % share.of === share.number - 1

async function drawHere(
  wanted: readonly Wanted[],
  keeping: Keeping | undefined,
  done: (one: Wanted, drawn: Drawn) => void,
): Promise<void> {
  const engine = keeping && keptLayouts(keeping.store)
  for (const one of wanted) done(one, await drawPicture(one.picture, engine))
}

async function drawAnywhere(
  wanted: readonly Wanted[],
  { keeping, jobs }: Pick<DeskOptions, 'keeping' | 'jobs'>,
  done: (one: Wanted, drawn: Drawn) => void,
): Promise<void> {
  const paying = wanted.length < LEAST_FOR_THREADS ? 1 : Math.min(availableParallelism(), MOST_THREADS)
  const threads = Math.min(jobs ?? paying, wanted.length)
  if (threads > 1) {
    const { drawInThreads } = await import('./picture-threads.ts')
    if (await drawInThreads(wanted, threads, keeping?.store.folder, done)) return
  }
  await drawHere(wanted, keeping, done)
}

/** Draws pictures, each content once; what was drawn by an earlier build is taken from what was kept. */
export async function drawPictures(
  pictures: readonly Picture[],
  { keeping, share, jobs, say }: DeskOptions = {},
): Promise<DeskResult> {
  const found = new Map<string, Drawn>()
  const wanted = new Map<string, Wanted>()
  const keys = pictures.map((picture, index) => {
    const key = hashOf(KIND, keeping?.tool ?? '', JSON.stringify(picture))
    const known = keeping?.store.get(KIND, key)
    if (known !== undefined) found.set(key, JSON.parse(known))
    else if (!wanted.has(key)) wanted.set(key, { key, picture, index })
    return key
  })
  const kept = found.size
  const mine = [...wanted.values()].filter(({ index }) => isMine(share, index))
  say?.(0, mine.length)
  const how = { ...(keeping ? { keeping } : {}), ...(jobs === undefined ? {} : { jobs }) }
  await drawAnywhere(mine, how, ({ key }, drawn) => {
    found.set(key, drawn)
    keeping?.store.put(KIND, key, JSON.stringify(drawn))
    say?.(found.size - kept, mine.length)
  })
  return {
    drawn: keys.map((key) => found.get(key) ?? { sheets: [] }),
    count: { drawn: mine.length, kept, left: wanted.size - mine.length },
  }
}
