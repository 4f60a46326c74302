#!/usr/bin/env node
import module from 'node:module'
import { COULD_NOT_RUN } from './command.ts'
import { processIo } from './io.ts'
import { run } from './run.ts'
import { showFailure } from './show-failure.ts'

/** Whoever reads our output may stop early, as `head` does; that is no fault, and the work goes on. */
function ignoreClosedPipe(error: NodeJS.ErrnoException): void {
  if (error.code !== 'EPIPE') throw error
}

// Keeps compiled code between runs where the runtime can, from Node 22.1 on; what is loaded below is then not compiled again.
if ('enableCompileCache' in module && typeof module.enableCompileCache === 'function')
  module.enableCompileCache()

const io = processIo(process.stdout, process.stderr, process.env, process.cwd())
process.stdout.on('error', ignoreClosedPipe)
process.stderr.on('error', ignoreClosedPipe)
process.on('uncaughtException', (error) => {
  // Something escaped from a timer or a stream: what was published is whole, since it is swapped in at once.
  void showFailure(error, io).then((text) => {
    process.stderr.write(text)
    process.exit(COULD_NOT_RUN)
  })
})
// Set and not exited with, so that everything still on its way to a pipe arrives.
process.exitCode = await run(process.argv.slice(2), io)
