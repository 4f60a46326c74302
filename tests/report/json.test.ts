import { expect, test } from 'vitest'
import { printJson, printJsonText } from '../../src/report/json.ts'
import { EMPTY, locate, SAMPLE } from './sample-report.ts'

test('the shape of the JSON report', () => {
  const report = JSON.parse(printJson(SAMPLE, locate, '0.1.0'))
  expect(report.report).toBe(1)
  expect(report.tool).toEqual({ name: 'loomwright', version: '0.1.0' })
  expect(report.counts).toEqual({ stop: 1, warning: 1, note: 1, waived: 1, notChecked: 3, openQuestions: 0 })
  expect(report.findings[0]).toEqual({
    identity: 'voltage-at-load pickup-17/radio.J1.1',
    rule: 'voltage-at-load',
    level: 'stop',
    subject: 'pickup-17/radio.J1.1',
    what: '1.30 V lost in transmit, limit 0.5 V',
    why: 'return A03 is 74 mΩ of the 108 mΩ loop at 12 A',
    fix: 'A03 to 6 mm² (10 AWG) gives 0.62 V',
    assumed: ['2 mΩ per joint', '20 °C'],
    facts: { lost: { value: 1.3, unit: 'V' } },
    factsCode: expect.stringMatching(/^[0-9A-Z]{4}-[0-9A-Z]{4}$/),
    at: { file: 'pickup.json', line: 3, column: 7, path: ['harnesses', 0, 'wires', 2] },
    notes: [{ text: 'the limit is set here', at: { file: 'policy.json', line: 3, column: 6, path: [1] } }],
    marks: [],
  })
  expect(report.findings[1].cause).toBe('launch/P1 mirrored')
  expect(report.waived[0].accepted).toEqual({
    by: 'R. Alder',
    date: '2025-03-01',
    reason: 'in conduit all the way',
  })
  expect(report.notChecked[2]).toEqual({
    rule: 'fuse-near-source',
    subject: 'launch/main.F1',
    needs: 'needs its length from the battery',
    at: { file: 'launch.json', line: 3, column: 5, path: [0] },
  })
})

test('an empty report has every list', () => {
  const report = JSON.parse(printJson(EMPTY, locate, '0.1.0'))
  expect([report.findings, report.waived, report.questions, report.notChecked]).toEqual([[], [], [], []])
})

test('strings read back unchanged, yet no raw control character or direction mark is printed', () => {
  const text = 'a\u001b[2J\u009b31m\u202e\u2028\u007f"\\'
  const printed = printJsonText({ text })
  expect(printed).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028-\u202e]/)
  expect(JSON.parse(printed)).toEqual({ text })
})
