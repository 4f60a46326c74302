import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join, sep } from 'node:path'
import type { Trouble } from '../../base/finding.ts'
import type { Place } from '../../base/place.ts'
import { type Bundle, type Display, inWords, once } from '../bundle-typescript.ts'
import { type Ran, thrownTrouble } from '../run-typescript.ts'
import { startOf } from '../trouble-error.ts'
import type { Bundled, BundleFault } from './bundler.ts'
import { type ChildResult, ownScript, runChild } from './child.ts'
import { decode } from './decode.ts'
import type { Outcome } from './interpreter.ts'
import { APART, SCRIPT_NAME } from './limits.ts'

function faultTrouble(
  { text, fix, file, line, column }: BundleFault,
  root: string,
  display: Display,
): Trouble {
  const [said, cure] = fix === undefined ? inWords(text) : [text, fix]
  const what = said.replaceAll(root.endsWith(sep) ? root : root + sep, '')
  const place =
    file === undefined ? {} : { place: { file: display(file), line: line ?? 1, column: column ?? 1 } }
  return { what, fix: cure, ...place }
}

const NESTED = {
  what: 'the bundler gave up on this code: it is nested far deeper, or takes far longer, than a description',
  fix: 'Look at the file before anything else is done with it.',
}

/** Bundles a stranger's files in a process of its own, where only files inside `root` are opened. */
export async function bundleApart(
  files: readonly string[],
  root: string,
  display: Display,
): Promise<Bundle | { readonly troubles: readonly Trouble[] }> {
  const ran: ChildResult = await runChild({
    script: await ownScript('bundler'),
    call: 'bundleGuarded',
    task: { files, root },
    barred: false,
    seconds: APART.bundleSeconds,
    most: 4 * APART.sourceBytes,
  })
  if (!('result' in ran)) return { troubles: [{ ...NESTED, place: startOf(display(files[0] ?? root)) }] }
  const bundled = ran.result as Bundled
  if ('faults' in bundled)
    return { troubles: once(bundled.faults.map((fault) => faultTrouble(fault, root, display))) }
  const { code, map, inputs, describing } = bundled
  return {
    code,
    map,
    path: join(root, SCRIPT_NAME),
    inputs,
    imported: new Set(inputs),
    describing: new Set(describing),
  }
}

function wasmBytes(): string {
  const from = createRequire(createRequire(import.meta.url).resolve('quickjs-emscripten'))
  return readFileSync(from.resolve('@jitl/quickjs-wasmfile-release-sync/wasm')).toString('base64')
}

const ENDED: Readonly<Record<string, readonly [what: string, fix: string]>> = {
  time: [`the description was still running after ${APART.seconds} s`, 'Look for a loop that never ends.'],
  memory: [
    `the description takes more than the ${APART.memoryBytes / 1024 / 1024} MB it may have where it runs apart`,
    'Look for a list that grows without end.',
  ],
  error: ['the code cannot be run apart', 'Look at the file before anything else is done with it.'],
}

function endedTrouble(how: string, file: string): Trouble {
  const [what, fix] = ENDED[how] ?? ['the code cannot be run apart', 'Look at the file first.']
  return { what, fix, place: startOf(file) }
}

/**
 * Runs a stranger's bundle in an interpreter inside a process that may open no file and start no process. What comes back is
 * checked as any stranger's text is, and built anew as plain data.
 * @param files how people call the files, in the order of the bundle's steps
 */
export async function runApart(
  bundle: Bundle,
  files: readonly string[],
  original: (place: Place) => Place | undefined,
): Promise<Ran[]> {
  const everyFile = (how: string, index: number): Ran[] =>
    files.map((file, i) => (i === index ? { trouble: endedTrouble(how, file) } : { exported: {} }))
  const ran = await runChild({
    script: await ownScript('interpreter'),
    call: 'interpret',
    task: {
      wasm: wasmBytes(),
      inside: await ownScript('inside'),
      code: bundle.code,
      name: SCRIPT_NAME,
      files: files.length,
    },
    barred: true,
    seconds: APART.seconds + 5,
    most: 2 * APART.answerLength,
  })
  if (!('result' in ran)) return everyFile(ran.ended === 'length' ? 'memory' : ran.ended, 0)
  const outcome = ran.result as Outcome
  if ('ended' in outcome) return everyFile(outcome.ended, Math.min(outcome.running, files.length - 1))
  const decoded = decode(outcome.answer, files.length, bundle.path)
  if (!decoded) return everyFile('error', 0)
  return decoded.map((one, index): Ran => {
    if ('exported' in one) return one
    const spot = one.at && original({ file: bundle.path, line: one.at[0], column: one.at[1] })
    return { trouble: thrownTrouble(one.message, spot ?? startOf(files[index] ?? '')) }
  })
}
