import { newQuickJSWASMModule, newVariant, type QuickJSContext, RELEASE_SYNC } from 'quickjs-emscripten'
import { APART } from './limits.ts'

/*
 * This file runs in a process of its own that may open no file and start no process. It holds the interpreter, and nothing else.
 */

/** What to interpret. */
export interface Task {
  /** The interpreter itself, as base64. */
  readonly wasm: string
  /** Our part of the world inside. */
  readonly inside: string
  /** The stranger's code, to be called with `step`, `require`, `module`, `exports`. */
  readonly code: string
  readonly name: string
  readonly files: number
}

/** What came of it: text that nobody has looked at yet, or how it ended. */
export type Outcome =
  | { readonly answer: string }
  | { readonly ended: 'time' | 'memory' | 'error'; readonly running: number; readonly message: string }

type Evaluated = { readonly value: unknown } | { readonly error: string }

function evaluate(context: QuickJSContext, code: string, name: string): Evaluated {
  const result = context.evalCode(code, name)
  if (!result.error) {
    // Only text and numbers are asked for; dumping an object would run its getters here.
    const type = context.typeof(result.value)
    if (type === 'string') return { value: context.getString(result.value) }
    return { value: type === 'number' ? context.getNumber(result.value) : undefined }
  }
  const message = context.getProp(result.error, 'message')
  return {
    error: context.typeof(message) === 'string' ? context.getString(message) : 'an error without words',
  }
}

function endedBy(message: string): 'time' | 'memory' | 'error' {
  if (message === 'interrupted') return 'time'
  return message === 'out of memory' ? 'memory' : 'error'
}

/** Runs the code within its limits. Whatever happens inside, it comes back as data. */
export async function interpret({ wasm, inside, code, name, files }: Task): Promise<Outcome> {
  const bytes = Buffer.from(wasm, 'base64')
  const variant = newVariant(RELEASE_SYNC, { wasmBinary: new Uint8Array(bytes).buffer })
  const runtime = (await newQuickJSWASMModule(variant)).newRuntime()
  runtime.setMemoryLimit(APART.memoryBytes)
  runtime.setMaxStackSize(APART.stackBytes)
  const clock = { until: Date.now() + APART.seconds * 1000 }
  runtime.setInterruptHandler(() => Date.now() > clock.until)
  const context = runtime.newContext()
  const running = (): number => {
    clock.until = Date.now() + 200
    const asked = evaluate(context, '__apart.running()', 'ask')
    return 'value' in asked && typeof asked.value === 'number' ? asked.value : 0
  }
  const scripts = [
    ['inside', `${inside}\n__apart.begin()`],
    [
      name,
      `(function(step,require,module,exports){\n${code}\n})(__apart.step,__apart.require,{exports:{}},{})`,
    ],
    ['answer', `__apart.answer(${files})`],
  ] as const
  let last: unknown
  for (const [script, text] of scripts) {
    const result = evaluate(context, text, script)
    if ('error' in result)
      return { ended: endedBy(result.error), running: running(), message: result.error.slice(0, 2000) }
    last = result.value
  }
  if (typeof last === 'string' && last.length <= APART.answerLength) return { answer: last }
  return { ended: 'memory', running: running(), message: 'the answer is too long' }
}
