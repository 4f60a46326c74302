import { escapeTerminal } from '../base/escape.ts'
import type { Io } from './io.ts'
import { Unreadable } from './unreadable.ts'

function hasFix(error: Error): error is Error & { readonly fix: string } {
  return 'fix' in error && typeof error.fix === 'string'
}

function fault(error: unknown, debug: boolean): string {
  const message = escapeTerminal(error instanceof Error ? error.message : String(error))
  const detail = debug
    ? `${error instanceof Error ? (error.stack ?? message) : message}\n`
    : '  LOOMWRIGHT_DEBUG=1 before the command shows where.\n'
  return `loomwright: this is a fault of loomwright, not of your files: ${message}\n${detail}`
}

/** Why a command could not run, as text for standard error: troubles at their places, a sentence with its cure, or our own fault. */
export async function showFailure(error: unknown, io: Io): Promise<string> {
  if (error instanceof Unreadable) {
    const { printTroubles } = await import('../report/trouble-text.ts')
    return printTroubles(error.troubles, error.sourceLine, io.width)
  }
  if (error instanceof Error && hasFix(error))
    return `${escapeTerminal(`loomwright: ${error.message}`)}\n  Fix: ${escapeTerminal(error.fix)}\n`
  return fault(error, io.debug)
}
