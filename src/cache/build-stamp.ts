import { lstatSync } from 'node:fs'
import { join } from 'node:path'
import type { ContentStore } from './content-store.ts'
import { isUnchanged, type Trace } from './trace.ts'

/** A file of the output: name, bytes, and when it was last written. */
export type OutputFile = readonly [name: string, bytes: number, writtenMs: number]

/** A finished build: from what it was made, what it wrote, and what it said. */
export interface BuildStamp {
  /** Every file and folder that was read. */
  readonly inputs: Trace
  readonly output: readonly OutputFile[]
  /** Findings at stop level. */
  readonly stops: number
  /** The summary as it was printed, by {@link summaryKey}. */
  readonly summaries: Readonly<Record<string, string>>
  readonly hasFindings: boolean
}

const KIND = 'stamp'

/** A summary is laid out for a width, with colour or without. */
export const summaryKey = (width: number, colour: boolean): string => `${width} ${colour}`

export function readStamp(store: ContentStore, key: string): BuildStamp | undefined {
  const text = store.get(KIND, key)
  // What is read here was hashed when it was kept, so it has the shape that it was written in.
  return text === undefined ? undefined : (JSON.parse(text) as BuildStamp)
}

export function keepStamp(store: ContentStore, key: string, stamp: BuildStamp): void {
  store.put(KIND, key, JSON.stringify(stamp))
}

/** The files of an output as they lie there now; undefined if one is missing. */
export function outputFiles(folder: string, names: Iterable<string>): OutputFile[] | undefined {
  const files: OutputFile[] = []
  for (const name of names) {
    const facts = lstatSync(join(folder, name), { throwIfNoEntry: false })
    if (!facts?.isFile()) return undefined
    files.push([name, facts.size, facts.mtimeMs])
  }
  return files
}

/** Whether the output still lies there as it was written. Names that were added do no harm. */
function isWhole(folder: string, output: readonly OutputFile[]): boolean {
  return output.every(([name, bytes, writtenMs]) => {
    const facts = lstatSync(join(folder, name), { throwIfNoEntry: false })
    return facts?.size === bytes && facts.mtimeMs === writtenMs && facts.isFile()
  })
}

/** Whether building again would give what lies there already. */
export function isCurrent(stamp: BuildStamp, folder: string): boolean {
  return isUnchanged(stamp.inputs) && isWhole(folder, stamp.output)
}
