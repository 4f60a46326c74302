import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { LineIndex } from '../../src/read/line-index.ts'
import { argumentsOf, follow, partsOf } from '../../src/read/scan-call.ts'

const parts = (text: string) =>
  partsOf(text, text.indexOf('(')).map(({ start, end }) => text.slice(start, end))

describe('arguments of a call', () => {
  test.each<[string, string[]]>([
    ['f()', []],
    ['f(a)', ['a']],
    ['f( a , b.c(d, e) , [1, 2], { x: 1, y: 2 }, )', ['a', 'b.c(d, e)', '[1, 2]', '{ x: 1, y: 2 }']],
    [
      `f('a, (b', "c) \\" d", \`e \${g('}', { h })}, i\`)`,
      [`'a, (b'`, `"c) \\" d"`, `\`e \${g('}', { h })}, i\``],
    ],
    ['f(/* a, b */ c, // d, e\n g)', ['c', 'g']],
  ])('%s', (text, expected) => {
    expect(parts(text)).toEqual(expected)
  })

  test('type arguments do not hide them, and a name that is not called has none', () => {
    expect(argumentsOf('f<A, B>(x)', 0)?.parts).toHaveLength(1)
    expect(argumentsOf('f; g(x)', 0)).toBeUndefined()
  })
})

test.each<[string, (string | number)[], string]>([
  ['{ a: 1, b: { c: [2, 3] } }', ['b', 'c', 1], '3'],
  [`{ 'a-b': 1, "2": { x }, 3.5: 0 }`, ['2', 'x'], 'x'],
  ['{ ...like, a: 1 }', ['a'], '1'],
  ['{ a: f({ a: 2 }) }', ['a'], 'f({ a: 2 })'],
  ['[...more, 1, 2]', [1], '[...more, 1, 2]'],
])('%s at %j', (text, path, expected) => {
  const span = { start: 0, end: text.length }
  const found = follow(text, { start: 0, value: span, whole: false }, path)
  expect(text.slice(found.value.start, found.value.end)).toBe(expected)
})

test('any text is scanned to its end', () => {
  const pieces = fc.constantFrom(
    '(',
    ')',
    '{',
    '}',
    '[',
    ']',
    ',',
    ':',
    "'",
    '"',
    '`',
    '${',
    '\\',
    '//',
    '/*',
    '*/',
    'a',
    ' ',
    '\n',
  )
  fc.assert(
    fc.property(fc.array(pieces, { maxLength: 60 }), (list) => {
      const text = `f(${list.join('')}`
      for (const { start, end } of argumentsOf(text, 0)?.parts ?? []) {
        expect(start).toBeLessThanOrEqual(end)
        expect(end).toBeLessThanOrEqual(text.length)
      }
    }),
  )
})

test('an offset, its line and column, and back', () => {
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom('a', '\n', '\r\n', 'é', '𝄞'), { maxLength: 40 }),
      fc.nat(60),
      (list, at) => {
        const text = list.join('')
        const offset = Math.min(at, text.length)
        const index = new LineIndex(text)
        const { line, column } = index.at(offset)
        expect(index.offset(line, column)).toBe(offset)
        expect(text.slice(0, offset).split('\n')).toHaveLength(line)
        expect(index.line(line)).toBe(text.split('\n')[line - 1]?.replace(/\r$/, ''))
      },
    ),
  )
})
