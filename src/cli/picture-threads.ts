import { Worker } from 'node:worker_threads'
import type { Drawn, Picture } from '../draw/picture.ts'

/** Handed to a thread. */
export interface ThreadTask {
  readonly number: number
  readonly picture: Picture
}

/** Handed back. */
export type ThreadAnswer =
  | { readonly number: number; readonly drawn: Drawn }
  | { readonly number: number; readonly failed: string }

/** Tasks on their way to each thread, so that none waits for the next. */
const AHEAD = 2

/** The file a thread runs, where the package is built; sources are not run in threads. */
function threadFile(): URL | undefined {
  return import.meta.url.endsWith('.ts') ? undefined : new URL('../cli/picture-thread.js', import.meta.url)
}

/**
 * Draws pictures in several threads. Gives false, and has drawn nothing, where threads cannot be had.
 * Throws the first error a thread meets.
 */
export async function drawInThreads<T extends { readonly picture: Picture }>(
  wanted: readonly T[],
  threads: number,
  cache: string | undefined,
  done: (one: T, drawn: Drawn) => void,
): Promise<boolean> {
  const file = threadFile()
  if (!file) return false
  const workers = Array.from({ length: threads }, () => new Worker(file, { workerData: { cache } }))
  let next = 0
  try {
    await Promise.all(
      workers.map(
        (worker) =>
          new Promise<void>((finish, fail) => {
            let open = 0
            const feed = (): void => {
              while (open < AHEAD && next < wanted.length) {
                const number = next++
                const task: ThreadTask = { number, picture: (wanted[number] as T).picture }
                worker.postMessage(task)
                open++
              }
              if (open === 0) finish()
            }
            worker.on('message', (answer: ThreadAnswer) => {
              open--
              if ('failed' in answer) return fail(new Error(answer.failed))
              done(wanted[answer.number] as T, answer.drawn)
              feed()
            })
            worker.on('error', fail)
            worker.on('exit', (code) => fail(new Error(`a drawing thread ended with ${code}`)))
            feed()
          }),
      ),
    )
    return true
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()))
  }
}
