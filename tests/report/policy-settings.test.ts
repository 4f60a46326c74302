import { describe, expect, test } from 'vitest'
import { cell, load, wired } from '../../src/check/examples/wired.ts'
import { ampacityOf } from '../../src/check/queries/ampacity-of.ts'
import { busStubLengths } from '../../src/check/rules/bus-stub-lengths.ts'
import { fuseInNegative } from '../../src/check/rules/fuse-in-negative.ts'
import { groundLoopInSignal } from '../../src/check/rules/ground-loop-in-signal.ts'
import { returnPastSensor } from '../../src/check/rules/return-past-sensor.ts'
import { screenBothEnds } from '../../src/check/rules/screen-both-ends.ts'
import { screenSoleReturn } from '../../src/check/rules/screen-sole-return.ts'
import { speakerLineLoss } from '../../src/check/rules/speaker-line-loss.ts'
import { spliceAsDecided } from '../../src/check/rules/splice-as-decided.ts'
import { DECISIONS } from '../../src/describe/decisions.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { type PolicyInput, policy } from '../../src/describe/policy.ts'
import { stepsOf } from '../../src/guide/steps.ts'
import { decidedIn, policySettings } from '../../src/report/policy-settings.ts'
import { policyText } from '../../src/report/policy-text.ts'
import { cells } from '../../src/report/text-layout.ts'
import { checkDocument, onlyLoom } from '../check/check-document.ts'

/** Fields of the policy that decide nothing about right and wrong. */
const NO_LIMIT = ['shop', 'rules', 'waivers', 'reasons', 'site', 'labels', 'units']

type Shape = { readonly shape?: Record<string, unknown>; readonly unwrap?: () => Shape }
const inner = (type: unknown): Shape => {
  const one = type as Shape
  return one.unwrap && !one.shape ? inner(one.unwrap()) : one
}

const paths = Object.entries(policy.shape).flatMap(([key, type]) => {
  const fields = Object.keys(inner(type).shape ?? {})
  return NO_LIMIT.includes(key) ? [] : fields.length > 0 ? fields.map((field) => `${key}.${field}`) : [key]
})

test('every limit and choice of the policy is listed with its reason, and nothing else', () => {
  expect([...DECISIONS].sort()).toEqual(paths.sort())
  expect(policySettings.map(({ id }) => id)).toEqual([...DECISIONS])
  for (const { title, reason } of policySettings) {
    expect(title.length).toBeGreaterThan(3)
    expect(reason).toMatch(/^\S.{15,}\.$/s)
  }
})

test('the eight places where published guidance disagrees are settings that say who disagrees', () => {
  const places = [
    ['fuseNegative'],
    ['shields'],
    ['starWashers'],
    ['drop.continuous', 'drop.brief', 'drop.critical', 'drop.other'],
    ['canStub.fast', 'canStub.slow'],
    ['batteryNegative'],
    ['splices'],
    ['ampacity'],
  ]
  const open = policySettings.filter(({ disagrees }) => disagrees !== undefined).map(({ id }) => id)
  expect(open.sort()).toEqual(places.flat().sort())
})

describe('what is in force', () => {
  test('defaults until the shop says otherwise, with its own reason', () => {
    const of = (input: PolicyInput | undefined) =>
      decidedIn(input && policy.parse(input)).find(({ id }) => id === 'fuseNegative')
    expect(of(undefined)).toMatchObject({ value: 'forbid', stated: false })
    expect(of({ fuseNegative: 'allow', reasons: { fuseNegative: 'State contract 17.' } })).toMatchObject({
      value: 'allow',
      stated: true,
      ownReason: 'State contract 17.',
    })
  })

  test('a reason for a setting that does not exist is no description', () => {
    expect(policy.safeParse({ reasons: { fuseNegativ: 'Slip.' } }).success).toBe(false)
    expect(policy.safeParse({ reasons: { fuseNegative: ' ' } }).success).toBe(false)
  })

  test('prints within the width', () => {
    for (const width of [60, 100])
      expect(
        policyText(decidedIn(undefined), width)
          .split('\n')
          .filter((line) => cells(line) > width),
      ).toEqual([])
  })
})

