import { describe, expect, it } from 'vitest'
import type { Rule } from '../../src/check/rule.ts'
import { activeLevel } from '../../src/check/rules/active-level.ts'
import { bridgedLegGrounded } from '../../src/check/rules/bridged-leg-grounded.ts'
import { busTerminated } from '../../src/check/rules/bus-terminated.ts'
import { coilSuppressed } from '../../src/check/rules/coil-suppressed.ts'
import { oneStandardPerJoint } from '../../src/check/rules/one-standard-per-joint.ts'
import { screenBonded } from '../../src/check/rules/screen-bonded.ts'
import { screenBothEnds } from '../../src/check/rules/screen-both-ends.ts'
import { screenOnChassis } from '../../src/check/rules/screen-on-chassis.ts'
import { speakerLoad } from '../../src/check/rules/speaker-load.ts'
import { switchCurrent } from '../../src/check/rules/switch-current.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { checkDocument } from './check-document.ts'

type Fields = Record<string, unknown>

/** A value of an example changed by its path; undefined takes it out. */
function put(data: DocumentInput, path: readonly (string | number)[], value: unknown): DocumentInput {
  const copy = structuredClone(data)
  let at = copy as unknown as Fields
  for (const step of path.slice(0, -1)) {
    at[step] ??= {}
    at = at[step] as Fields
  }
  const last = path.at(-1) as string
  if (value === undefined) delete at[last]
  else at[last] = value
  return copy
}

/** Things added to the harness of an example. */
function add(data: DocumentInput, list: 'wires' | 'components', ...items: readonly Fields[]): DocumentInput {
  const there = (data.harnesses?.[0]?.[list] ?? []) as readonly unknown[]
  return put(data, ['harnesses', 0, list], [...there, ...items])
}

const pin = (unit: number, name: string) => ['equipment', unit, 'connectors', 0, 'pins', name]

function check(rule: Rule, data: DocumentInput) {
  const { findings, notChecked } = checkDocument(data, { rules: [rule] })
  return {
    found: findings.map(({ level, subject }) => `${level} ${subject}`),
    needs: notChecked.map(({ needs }) => needs),
    facts: findings[0]?.facts ?? {},
  }
}

const nothing = { found: [], needs: [], facts: {} }
const wire = (id: string, from: string, to: string) => ({ id, from, to, size: '0.5 mm²', length: '1 m' })

describe('a leg of a bridged output', () => {
  const { passes, trips } = bridgedLegGrounded.examples
  it('shorts half the supply: 7 V of 14 V', () => {
    expect(check(bridgedLegGrounded, trips).facts).toMatchObject({ idle: { value: 7, unit: 'V' } })
  })
  it('may not meet a screen, nor the 0 V of a unit with a frame', () => {
    for (const kind of ['shield', 'signal-return']) {
      const withFrame = put(put(trips, pin(1, '3'), { kind }), pin(1, '2'), { kind: 'chassis' })
      const moved = put(withFrame, ['harnesses', 0, 'wires', 2, 'to'], 'P2.3')
      expect(check(bridgedLegGrounded, moved).found, kind).toEqual(['stop lead/radio.J1.4'])
    }
  })
  it('may meet an isolated 0 V, and the 0 V of a loudspeaker', () => {
    for (const isolated of [true, false])
      expect(check(bridgedLegGrounded, put(trips, pin(1, '3'), { kind: 'signal-return', isolated }))).toEqual(
        nothing,
      )
  })
  it('may feed an earthed instrument through a transformer', () => {
    const coupled = add(
      add(passes, 'components', { id: 'TR1', kind: 'transformer' }),
      'wires',
      wire('B1', 'SP1', 'TR1.p2'),
      wire('B2', 'TR1.s2', 'P2.3'),
    )
    expect(check(bridgedLegGrounded, coupled)).toEqual(nothing)
  })
  it('is any leg when the output is not bridged', () => {
    expect(check(bridgedLegGrounded, put(trips, [...pin(0, '4'), 'bridged'], false))).toEqual(nothing)
  })
})

