import { parentPort, workerData } from 'node:worker_threads'
import { ContentStore } from '../cache/content-store.ts'
import { keptLayouts } from '../cache/kept-layouts.ts'
import { drawPicture } from '../draw/picture.ts'
import type { ThreadAnswer, ThreadTask } from './picture-threads.ts'

// Runs in a thread of its own: draws what it is handed, one picture after the other.
const { cache } = workerData as { readonly cache: string | undefined }
const engine = cache === undefined ? undefined : keptLayouts(new ContentStore(cache))

async function answer({ number, picture }: ThreadTask): Promise<ThreadAnswer> {
  try {
    return { number, drawn: await drawPicture(picture, engine) }
  } catch (error) {
    return { number, failed: error instanceof Error ? (error.stack ?? error.message) : String(error) }
  }
}

/** One after the other: what waits is only data, and a layout in the middle must not share the thread. */
function serve(port: NonNullable<typeof parentPort>): void {
  let last: Promise<void> = Promise.resolve()
  port.on('message', (task: ThreadTask) => {
    last = last.then(async () => port.postMessage(await answer(task)))
  })
}

if (parentPort) serve(parentPort)
