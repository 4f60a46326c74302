import { describe, expect, test } from 'vitest'
import type { Finding } from '../../src/base/finding.ts'
import type { Place } from '../../src/base/place.ts'
import { printAnnotations } from '../../src/report/annotations.ts'

const finding: Finding = {
  rule: 'wire-ampacity',
  level: 'stop',
  subject: 'job/main.A1',
  what: 'A1 carries 12 A',
  why: 'It may carry 8 A.',
  fix: 'Take 1.5 mm².',
  assumed: [],
  facts: {},
  at: { doc: 'a.json', path: [] },
  notes: [],
  marks: [],
}
const at =
  (file: string): (() => Place) =>
  () => ({ file, line: 3, column: 9 })

/*
 * The form is that of the workflow commands of common runners: `::error file={name},line={line},col={col},title={title}::{message}`,
 * where % CR LF are written %25 %0D %0A, and in values : and , are written %3A and %2C (from memory of its published description).
 */
describe('annotations', () => {
  test.each([
    ['stop', 'error'],
    ['warning', 'warning'],
    ['note', 'notice'],
  ] as const)('%s is told as %s', (level, command) => {
    expect(printAnnotations([{ ...finding, level }], at('a.json'))).toBe(
      `::${command} file=a.json,line=3,col=9,title=wire-ampacity::A1 carries 12 A. It may carry 8 A. Take 1.5 mm².\n`,
    )
  })

  test.each([
    ['a line end', 'x\n::stop-commands::y', 'x ::stop-commands::y'],
    ['an escape', '100%0A::error::', '100%250A::error::'],
    ['a terminal command', 'x\u001b[2Jy\u0007', 'xy'],
    ['marks of direction', 'x\u202ey', 'xy'],
  ])('%s in a message is harmless', (_, what, shown) => {
    const text = printAnnotations([{ ...finding, what }], at('a.json'))
    expect(text.split('\n')).toHaveLength(2)
    expect(text).toContain(`::${shown}. It may`)
  })

  test('a file name cannot end its value', () => {
    expect(printAnnotations([finding], at('a,line=1::b\n.json'))).toContain(
      'file=a%2Cline=1%3A%3Ab .json,line=3',
    )
  })
})