describe('loudspeakers on one output', () => {
  const { trips } = speakerLoad.examples
  it.each([
    ['2 Ω', []],
    ['4 Ω', ['stop lead/radio.J1.1']],
  ])('of 2 Ω together, with a lowest load of %s', (minLoad, found) => {
    const judged = check(speakerLoad, put(trips, [...pin(0, '1'), 'minLoad'], minLoad))
    expect(judged.found).toEqual(found)
    expect(judged.needs).toEqual([])
  })
  it('are asked about when the lowest load is not given', () => {
    expect(check(speakerLoad, put(trips, [...pin(0, '1'), 'minLoad'], undefined)).needs).toEqual([
      'needs the lowest load radio.J1.1 (SPK+, loudspeaker output) may drive',
    ])
  })
})

describe('a switched coil', () => {
  const { trips, passes } = coilSuppressed.examples
  const diode = (a: string, k: string) =>
    add(
      add(trips, 'components', { id: 'D1', kind: 'diode' }),
      'wires',
      wire('B1', a, 'D1.a'),
      wire('B2', 'D1.k', k),
    )
  it('is served by a diode with its cathode on the plus', () => {
    expect(check(coilSuppressed, diode('K1.85', 'K1.86'))).toEqual(nothing)
  })
  it('is shorted by a diode the other way round', () => {
    expect(check(coilSuppressed, diode('K1.86', 'K1.85')).found).toEqual(['stop lead.D1'])
  })
  it('is shorted by the diode in the relay when the coil is wired the other way round', () => {
    const turned = put(
      put(passes, ['harnesses', 0, 'wires', 1, 'to'], 'K1.85'),
      ['harnesses', 0, 'wires', 2, 'from'],
      'K1.86',
    )
    expect(check(coilSuppressed, turned).found).toEqual(['stop lead.K1'])
    expect(
      check(coilSuppressed, put(turned, ['harnesses', 0, 'components', 1, 'suppressed'], 'tvs')),
    ).toEqual(nothing)
  })
  it('is asked about when nothing is said, and left alone on a contact', () => {
    const silent = put(trips, ['harnesses', 0, 'components', 1, 'suppressed'], undefined)
    expect(check(coilSuppressed, silent)).toMatchObject({
      found: [],
      needs: [expect.stringMatching(/cue\.J1\.2/)],
    })
    expect(check(coilSuppressed, put(trips, [...pin(0, '2'), 'form'], 'contact'))).toEqual(nothing)
  })
})

describe('the current of a switching output', () => {
  const { trips, passes } = switchCurrent.examples
  it('is supply over coil: 14.4 V over 80 Ω', () => {
    expect(check(switchCurrent, trips).facts.current?.value).toBeCloseTo(0.18, 9)
  })
  it('adds up over the coils on it', () => {
    const two = add(
      add(passes, 'components', { id: 'K2', kind: 'relay', coil: '160 Ω', suppressed: 'diode' }),
      'wires',
      wire('B1', 'K1.86', 'K2.86'),
      wire('B2', 'K2.85', 'K1.85'),
    )
    expect(check(switchCurrent, two).facts.current?.value).toBeCloseTo(0.18, 9)
  })
  it('is asked about without the resistance of the coil, or the rating of the output', () => {
    expect(
      check(switchCurrent, put(trips, ['harnesses', 0, 'components', 1, 'coil'], undefined)).needs,
    ).toEqual(['needs the resistance of the coil lead.K1'])
    expect(check(switchCurrent, put(trips, [...pin(0, '2'), 'maxAmps'], undefined)).needs).toEqual([
      'needs the most radio.J1.2 may switch',
    ])
  })
})

describe('active levels', () => {
  const { trips } = activeLevel.examples
  it.each([
    ['key', 'stop'],
    ['alarm', 'stop'],
    ['squelch', 'warning'],
  ])('that oppose each other on a %s line are a %s', (purpose, level) => {
    expect(check(activeLevel, put(trips, [...pin(1, '1'), 'purpose'], purpose)).found).toEqual([
      `${level} lead/controller.J2.1`,
    ])
  })
  it('are asked about where one is not given; an open collector can only pull down', () => {
    const silent = put(trips, [...pin(0, '1'), 'active'], undefined)
    expect(check(activeLevel, silent).found).toHaveLength(1)
    expect(check(activeLevel, put(silent, [...pin(0, '1'), 'form'], 'push-pull')).needs).toEqual([
      'needs whether receiver.J1.1 is active low or high',
    ])
  })
})