const asIntercom = (data: DocumentInput): DocumentInput => ({
  ...data,
  equipment: (data.equipment ?? []).map((unit) => ({ ...unit, role: 'intercom' as const })),
})
/** 0.22 mm² over 2 × 11 m behind 2 A: some three times the rating, and the wire bears it. */
const late = wired({
  units: { supply: cell(), lamp: load('0.2 A') },
  components: [{ id: 'F1', kind: 'fuse', rating: '2 A' }],
  runs: [
    ['supply.1', 'F1.in', { size: '0.5 mm²', length: '0.1 m' }],
    ['F1.out', 'lamp.1', { size: '0.5 mm²', length: '22 m' }],
    ['lamp.2', 'supply.2', { size: '0.5 mm²', length: '22 m' }],
  ],
})

describe('each setting changes what is found', () => {
  const rows: readonly (readonly [string, string, DocumentInput, PolicyInput, number, number])[] = [
    ['lateFuse', 'short-opens-fuse', late, { lateFuse: 'warn' }, 0, 1],
    [
      'partyLineCommon',
      'screen-sole-return',
      asIntercom(screenSoleReturn.examples.trips),
      { partyLineCommon: 'judged' },
      0,
      1,
    ],
    [
      'partyLineCommon',
      'ground-loop-in-signal',
      asIntercom(groundLoopInSignal.examples.trips),
      { partyLineCommon: 'judged' },
      0,
      1,
    ],
    [
      'audio.lineLossDb',
      'speaker-line-loss',
      speakerLineLoss.examples.trips,
      { audio: { lineLossDb: 9 } },
      1,
      0,
    ],
    [
      'canStub.fast',
      'bus-stub-lengths',
      busStubLengths.examples.trips,
      { canStub: { fast: '2 m', slow: '2 m' } },
      1,
      0,
    ],
    [
      'batteryNegative',
      'return-past-sensor',
      returnPastSensor.examples.trips,
      { batteryNegative: 'post' },
      1,
      0,
    ],
    ['splices', 'splice-as-decided', spliceAsDecided.examples.trips, { splices: 'solder-allowed' }, 1, 0],
    ['shields', 'screen-both-ends', screenBothEnds.examples.trips, { shields: 'both-ends' }, 1, 0],
    ['fuseNegative', 'fuse-in-negative', fuseInNegative.examples.trips, { fuseNegative: 'allow' }, 1, 0],
  ]
  test.each(rows)('%s of %s', (_, rule, data, changed, before, after) => {
    const count = (own?: PolicyInput) =>
      checkDocument(own ? { ...data, policy: own } : data).findings.filter((finding) => finding.rule === rule)
        .length
    expect([count(), count(changed)]).toEqual([before, after])
  })

  test('ampacity: the table it names is the table used', () => {
    const amps = (ampacity?: PolicyInput['ampacity']) => {
      const loom = onlyLoom(ampacity ? { ...late, policy: { ampacity } } : late)
      const wire = loom.conductors[1]
      return wire ? ampacityOf(loom, wire) : undefined
    }
    expect(amps()?.assumed[0]).toMatch(/^33 CFR 183\.425/)
    expect(amps('iso-10133')?.assumed[0]).toMatch(/^ISO 10133/)
    // Plain PVC is in no column of the aircraft table: the finding says so and goes by the other.
    expect(amps('ac-43-13')?.assumed.slice(0, 2)).toEqual([
      expect.stringMatching(/^33 CFR 183\.425/),
      'the table of the policy has no column for 70 °C',
    ])
  })

  test('starWashers: the guide says what the shop decided', () => {
    const washers = (own?: PolicyInput) => {
      const data = returnPastSensor.examples.trips
      const loom = onlyLoom(own ? { ...data, policy: own } : data)
      return JSON.stringify([...stepsOf(loom, undefined)])
    }
    expect(washers()).not.toContain('One toothed washer')
    expect(washers({ starWashers: 'allow' })).not.toContain('No toothed washer')
  })
})
