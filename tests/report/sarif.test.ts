import { Ajv } from 'ajv'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { CheckReport, RuleInfo } from '../../src/report/check-report.ts'
import { printSarif, sarifLog } from '../../src/report/sarif.ts'
import { sarifSubset } from './oasis-sarif-2.1.0-subset.ts'
import { EMPTY, finding, locate, SAMPLE } from './sample-report.ts'

const ajv = new Ajv({ strict: false, allErrors: true })
ajv.addFormat('uri', (text) => URL.canParse(text))
ajv.addFormat('uri-reference', (text) =>
  /^(?:[A-Za-z0-9._~!$&'()*+,;=:@/?#[\]-]|%[0-9A-Fa-f]{2})*$/.test(text),
)
const valid = ajv.compile(sarifSubset)

const rule: RuleInfo = {
  id: 'voltage-at-load',
  title: 'Enough voltage reaches the load',
  level: 'warning',
  reason: 'A transmitter that is short of voltage drops out of lock.',
  remedy: 'thicker wire, both legs',
  sources: ['FAA AC 43.13-1B table 11-6'],
}
const options = { locate, toolVersion: '0.1.0', rules: [rule] }

interface Log {
  runs: {
    tool: { driver: { rules: { id: string }[] } }
    results: {
      ruleId: string
      ruleIndex: number
      kind?: string
      level: string
      suppressions?: { kind: string; justification: string }[]
      partialFingerprints: Record<string, string>
      locations?: { physicalLocation: { artifactLocation: { uri: string } } }[]
    }[]
  }[]
}
const read = (report: CheckReport): Log => JSON.parse(printSarif(report, options))
const check = (log: unknown): string[] =>
  valid(log) ? [] : (valid.errors ?? []).map((e) => `${e.instancePath} ${e.message}`)

describe('SARIF 2.1.0', () => {
  test('the sample and an empty report satisfy the standard', () => {
    expect(check(read(SAMPLE))).toEqual([])
    expect(check(read(EMPTY))).toEqual([])
  })

  test('every result names its rule twice over, and both agree', () => {
    const { tool, results } = read(SAMPLE).runs[0] as Log['runs'][0]
    expect(results).toHaveLength(7)
    for (const result of results) expect(tool.driver.rules[result.ruleIndex]?.id).toBe(result.ruleId)
    expect(new Set(tool.driver.rules.map(({ id }) => id)).size).toBe(tool.driver.rules.length)
  })

  test('levels, what was not checked, and what was accepted', () => {
    const results = read(SAMPLE).runs[0]?.results ?? []
    expect(results.map(({ kind, level }) => `${kind ?? 'fail'} ${level}`)).toEqual([
      'fail error',
      'fail warning',
      'fail note',
      'fail error',
      'open none',
      'open none',
      'open none',
    ])
    expect(results[3]?.suppressions).toMatchObject([
      { kind: 'external', justification: 'in conduit all the way. Accepted by R. Alder, 2025-03-01.' },
    ])
  })

  test('a fingerprint outlives moved lines and changed figures, and differs by address', () => {
    const print = (part: Parameters<typeof finding>[0]) =>
      read({ ...EMPTY, findings: [finding(part)] }).runs[0]?.results[0]?.partialFingerprints
    expect(print({ what: '1.4 V lost', at: { doc: 'moved.json', path: [40] } })).toEqual(print({}))
    expect(print({ subject: 'pickup-17/radio.J1.2' })).not.toEqual(print({}))
  })

  test.each([
    ['harnesses/head loom #1.ts', 'harnesses/head%20loom%20%231.ts'],
    ['harnesses\\head.ts', 'harnesses/head.ts'],
    ['C:\\shop\\head ü.ts', 'file:///C:/shop/head%20%C3%BC.ts'],
    ['/shop/a.json', 'file:///shop/a.json'],
  ])('the file %s is the URI %s', (doc, uri) => {
    const log = read({ ...EMPTY, findings: [finding({ at: { doc, path: [] } })] })
    expect(log.runs[0]?.results[0]?.locations?.[0]?.physicalLocation.artifactLocation.uri).toBe(uri)
  })

  test('whatever a user typed, the log stays valid', () => {
    const text = fc.string({ unit: 'binary', maxLength: 20 })
    fc.assert(
      fc.property(text, text, text, text, (what, why, subject, doc) => {
        const log = read({
          findings: [finding({ what, why, subject, at: { doc, path: [] } })],
          notChecked: [{ rule: 'r', subject, needs: why }],
          waived: [
            {
              finding: finding({ what }),
              waiver: { rule: 'r', at: subject, by: why, date: '', reason: what },
            },
          ],
        })
        expect(check(log)).toEqual([])
      }),
    )
  })
})

// The schema must refuse what the standard refuses, or the tests above show nothing.
describe('the standard refuses', () => {
  const minimal = (result: object) => ({
    version: '2.1.0',
    runs: [{ tool: { driver: { name: 'x' } }, results: [result] }],
  })
  const message = { text: 'm' }
  test('nothing of the minimal log', () => expect(check(minimal({ ruleId: 'R1', message }))).toEqual([]))
  test.each<[string, unknown]>([
    ['a log without runs', { version: '2.1.0' }],
    ['a log of another version', { ...minimal({ message }), version: '2.0.0' }],
    ['a run without a tool', { version: '2.1.0', runs: [{}] }],
    ['a result without a message', minimal({ ruleId: 'R1' })],
    ['a message without text or id', minimal({ message: {} })],
    ['an unknown level', minimal({ message, level: 'stop' })],
    ['an unknown kind', minimal({ message, kind: 'maybe', level: 'none' })],
    ['a property of our own outside a property bag', minimal({ message, subject: 'x' })],
    [
      'W100: line 0',
      minimal({
        message,
        locations: [{ physicalLocation: { artifactLocation: { uri: 'a' }, region: { startLine: 0 } } }],
      }),
    ],
    [
      'W100: a space in a URI',
      minimal({ message, locations: [{ physicalLocation: { artifactLocation: { uri: 'a b' } } }] }),
    ],
    [
      'W100: a location without artifact',
      minimal({ message, locations: [{ physicalLocation: { region: { startLine: 1 } } }] }),
    ],
    ['an unknown suppression kind', minimal({ message, suppressions: [{ kind: 'waiver' }] })],
    ['open with a level left to its default', minimal({ message, kind: 'open' })],
    ['open as an error', minimal({ message, kind: 'open', level: 'error' })],
  ])('%s', (_, log) => expect(check(log)).not.toEqual([]))

  test('a mutated log of ours', () => {
    const log = structuredClone(sarifLog(SAMPLE, options)) as unknown as Log
    for (const result of log.runs[0]?.results ?? []) result.level = 'stop'
    expect(check(log).length).toBeGreaterThan(0)
  })
})
