import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { applyTextEdits, overlap, type TextEdit } from '../../src/base/text-edit.ts'
import { printPatch } from '../../src/report/patch.ts'

let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'loom-patch-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** What git makes of a text with a patch. */
function patched(text: string, patch: string): string {
  const file = join(folder, 'a.ts')
  writeFileSync(file, text)
  writeFileSync(join(folder, 'p.diff'), `Words before it: - one\n    two\n${patch}`)
  execFileSync('git', ['apply', '--whitespace=nowarn', 'p.diff'], { cwd: folder, stdio: 'pipe' })
  return readFileSync(file, 'utf8')
}

const line = fc.stringMatching(/^[a-c{} @+-]{0,6}$/)
const edit = fc.record({ at: fc.nat(), length: fc.nat(12), text: fc.stringMatching(/^[xy\n]{0,6}$/) })

describe('a patch', () => {
  test('is what git apply takes, and gives the edited text', () => {
    let applied = 0
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 40 }),
        fc.array(edit, { minLength: 1, maxLength: 4 }),
        fc.boolean(),
        fc.boolean(),
        (lines, wanted, crlf, ends) => {
          const eol = crlf ? '\r\n' : '\n'
          const text = lines.join(eol) + (ends ? eol : '')
          const edits: TextEdit[] = wanted.map(({ at, length, text: fresh }) => {
            const start = at % (text.length + 1)
            return { start, end: Math.min(text.length, start + length), text: fresh }
          })
          const after = applyTextEdits(text, edits)
          if (overlap(edits) || after === text || text === '' || after === '') return
          expect(patched(text, printPatch('a.ts', text, edits))).toBe(after)
          applied++
        },
      ),
      { numRuns: 150, seed: 7 },
    )
    expect(applied).toBeGreaterThan(60)
  }, 60_000)

  test('of one changed value shows the line and three on each side', () => {
    const text = 'a\nb\nc\nd\ne\nf\ng\nh\ni\n'
    expect(printPatch('x/y.ts', text, [{ start: 8, end: 9, text: 'E' }])).toBe(
      '--- a/x/y.ts\n+++ b/x/y.ts\n@@ -2,7 +2,7 @@\n b\n c\n d\n-e\n+E\n f\n g\n h\n',
    )
  })
})
