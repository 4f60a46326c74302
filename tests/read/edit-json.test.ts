import fc from 'fast-check'
import { parse } from 'jsonc-parser'
import { describe, expect, test } from 'vitest'
import type { EditValue } from '../../src/base/finding.ts'
import { applyTextEdits, overlap } from '../../src/base/text-edit.ts'
import { withValue } from '../../src/check/mends/change-data.ts'
import { editJson, type JsonChange } from '../../src/read/edit-json.ts'

const edited = (text: string, ...changes: JsonChange[]): string => {
  const edits = editJson(text, changes)
  if (!edits) throw new Error('no place')
  expect(overlap(edits)).toBe(false)
  return applyTextEdits(text, edits)
}

const CASES: readonly (readonly [name: string, text: string, changes: JsonChange[], after: string])[] = [
  [
    'a value stays in its place, comment and odd spacing too',
    '{ "a" :  "1 mm²" /* thin */ , "b": 2 }',
    [{ path: ['a'], value: '2.5 mm²' }],
    '{ "a" :  "2.5 mm²" /* thin */ , "b": 2 }',
  ],
  ['a member on one line', '{ "a": 1 }', [{ path: ['b'], value: true }], '{ "a": 1, "b": true }'],
  [
    'a member on a line of its own, indented as the others, with tabs',
    '{\n\t"a": 1\n}\n',
    [{ path: ['b'], value: true }],
    '{\n\t"a": 1,\n\t"b": true\n}\n',
  ],
  [
    'line ends of the file',
    '{\r\n  "a": 1\r\n}\r\n',
    [{ path: ['b'], value: true }],
    '{\r\n  "a": 1,\r\n  "b": true\r\n}\r\n',
  ],
  [
    'a comment stays with the line it speaks of',
    '{\n  "a": 1 // only one\n}',
    [{ path: ['b'], value: true }],
    '{\n  "a": 1, // only one\n  "b": true\n}',
  ],
  [
    'a trailing comma is kept',
    '{\n  "a": 1, // one\n}',
    [{ path: ['b'], value: true }],
    '{\n  "a": 1, // one\n  "b": true,\n}',
  ],
  [
    'two members at once',
    '{\n  "a": 1\n}',
    [
      { path: ['b'], value: true },
      { path: ['c'], value: { d: 'e' } },
    ],
    '{\n  "a": 1,\n  "b": true,\n  "c": { "d": "e" }\n}',
  ],
  ['an empty object', '{ "a": {} }', [{ path: ['a', 'b'], value: 'c' }], '{ "a": { "b": "c" } }'],
  [
    'an empty object with a comment',
    '{ "a": { /* none */ } }',
    [{ path: ['a', 'b'], value: 1 }],
    '{ "a": { "b": 1 /* none */ } }',
  ],
  ['an entry behind the last of a list', '{ "a": [1] }', [{ path: ['a', 1], value: 2 }], '{ "a": [1, 2] }'],
  ['an empty list', '{ "a": [] }', [{ path: ['a', 0], value: { b: 1 } }], '{ "a": [{ "b": 1 }] }'],
  [
    'a brace in a comment is no brace',
    '{\n  "a": 1 // }\n}',
    [{ path: ['b'], value: 2 }],
    '{\n  "a": 1, // }\n  "b": 2\n}',
  ],
]

describe('an edit of JSON text', () => {
  test.each(CASES)('%s', (_, text, changes, after) => {
    expect(edited(text, ...changes)).toBe(after)
  })

  test('has no place where the path leads nowhere', () => {
    expect(editJson('{ "a": 1 }', [{ path: ['b', 'c'], value: 1 }])).toBeUndefined()
    expect(editJson('{ "a": 1 }', [{ path: ['a', 0], value: 1 }])).toBeUndefined()
  })

  const data = fc.letrec<{ value: EditValue }>((tie) => ({
    value: fc.oneof(
      { maxDepth: 3 },
      fc.string(),
      fc.integer(),
      fc.boolean(),
      fc.array(tie('value'), { maxLength: 4 }),
      fc.dictionary(fc.stringMatching(/^[a-z]{1,4}$/), tie('value'), { maxKeys: 4 }),
    ),
  })).value

  test('gives the data that was meant, and leaves every other character', () => {
    const layouts = fc.constantFrom<number | string>(0, 2, '\t')
    const root = fc.dictionary(fc.stringMatching(/^[a-z]{1,4}$/), data, { minKeys: 1, maxKeys: 5 })
    fc.assert(
      fc.property(
        root,
        data,
        layouts,
        fc.boolean(),
        fc.nat(),
        fc.boolean(),
        (whole, value, indent, crlf, pick, isNew) => {
          const paths = pathsOf(whole)
          const path = isNew ? ['new key'] : (paths[pick % paths.length] ?? [])
          const plain = JSON.stringify(whole, null, indent)
          const text = crlf ? plain.replaceAll('\n', '\r\n') : plain
          const edits = editJson(text, [{ path, value }]) ?? []
          expect(edits.length).toBeGreaterThan(0)
          const after = applyTextEdits(text, edits)
          expect(parse(after)).toEqual(withValue(whole, path, value))
          // What is left when the new stretches are taken out is the old text without the old ones.
          let shift = 0
          let rest = after
          let old = text
          for (const { start, end, text: fresh } of [...edits].sort((a, b) => a.start - b.start)) {
            rest = rest.slice(0, start + shift) + rest.slice(start + shift + fresh.length)
            old = old.slice(0, start + shift) + old.slice(end + shift)
            shift -= end - start
          }
          expect(rest).toBe(old)
          if (crlf && text.includes('\r\n')) expect(after.replaceAll('\r\n', '')).not.toContain('\n')
        },
      ),
      { numRuns: 400 },
    )
  })
})

/** Paths of every value inside some data. */
function pathsOf(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null) return path.length > 0 ? [path] : []
  const inner = Object.entries(value).flatMap(([key, each]) =>
    pathsOf(each, [...path, Array.isArray(value) ? Number(key) : key]),
  )
  return path.length > 0 ? [path, ...inner] : inner
}
