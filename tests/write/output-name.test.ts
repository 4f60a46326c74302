import { posix, win32 } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { slug } from '../../src/base/slug.ts'
import { outputNameProblem, outputNamesProblem } from '../../src/write/output-name.ts'

describe('names of output files', () => {
  test.each([
    'index.html',
    'harness/pickup-head.html',
    'a/b/c.svg',
    'data/search.json',
    'console/x.html',
    'é.html',
  ])('%s is good', (name) => expect(outputNameProblem(name)).toBeUndefined())

  test.each([
    ['../x', /steps out/],
    ['a/../../x', /steps out/],
    ['./x', /steps out/],
    ['/etc/x', /not relative/],
    ['a//b', /empty part/],
    ['', /empty part/],
    ['a/', /empty part/],
    ['C:/x', /not every system/],
    ['a\\..\\x', /not every system/],
    ['a\u0000b', /not every system/],
    ['what?', /not every system/],
    ['CON', /device/],
    ['a/nul.html', /device/],
    ['com1.svg', /device/],
    ['a./b', /dot or a space/],
    ['a ', /dot or a space/],
    ['x'.repeat(201), /longer/],
    ['€'.repeat(70), /longer/],
  ])('%j is refused', (name, problem) => expect(outputNameProblem(name)).toMatch(problem))

  test.each([
    [['a.html', 'A.html'], /one file on some systems/],
    [['e\u0301.html', '\u00e9.html'], /one file on some systems/],
    [['a', 'a/b.html'], /needs a folder/],
    [['a/b.html', 'A'], /needs a folder/],
  ])('%j clash', (names, problem) => expect(outputNamesProblem(names)).toMatch(problem))

  test('no name that is let through leaves its folder, by the rules of any system', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('..', '.', '/', '\\', 'a', 'C:', ' ', '\u0000', 'con'), { maxLength: 8 }),
        (parts) => {
          const name = parts.join('')
          if (outputNameProblem(name) !== undefined) return
          expect(posix.resolve('/out', name).startsWith('/out/')).toBe(true)
          expect(win32.resolve('C:\\out', name).startsWith('C:\\out\\')).toBe(true)
        },
      ),
      { numRuns: 2000 },
    )
  })

  test('a slug is always a good name', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (text) => {
        expect(outputNameProblem(`${slug(text)}.html`)).toBeUndefined()
      }),
    )
  })
})
