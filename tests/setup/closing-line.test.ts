import { expect, test } from 'vitest'
import type { TestModule } from 'vitest/node'
import { closingLine, tally } from './closing-line.ts'

function fileOf(ok: boolean, ...states: string[]): TestModule {
  const tests = states.map((state) => ({ result: () => ({ state }) }))
  return { ok: () => ok, children: { allTests: () => tests } } as unknown as TestModule
}

test.each([
  ['all green', [fileOf(true, 'passed', 'passed')], 0, '2 passed, 0 failed'],
  ['one red, one left out', [fileOf(false, 'failed', 'skipped')], 0, '0 passed, 1 failed, 1 skipped'],
  ['a file that does not load', [fileOf(false), fileOf(true, 'passed')], 0, '1 passed, 1 failed'],
  ['a hook that throws', [fileOf(false, 'passed')], 0, '1 passed, 1 failed'],
  ['an error outside any test', [fileOf(true, 'passed')], 1, '1 passed, 1 failed'],
])('%s', (_, files, stray, line) => {
  expect(closingLine(tally(files, stray))).toBe(line)
})
