#!/usr/bin/env node
import { processIo } from './io.ts'
import { run } from './run.ts'

/** Whoever reads our output may stop early, as `head` does; that is no fault, and the work goes on. */
function ignoreClosedPipe(error: NodeJS.ErrnoException): void {
  if (error.code !== 'EPIPE') throw error
}

process.stdout.on('error', ignoreClosedPipe)
process.stderr.on('error', ignoreClosedPipe)
// Set and not exited with, so that everything still on its way to a pipe arrives.
process.exitCode = await run(
  process.argv.slice(2),
  processIo(process.stdout, process.stderr, process.env, process.cwd()),
)
