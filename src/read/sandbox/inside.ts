import { asDocument } from '../../author/as-document.ts'
import { branch } from '../../author/branch.ts'
import { cable } from '../../author/cable.ts'
import {
  capacitor,
  coil,
  diode,
  fuse,
  link,
  relay,
  resistor,
  switchPart,
  transformer,
} from '../../author/component.ts'
import { connector, plug } from '../../author/connector.ts'
import { equipment, jack } from '../../author/equipment.ts'
import { harness } from '../../author/harness.ts'
import { answer as answerBuilder, installation, loom, mate, unit } from '../../author/installation.ts'
import { part } from '../../author/part.ts'
import { policy } from '../../author/policy.ts'
import { type Frame, markOf } from '../../author/site.ts'
import { pair, splice, wire } from '../../author/wire.ts'
import type { Answer, CrossedFile } from './answer.ts'
import { Encoder } from './encode.ts'
import { SCRIPT_NAME } from './limits.ts'

/*
 * This file runs inside the interpreter, before and after a stranger's code, in the same world as that code. Nothing it says
 * is believed outside: the stranger could have changed any function it uses. It is there for honest descriptions.
 */

/** The builders as `import … from 'loomwright'` gives them. Checking and solving stay outside. */
export const builders = {
  ...{
    answer: answerBuilder,
    asDocument,
    branch,
    cable,
    capacitor,
    coil,
    connector,
    diode,
    equipment,
    fuse,
    harness,
    installation,
    jack,
  },
  ...{ link, loom, mate, pair, part, plug, policy, relay, resistor, splice, switchPart, transformer, unit },
  wire,
}

interface Tracing {
  captureStackTrace: (target: { stack?: unknown }) => void
  prepareStackTrace?: (error: unknown, frames: readonly Frame[]) => unknown
  stackTraceLimit?: number
}

const PLACE = new RegExp(`\\(?${SCRIPT_NAME.replaceAll('.', '\\.')}:(\\d+):(\\d+)\\)?$`, 'gm')

/** Steps of a stack text that lie in the descriptions, as line and column, nearest first; the line that wraps the code does not count. */
function stepsOf(stack: unknown): (readonly [line: number, column: number])[] {
  return [...String(stack).matchAll(PLACE)].map(
    ([, line, column]) => [Number(line) - 1, Number(column)] as const,
  )
}

const frameOf = ([line, column]: readonly [number, number]): Frame => ({
  getFileName: () => SCRIPT_NAME,
  getLineNumber: () => line,
  getColumnNumber: () => column,
})

/** The builders note their callers by V8's means; the interpreter has only the text of a stack. */
function offerCallSites(): void {
  const tracing = Error as unknown as Tracing
  tracing.captureStackTrace = (target) => {
    const frames = stepsOf(new Error().stack).slice(0, tracing.stackTraceLimit ?? 10)
    target.stack = tracing.prepareStackTrace?.(target, frames.map(frameOf))
  }
}

type Exported = Readonly<Record<string, unknown>>
const results: ({ readonly exported: Exported } | CrossedFile)[] = []
const progress = { running: 0 }

function failed(error: unknown): CrossedFile {
  const message = error instanceof Error ? `${error.message}` : String(error)
  const at = error instanceof Error ? stepsOf(error.stack)[0] : undefined
  return { message: message.slice(0, 2000), ...(at ? { at } : {}) }
}

/** Runs one file; one that throws does not keep the others from running. */
export function step(index: number, load: () => unknown): void {
  progress.running = index
  try {
    const exported = load()
    results[index] = {
      exported: typeof exported === 'object' && exported !== null ? { ...exported } : {},
    }
  } catch (error) {
    results[index] = failed(error)
  }
}

export function require(id: unknown): unknown {
  if (id === 'loomwright') return builders
  throw new Error(`${String(id)} cannot be had where a description runs apart`)
}

export const running = (): number => progress.running

function crossFile(
  result: { readonly exported: Exported } | CrossedFile | undefined,
  to: Encoder,
): CrossedFile {
  if (!result) return { names: [], values: [] }
  if (!('exported' in result)) return result
  try {
    const crossed = Object.entries(result.exported).map(([name, value]) => [name, to.cross(value)] as const)
    to.finish()
    return { names: crossed.map(([name]) => name), values: crossed.map(([, value]) => value) }
  } catch (error) {
    return failed(error)
  }
}

/** Everything the files exported, as JSON text. */
export function answer(files: number): string {
  const encoder = new Encoder(markOf)
  const crossed = Array.from({ length: files }, (_, index) => crossFile(results[index], encoder))
  const whole: Answer = { files: crossed, nodes: encoder.nodes }
  return JSON.stringify(whole)
}

/** Makes the world ready, once, before a stranger's code comes in. */
export function begin(): void {
  offerCallSites()
  const quiet = (): void => undefined
  Object.assign(globalThis, {
    console: { log: quiet, info: quiet, warn: quiet, error: quiet, debug: quiet, table: quiet },
  })
}
