import { createRequire } from 'node:module'
import { Script } from 'node:vm'
import type { Trouble } from '../base/finding.ts'
import type { Place } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { LIMITS } from '../describe/limits.ts'
import type { Bundle } from './bundle-typescript.ts'

/** What one file exported, or why it could not be run. */
export type Ran = { readonly exported: Readonly<Record<string, unknown>> } | { readonly trouble: Trouble }

type Step = (index: number, load: () => unknown) => void

const WORDS: readonly (readonly [RegExp, string, string])[] = [
  [
    /^(?:Cannot access )?'?(.*?)'? (?:before initialization|is not initialized)$/,
    'it is used before it is made',
    'Move the line that makes it further up; if two files import each other, move what they share into a third.',
  ],
  [
    /^Cannot find (?:module|package) '([^']*)'/,
    'a package that is imported is not installed',
    'Install it, or leave it out.',
  ],
  [
    /^[Cc]annot read propert(?:ies|y) (?:'(?=.*' of)|of (?:undefined|null) \(reading ')(.*?)'/,
    'it is asked of something that is not there, or not made yet',
    'Check the name before the dot; a thing has to be made above the line that uses it.',
  ],
  [/^not a function$/, 'something is called here that is no function', 'Check the name before the bracket.'],
  [
    /Maximum call stack size exceeded|^stack overflow$/,
    'a function calls itself without end',
    'Give it a case in which it stops.',
  ],
]

/** The first step of an error's stack that lies in the bundle. */
function stackPlace(error: unknown, bundle: Bundle): { line: number; column: number } | undefined {
  const stack = error instanceof Error ? String(error.stack) : ''
  for (const row of stack.split('\n')) {
    const at = row.lastIndexOf(`${bundle.path}:`)
    const match = at < 0 ? null : /^(\d+):(\d+)/.exec(row.slice(at + bundle.path.length + 1))
    if (match) return { line: Number(match[1]), column: Number(match[2]) }
  }
  return undefined
}

const isTimeout = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && error.code === 'ERR_SCRIPT_EXECUTION_TIMEOUT'

/** An error that description code threw, as trouble at the line that threw it. */
function thrown(
  error: unknown,
  bundle: Bundle,
  file: string,
  original: (place: Place) => Place | undefined,
): Trouble {
  if (isTimeout(error))
    return {
      what: `the description was still running after ${LIMITS.seconds} s`,
      fix: 'Look for a loop that never ends.',
      place: { file, line: 1, column: 1 },
    }
  const spot = stackPlace(error, bundle)
  const place = spot && original({ file: bundle.path, ...spot })
  const message = error instanceof Error ? error.message : String(error)
  return thrownTrouble(message, place ?? { file, line: 1, column: 1 })
}

/** What description code threw, in words of ours where they are plainer than the engine's. */
export function thrownTrouble(message: string, place: Place): Trouble {
  const first = message.split('\n')[0] ?? ''
  const known = WORDS.find(([pattern]) => pattern.test(first))
  const name = known?.[0].exec(first)?.[1]
  return {
    what: known
      ? `${name === undefined ? '' : `${quote(name)}: `}${known[1]}`
      : `the code stops here with ${quote(first)}`,
    fix: known ? known[2] : 'Mend what this line is given.',
    place,
  }
}

/**
 * Runs bundled descriptions in this process, one file after the other; a file that throws does not keep the others from running.
 * Description code is trusted, as any program one starts is; only a loop without end is stopped.
 * @param loomwright the tool's own builders, so that what they note about objects is found again
 * @param files how people call the files, in the order of the bundle's steps
 */
export function runTypescript(
  bundle: Bundle,
  loomwright: object,
  files: readonly string[],
  original: (place: Place) => Place | undefined,
): Ran[] {
  const results: Ran[] = []
  const outer = createRequire(bundle.path)
  const require = (id: string): unknown => (id === 'loomwright' ? loomwright : outer(id))
  let running = 0
  const failed = (error: unknown): Ran => ({
    trouble: thrown(error, bundle, files[running] ?? files[0] ?? '', original),
  })
  const step: Step = (index, load) => {
    running = index
    try {
      const exported = load()
      results[index] = { exported: typeof exported === 'object' && exported !== null ? { ...exported } : {} }
    } catch (error) {
      results[index] = failed(error)
    }
  }
  // Only a script, not a compiled function, can be stopped; its arguments come by a name nobody else can know.
  const slot = Symbol.for(`loomwright ${bundle.path}`)
  const shared = globalThis as { [key: symbol]: unknown }
  shared[slot] = [step, require, { exports: {} }, {}]
  try {
    const code = `(function (step, require, module, exports) {\n${bundle.code}\n})(...globalThis[Symbol.for(${JSON.stringify(`loomwright ${bundle.path}`)})])`
    new Script(code, { filename: bundle.path, lineOffset: -1 }).runInThisContext({
      timeout: LIMITS.seconds * 1000,
    })
  } catch (error) {
    results[running] = failed(error)
  } finally {
    delete shared[slot]
  }
  return files.map((_, index) => results[index] ?? { exported: {} })
}