describe('a data line', () => {
  const { trips, passes } = oneStandardPerJoint.examples
  const both = (one: string, other: string) =>
    put(put(passes, [...pin(0, '1'), 'standard'], one), [...pin(1, '1'), 'standard'], other)
  it.each([
    ['tia-232', 'ttl', ['stop lead/radio.J2.1']],
    ['ttl', 'tia-232', ['stop lead/computer.J1.1']],
    ['can', 'tia-485', ['warning lead/computer.J1.1']],
    ['tia-422', 'iec-61162-1', []],
    ['proprietary', 'proprietary', []],
  ])('from %s to %s', (one, other, found) => {
    expect(check(oneStandardPerJoint, both(one, other)).found).toEqual(found)
  })
  it('of a maker’s own kind is asked about where it meets a standard', () => {
    expect(check(oneStandardPerJoint, both('tia-232', 'proprietary')).needs).toHaveLength(1)
  })
  it('bears no supply', () => {
    const fed = put(trips, pin(0, '1'), { kind: 'supply-out', volts: '12 V' })
    expect(check(oneStandardPerJoint, fed).facts.volts).toEqual({ value: 12, unit: 'V' })
  })
})

describe('a CAN bus', () => {
  const { trips, passes } = busTerminated.examples
  const resistor = (id: string, ohms: string) => ({ id, kind: 'resistor', ohms, terminates: true })
  const across = (id: string) => [wire(`${id}H`, 'P1.1', `${id}.1`), wire(`${id}L`, 'P1.2', `${id}.2`)]
  it('with three terminators reads 40 Ω', () => {
    const three = add(add(passes, 'components', resistor('RT', '120 Ω')), 'wires', ...across('RT'))
    expect(check(busTerminated, three).facts).toMatchObject({
      terminators: { value: 3 },
      ohms: { value: expect.closeTo(40, 9) },
    })
  })
  it('is not terminated by one resistor of 60 Ω', () => {
    const one = put(trips, [...pin(0, '1'), 'terminates'], '60 Ω')
    expect(check(busTerminated, one).facts.terminators).toEqual({ value: 1 })
  })
  it('is not ended by two terminators at one end', () => {
    const far = put(trips, ['harnesses', 0, 'wires', 0, 'length'], '9 m')
    const both = add(add(far, 'components', resistor('RT', '120 Ω')), 'wires', ...across('RT'))
    const { found, facts } = check(busTerminated, both)
    expect(found).toEqual(['warning boat/display.J1.1'])
    expect(facts.stub?.value).toBeCloseTo(9000, 6)
  })
  it('is asked about when a harness shows a piece of it, or a length is missing', () => {
    expect(check(busTerminated, put(trips, ['installations'], undefined)).needs).toEqual([
      'needs an installation that shows the whole bus',
    ])
    expect(
      check(busTerminated, put(passes, ['harnesses', 0, 'wires', 0, 'length'], undefined)).needs,
    ).toEqual(['needs the length of bus.A01, to tell whether the terminators are at the ends'])
  })
})

describe('a screen', () => {
  const { trips } = screenBothEnds.examples
  const shield = ['harnesses', 0, 'cables', 0, 'shields', 0]
  it('may be landed at both ends for a reason, or by the policy of the shop', () => {
    expect(check(screenBothEnds, put(trips, [...shield, 'bothEnds'], 'The rack is one ground.'))).toEqual(
      nothing,
    )
    expect(check(screenBothEnds, put(trips, ['policy', 'shields'], 'both-ends'))).toEqual(nothing)
  })
  it('closes no loop where the grounds do not meet', () => {
    expect(check(screenBothEnds, put(trips, ['equipment', 2, 'joins'], [])).found).toEqual([])
  })
  it('is the return where no other conductor goes back, and belongs on 0 V', () => {
    const alone = put(screenOnChassis.examples.trips, ['harnesses', 0, 'cables', 0, 'cores', 1], undefined)
    const { cores } = alone.harnesses?.[0]?.cables?.[0] ?? {}
    const data = put(alone, ['harnesses', 0, 'cables', 0, 'cores'], cores?.filter(Boolean))
    expect(check(screenOnChassis, data)).toEqual(nothing)
  })
  it('that floats is a note where neither end has a pin for it', () => {
    const data = put(screenBonded.examples.trips, pin(0, '3'), { kind: 'spare' })
    expect(check(screenBonded, data).found).toEqual(['note lead.W1'])
  })
})
