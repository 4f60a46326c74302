import Ajv2020 from 'ajv/dist/2020.js'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { z } from 'zod'
import { standardParts } from '../../src/catalogue/standard-parts.ts'
import { document } from '../../src/describe/document.ts'
import { jsonSchema } from '../../src/describe/json-schema.ts'
import { pathsOf, sample, sampleWith } from './sample.ts'

const date = /^\d{4}-\d{2}-\d{2}$/
const judge = () =>
  new Ajv2020({ strict: true, strictTypes: false, allErrors: false, formats: { date } }).compile(jsonSchema())
/** Codes of issues, those within the branches of a union too. */
const codesIn = (issues: readonly z.core.$ZodIssue[]): string[] =>
  issues.flatMap((issue) => (issue.code === 'invalid_union' ? issue.errors.flatMap(codesIn) : [issue.code]))

type Node = { description?: string; title?: string; $ref?: string; properties?: Record<string, Node> }

test('is draft 2020-12, and a strict validator takes it', () => {
  expect(jsonSchema()).toMatchObject({
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    $ref: '#/$defs/Document',
    $defs: { Document: { additionalProperties: false, required: ['loomwright'] } },
  })
  const valid = judge()
  expect(valid(sample())).toBe(true)
  expect(valid({ loomwright: 1, parts: standardParts() })).toBe(true)
})

test('says of every list and every key of a wire what it is, with an example to type', () => {
  const { $defs } = jsonSchema() as { $defs: Record<string, Node> }
  const wire = $defs.Wire?.properties ?? {}
  expect(Object.keys(wire)).toContain('colour')
  for (const [key, node] of Object.entries(wire))
    expect([key, node.description]).toEqual([key, expect.any(String)])
  expect(wire.length).toMatchObject({ type: 'string', examples: ['5.2 m'] })
  expect(wire.size).toMatchObject({ examples: ['1.5 mm²', '18 AWG'] })
})

test.each<[(string | number)[], unknown]>([
  [['loomwright'], 2],
  [['harneses'], []],
  [['harnesses', 0, 'wires', 0, 'lenght'], '1 m'],
  [['harnesses', 0, 'wires', 0, 'length'], 5],
  [['harnesses', 0, 'wires', 0, 'length'], '5'],
  [['harnesses', 0, 'wires', 0, 'size'], '1.5'],
  [['harnesses', 0, 'wires', 0, 'colour'], 'RED'],
  [['harnesses', 0, 'wires', 0, 'to'], undefined],
  [['equipment', 0, 'connectors', 0, 'pins', '2', 'level'], 'lin'],
  [['equipment', 0, 'connectors', 0, 'pins', '2', 'kind'], 'audio'],
  [
    ['installations', 0, 'mates', 0],
    ['main.P1', 'rad.J1', 'rad.J2'],
  ],
  [['policy', 'drop', 'critical'], 3],
])('refuses %j = %j, as reading does', (path, value) => {
  const data = sampleWith(path, value)
  expect([judge()(data), document.safeParse(data).success]).toEqual([false, false])
})

test('takes whatever reading takes; where only reading refuses, it is about the words of a text', () => {
  const valid = judge()
  const paths = pathsOf(sample()).slice(1)
  const value = fc.oneof(
    fc.jsonValue(),
    fc.constantFrom('1 m', '2 A', '0.5 mm²', '20 AWG', 'RD', 'P1.1', '3 %', 0, 1, -1, [], {}),
    fc.constant(undefined),
  )
  fc.assert(
    fc.property(fc.constantFrom(...paths), value, (path, changed) => {
      const data = sampleWith(path, changed)
      const read = document.safeParse(data)
      if (read.success) expect(valid(data)).toBe(true)
      else if (valid(data)) expect(codesIn(read.error.issues)).toContain('custom')
    }),
    { numRuns: 2000 },
  )
})
