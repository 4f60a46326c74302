import { describe, expect, it } from 'vitest'
import type { Rule } from '../../src/check/rule.ts'
import { bendRadius } from '../../src/check/rules/bend-radius.ts'
import { cableFaultKeys } from '../../src/check/rules/cable-fault-keys.ts'
import { dataLegsSwapped } from '../../src/check/rules/data-legs-swapped.ts'
import { fuseInNegative } from '../../src/check/rules/fuse-in-negative.ts'
import { isolatedCommonGrounded } from '../../src/check/rules/isolated-common-grounded.ts'
import { returnPastSensor } from '../../src/check/rules/return-past-sensor.ts'
import { speakerPower } from '../../src/check/rules/speaker-power.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { checkDocument } from './check-document.ts'

type Pin = Record<string, unknown>

/** An example of a rule with fields of one pin changed; undefined takes a field out. */
function changed(data: DocumentInput, unit: number, pin: string, fields: Pin): DocumentInput {
  const copy = structuredClone(data)
  const pins = copy.equipment?.[unit]?.connectors[0]?.pins as Record<string, Pin>
  for (const [field, value] of Object.entries(fields)) {
    const there = pins[pin] as Pin
    if (value === undefined) delete there[field]
    else there[field] = value
  }
  return copy
}

const check = (rule: Rule, data: DocumentInput) => {
  const { findings, notChecked } = checkDocument(data, { rules: [rule] })
  return { levels: findings.map(({ level }) => level), needs: notChecked.map(({ needs }) => needs) }
}

describe('a cable that comes off', () => {
  const { passes } = cableFaultKeys.examples
  it.each([
    ['low', 'up', []],
    ['low', 'down', ['stop']],
    ['high', 'down', []],
    ['high', 'up', ['stop']],
    ['low', 'none', ['warning']],
  ] as const)('on an input active %s and pulled %s', (active, pull, levels) => {
    expect(check(cableFaultKeys, changed(passes, 0, '1', { active, pull })).levels).toEqual(levels)
  })

  it('is no matter on an input that keys nothing', () => {
    const data = changed(passes, 0, '1', { pull: 'down', purpose: 'other' })
    expect(check(cableFaultKeys, data)).toEqual({ levels: [], needs: [] })
  })

  it('is asked about where level or pull is not given', () => {
    const data = changed(passes, 0, '1', { active: undefined, pull: undefined })
    expect(check(cableFaultKeys, data).needs).toEqual([
      'needs its active level and how it is pulled of radio.J1.1',
    ])
  })

  it('shorted to 0 V keys any active-low line, so a time-out timer is asked for', () => {
    expect(check(cableFaultKeys, changed(passes, 0, '1', { note: undefined })).needs).toEqual([
      'needs a note that radio has a time-out timer: a short of radio.J1.1 to 0 V keys the transmitter',
    ])
  })
})

describe('legs of a balanced line', () => {
  const { passes } = dataLegsSwapped.examples
  it('are told by the level at rest, not by the letter', () => {
    const lettersOnly = changed(changed(passes, 1, '1', { line: 'B' }), 1, '2', { line: 'A' })
    expect(check(dataLegsSwapped, lettersOnly)).toEqual({ levels: [], needs: [] })
  })
  it('are asked about where no level is given', () => {
    const data = changed(passes, 1, '1', { idle: undefined })
    expect(check(dataLegsSwapped, data)).toEqual({
      levels: [],
      needs: ['needs the level at rest of listener.J2.1'],
    })
  })
  it('of CAN are told by name', () => {
    const can = (lines: readonly string[]) =>
      [0, 1].reduce(
        (data, unit) =>
          ['1', '2'].reduce(
            (inner, pin, index) =>
              changed(inner, unit, pin, {
                standard: 'can',
                idle: undefined,
                line: unit === 0 ? ['CAN_H', 'CAN_L'][index] : lines[index],
              }),
            data,
          ),
        passes,
      )
    expect(check(dataLegsSwapped, can(['CAN_H', 'CAN_L'])).levels).toEqual([])
    expect(check(dataLegsSwapped, can(['CAN_L', 'CAN_H'])).levels).toEqual(['warning'])
  })
})

describe('an isolated common', () => {
  it('of an optocoupler output that switches may take the ground of what it switches', () => {
    const { trips } = isolatedCommonGrounded.examples
    const switching = ['1', '2'].reduce(
      (data, pin) => changed(data, 0, pin, { standard: 'tia-232', isolated: undefined }),
      trips,
    )
    expect(check(isolatedCommonGrounded, switching).levels).toEqual([])
  })
})

describe('a loudspeaker', () => {
  const { trips } = speakerPower.examples
  const rated = (watts: string) => ['1', '2'].reduce((data, pin) => changed(data, 1, pin, { watts }), trips)
  // 15 W into 4 Ω wants a loudspeaker rated above that (common practice).
  it.each([
    ['10 W', ['warning']],
    ['15 W', ['warning']],
    ['16 W', []],
    ['40 W', []],
  ] as const)('of %s on 15 W into 4 Ω', (watts, levels) => {
    expect(check(speakerPower, rated(watts)).levels).toEqual(levels)
  })
  it('of 8 Ω gets half of it', () => {
    const eight = ['1', '2'].reduce((data, pin) => changed(data, 1, pin, { ohms: '8 Ω' }), trips)
    expect(check(speakerPower, eight).levels).toEqual([])
  })
  it('without a rating is asked about', () => {
    const bare = ['1', '2'].reduce((data, pin) => changed(data, 1, pin, { watts: undefined }), trips)
    expect(check(speakerPower, bare).needs).toEqual(['needs the power speaker.J2.1 is rated for'])
  })
})

describe('shop policy and missing facts', () => {
  it('allow a fuse in the negative', () => {
    const data = { ...fuseInNegative.examples.trips, policy: { fuseNegative: 'allow' as const } }
    expect(check(fuseInNegative, data).levels).toEqual([])
  })
  it('ask nothing about a return where there is no sensor', () => {
    const data = structuredClone(returnPastSensor.examples.trips)
    for (const unit of data.equipment ?? []) delete unit.inside
    expect(check(returnPastSensor, data)).toEqual({ levels: [], needs: [] })
  })
  it.each([
    ['60 mm', []],
    ['59 mm', ['warning']],
  ] as const)('bend a cable of 6 mm to %s', (bend, levels) => {
    const data = structuredClone(bendRadius.examples.passes)
    for (const cable of data.harnesses?.[0]?.cables ?? []) cable.bend = bend
    expect(check(bendRadius, data).levels).toEqual(levels)
  })
  it('ask for the diameter of a bent cable', () => {
    const data = structuredClone(bendRadius.examples.trips)
    for (const part of data.parts ?? []) if (part.kind === 'cable') delete part.od
    expect(check(bendRadius, data)).toEqual({
      levels: [],
      needs: ['needs the outside diameter of W1 (control-2)'],
    })
  })
})
