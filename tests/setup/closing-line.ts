import type { Reporter, TestModule } from 'vitest/node'

interface Tally {
  passed: number
  failed: number
  skipped: number
}

/** Counts every test of the modules; a module that could not be loaded counts as one failure. */
export function tally(modules: readonly TestModule[], stray: number): Tally {
  const counts: Tally = { passed: 0, failed: stray, skipped: 0 }
  for (const module of modules) {
    let failedHere = 0
    for (const test of module.children.allTests()) {
      const { state } = test.result()
      if (state === 'passed') counts.passed += 1
      else if (state === 'failed') failedHere += 1
      else counts.skipped += 1
    }
    // A hook or an import can fail a file without failing any of its tests.
    if (failedHere === 0 && !module.ok()) failedHere = 1
    counts.failed += failedHere
  }
  return counts
}

/** The closing line of a run: "N passed, N failed", with ", N skipped" when there are any. */
export function closingLine({ passed, failed, skipped }: Tally): string {
  return `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`
}

/** Prints the closing line as the very last thing, after every other reporter has spoken. */
export class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly unknown[]): void {
    const counts = tally(modules, unhandled.length)
    if (counts.passed + counts.failed === 0) counts.failed = 1
    if (counts.failed > 0) process.exitCode = 1
    process.once('exit', () => process.stdout.write(`\n${closingLine(counts)}\n`))
  }
}
