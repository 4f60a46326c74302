import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { quote } from '../base/quote.ts'
import { ContentStore, FORM } from '../cache/content-store.ts'
import { UsageError } from './command.ts'
import type { Share } from './share.ts'

const NOTE = /^shard-(\d+)-of-(\d+)$/

/** Leaves word in a shard's folder of which part it is and which tool drew it. */
export function keepShard(folder: string, { number, of }: Share, tool: string): void {
  mkdirSync(folder, { recursive: true })
  writeFileSync(join(folder, `shard-${number}-of-${of}`), `${tool}\n`)
}

interface Shard extends Share {
  readonly folder: string
  readonly tool: string
}

function shardsIn(folder: string): Shard[] {
  const names = existsSync(folder) ? readdirSync(folder) : []
  return names.flatMap((name) => {
    const [, number, of] = NOTE.exec(name) ?? []
    if (number === undefined) return []
    return [
      {
        folder,
        number: Number(number),
        of: Number(of),
        tool: readFileSync(join(folder, name), 'utf8').trim(),
      },
    ]
  })
}

/** Copies what shards drew; entries that were damaged on the way are left out, and drawn again. */
function take(from: string, store: ContentStore): void {
  const source = new ContentStore(from)
  const top = join(from, FORM)
  for (const kind of existsSync(top) ? readdirSync(top) : [])
    for (const start of readdirSync(join(top, kind)))
      for (const rest of readdirSync(join(top, kind, start))) {
        const content = source.get(kind, start + rest)
        if (content !== undefined) store.put(kind, start + rest, content)
      }
}

/**
 * Takes in what shards drew: from a folder that holds their folders, or into which all of them were put.
 * Throws {@link UsageError} where a shard is missing, or was drawn by another version of the tool: its drawings would not be used.
 */
export function takeShards(folder: string, store: ContentStore, tool: string): void {
  const inner = existsSync(folder) ? readdirSync(folder, { withFileTypes: true }) : []
  const folders = [
    folder,
    ...inner.filter((entry) => entry.isDirectory()).map(({ name }) => join(folder, name)),
  ]
  const shards = folders.flatMap(shardsIn)
  const [first] = shards
  if (!first)
    throw new UsageError(
      `there are no shards in ${quote(folder)}`,
      'build --shard 1/2 --cache shards/1 and --shard 2/2 --cache shards/2, then --merge shards',
    )
  const other = shards.find((shard) => shard.tool !== tool || shard.of !== first.of)
  if (other)
    throw new UsageError(
      `shard ${other.number} of ${other.of} was drawn by another version, on another Node, or for another number of shards`,
      'the same version and Node for all shards and the merge, in an empty folder',
    )
  const there = new Set(shards.map(({ number }) => number))
  const missing = Array.from({ length: first.of }, (_, i) => i + 1).filter((number) => !there.has(number))
  if (missing.length > 0)
    throw new UsageError(
      `of ${first.of} shards ${missing.join(', ')} ${missing.length === 1 ? 'is' : 'are'} missing in ${quote(folder)}`,
      `build --shard ${missing[0]}/${first.of} --cache ${join(folder, String(missing[0]))}`,
    )
  for (const one of new Set(shards.map((shard) => shard.folder))) take(one, store)
}
