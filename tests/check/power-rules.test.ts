import { describe, expect, it } from 'vitest'
import type { Finding } from '../../src/base/finding.ts'
import type { CheckResult } from '../../src/check/check.ts'
import { twoLoads } from '../../src/check/examples/two-loads.ts'
import { type VehicleExample, vehicleExample } from '../../src/check/examples/vehicle.ts'
import type { Rule } from '../../src/check/rule.ts'
import { contactCurrent } from '../../src/check/rules/contact-current.ts'
import { feederDrop } from '../../src/check/rules/feeder-drop.ts'
import { fuseInFeed } from '../../src/check/rules/fuse-in-feed.ts'
import { fuseLoaded } from '../../src/check/rules/fuse-loaded.ts'
import { fuseNearSource } from '../../src/check/rules/fuse-near-source.ts'
import { fuseProtectsWire } from '../../src/check/rules/fuse-protects-wire.ts'
import { ignitionSensePermanent } from '../../src/check/rules/ignition-sense-permanent.ts'
import { returnAsBigAsFeed } from '../../src/check/rules/return-as-big-as-feed.ts'
import { standingDrain } from '../../src/check/rules/standing-drain.ts'
import { thinWireAfloat } from '../../src/check/rules/thin-wire-afloat.ts'
import { voltageAtLoad } from '../../src/check/rules/voltage-at-load.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { checkDocument } from './check-document.ts'

const by = (rule: Rule, data: DocumentInput): CheckResult => checkDocument(data, { rules: [rule] })
const van = (rule: Rule, change: VehicleExample) => by(rule, vehicleExample(change))
const levels = ({ findings }: CheckResult) => findings.map((finding) => finding.level)
const only = ({ findings }: CheckResult): Finding => {
  expect(findings).toHaveLength(1)
  return findings[0] as Finding
}
const asked = ({ notChecked }: CheckResult) => notChecked.map((entry) => entry.needs)
const fact = (finding: Finding, name: string) => finding.facts[name]?.value as number

describe('voltage at the load', () => {
  // 10 A; 6 mm² is 3.30 mΩ/m (IEC 60228 class 5), joints 4 × 2 + 4 + 3 = 15 mΩ. Limit 1 V: (1 / 10 − 0.015) / 0.0033 = 25.76 m of wire.
  it.each([
    ['12.7 m', 0.2, []],
    ['12.8 m', 0.2, ['warning']],
    ['17 m', 0.2, ['stop']],
  ] as const)('with legs of %s', (metres, before, expected) => {
    const result = van(voltageAtLoad, { metres })
    expect(levels(result)).toEqual(expected)
    const drop = 10 * ((Number.parseFloat(metres) * 2 + before) * 0.0033 + 0.015)
    for (const finding of result.findings) expect(fact(finding, 'drop')).toBeCloseTo(drop, 9)
  })

  it('names the thin return, and its cure is what the sum gives when it is done', () => {
    const thin = only(van(voltageAtLoad, { metres: '6 m', back: '1.5 mm²' }))
    expect(thin.facts.worst?.value).toBe('A03')
    const promised = /^A03 to 6 mm² .*: (\d\.\d\d) V/.exec(thin.fix)?.[1]
    const mended = by(voltageAtLoad, vehicleExample({ metres: '6 m' }))
    expect(mended.findings).toEqual([])
    // 6 m + 6.2 m of 6 mm² and 15 mΩ of joints under 10 A.
    expect(promised).toBe((10 * (12.2 * 0.0033 + 0.015)).toFixed(2))
  })

  it('thickens both legs where one alone is not enough', () => {
    expect(only(van(voltageAtLoad, { feed: '1.5 mm²' })).fix).toMatch(
      /^A0[23], A0[23] and A01 to|^A0[23] and A0[23] to/,
    )
  })

  it('is judged by the lowest voltage of the load as well, and then it is a stop', () => {
    const low = only(van(voltageAtLoad, { load: { volts: '13.4..15.6 V' } }))
    expect([low.level, low.what]).toEqual(['stop', 'radio.J2.1 gets 13.31 V in transmit and needs 13.40 V'])
  })

  it('doubles the limit on 24 V, as FAA AC 43.13-1B table 11-6 does', () => {
    const place = { supply: '27.6 V' } as const
    const battery = { volts: '24..28.8 V' } as const
    const load = { volts: '20..32 V' } as const
    expect(van(voltageAtLoad, { metres: '20 m', place, battery, load }).findings).toEqual([])
    expect(levels(van(voltageAtLoad, { metres: '30 m', place, battery, load }))).toEqual(['warning'])
  })

  it('says what it needs where a length or a current is missing, and finds nothing', () => {
    const data = vehicleExample({ metres: '16 m' })
    for (const wire of data.harnesses?.[0]?.wires ?? []) delete (wire as { length?: string }).length
    const result = by(voltageAtLoad, data)
    expect(result.findings).toEqual([])
    expect(asked(result)[0]).toMatch(/^needs the size and length of A0/)
    const silent = vehicleExample()
    const pin = silent.equipment?.[1]?.connectors[0]?.pins['1'] as { amps?: unknown }
    delete pin.amps
    expect(asked(by(voltageAtLoad, silent))).toContain('needs the current radio.J2.1 draws in transmit')
  })

  it('judges the branch of electronics by 3 % on a boat, and that of a motor by 10 %', () => {
    const boat = (motor: boolean) =>
      van(voltageAtLoad, { metres: '8 m', load: { motor }, place: { setting: 'boat', supply: '12 V' } })
    // 10 A through 16.2 m of 3.3 mΩ/m: 0.53 V, 4.5 % of 12 V.
    expect(only(boat(false)).what).toContain(
      'loses 0.53 V on the way there and back in transmit: 4.5 % of 12.00 V (limit 3 %)',
    )
    expect(boat(true).findings).toEqual([])
  })
})

describe('the feeder of a boat', () => {
  // 30 A through 10.15 m: 16 mm² 1.21 mΩ/m 0.368 V (3.07 %), 25 mm² 0.78 mΩ/m 0.238 V.
  it.each([
    ['10 mm²', ['stop']],
    ['16 mm²', ['warning']],
    ['25 mm²', []],
  ] as const)('of %s', (size, expected) => {
    expect(levels(by(feederDrop, twoLoads(size)))).toEqual(expected)
  })
})

describe('a fuse in every feed', () => {
  const panel = (maxAmps?: `${number} A`, battery = false): DocumentInput => {
    const data = structuredClone(fuseInFeed.examples.trips)
    const pin = data.equipment?.[0]?.connectors[0]?.pins['1'] as Record<string, unknown>
    if (maxAmps) pin.maxAmps = maxAmps
    if (battery) pin.battery = true
    return data
  }
  it('is not asked for where the source limits itself to what the wire bears', () => {
    expect(by(fuseInFeed, panel('5 A')).findings).toEqual([])
    expect(levels(by(fuseInFeed, panel('50 A')))).toEqual(['stop'])
  })
  it('is asked for at a battery whatever its pin says', () => {
    expect(levels(by(fuseInFeed, panel('5 A', true)))).toEqual(['stop'])
  })
})

describe('a fuse and its wire', () => {
  // 6 mm², insulation taken for 60 °C: between 10 AWG 40 A and 8 AWG 55 A in 33 CFR 183.425 table 5, about 43.8 A.
  it.each([
    ['40 A', '6 mm²', []],
    ['50 A', '6 mm²', ['stop']],
    ['10 A', '0.75 mm²', ['stop']],
    ['7.5 A', '0.75 mm²', []],
  ] as const)('%s over %s', (fuse, feed, expected) => {
    expect(levels(van(fuseProtectsWire, { fuse, feed }))).toEqual(expected)
  })

  it('counts the return as well', () => {
    expect(only(van(fuseProtectsWire, { fuse: '40 A', back: '2.5 mm²' })).facts.conductor?.value).toBe('A03')
  })

  it('follows the margin of the shop', () => {
    const data = { ...vehicleExample({ fuse: '40 A' }), policy: { fuseMargin: 1.25 } }
    expect(levels(by(fuseProtectsWire, data))).toEqual(['stop'])
  })

  it('is derated in a hot zone and in a bundle', () => {
    const hot = vehicleExample({
      fuse: '40 A',
      place: { ambient: '50 °C' },
    })
    expect(levels(by(fuseProtectsWire, hot))).toEqual(['stop'])
    const full = vehicleExample({ fuse: '40 A' })
    for (const harness of full.harnesses ?? []) harness.bundled = 5
    expect(only(by(fuseProtectsWire, full)).why).toContain('0.60 for 5 loaded wires together')
  })

  it('asks for a rating that is not given', () => {
    const data = vehicleExample()
    for (const part of data.harnesses?.[0]?.components ?? []) delete (part as { rating?: string }).rating
    const result = by(fuseProtectsWire, data)
    expect([result.findings, asked(result)]).toEqual([[], ['needs the rating of F1']])
  })
})

describe('a return', () => {
  it.each([
    ['6 mm²', []],
    ['10 mm²', []],
    ['10 AWG', ['stop']], // 5.26 mm²
    ['4 mm²', ['stop']],
  ] as const)('of %s behind a feed of 6 mm²', (back, expected) => {
    expect(levels(van(returnAsBigAsFeed, { back }))).toEqual(expected)
  })
})

describe('standing drain', () => {
  // 60 Ah over 21 days: 119 mA.
  it.each([
    ['118 mA', []],
    ['120 mA', ['warning']],
  ] as const)('of %s', (off, expected) => {
    expect(levels(van(standingDrain, { load: { amps: { off, transmit: '10 A' } } }))).toEqual(expected)
  })
  it('asks for the charge of the battery', () => {
    const data = vehicleExample({ load: { amps: { off: '0.3 A' } } })
    const pin = data.equipment?.[0]?.connectors[0]?.pins['1'] as { capacity?: string }
    delete pin.capacity
    expect(asked(by(standingDrain, data))).toEqual(['needs the usable charge of battery.J1.1'])
  })
  it('takes the parked time of the installation before that of the shop', () => {
    const load = { amps: { off: '0.3 A', transmit: '10 A' } } as const
    expect(van(standingDrain, { load, place: { parked: '8 days' } }).findings).toEqual([])
  })
})

describe('an ignition sense', () => {
  const on = (feed: string | undefined, wants: string): DocumentInput => {
    const data = structuredClone(ignitionSensePermanent.examples.passes)
    const [taps, radio] = data.equipment ?? []
    const pins = (unit: typeof taps) => unit?.connectors[0]?.pins as Record<string, Record<string, unknown>>
    if (feed === undefined) delete pins(taps)['1']?.feed
    else Object.assign(pins(taps)['1'] ?? {}, { feed })
    Object.assign(pins(radio)['1'] ?? {}, { wants })
    return data
  }
  it.each([
    ['permanent', 'ignition', ['stop']],
    ['permanent', 'accessory', ['stop']],
    ['accessory', 'ignition', ['warning']],
    ['ignition', 'accessory', []],
    ['ignition', 'permanent', ['warning']],
    ['switched', 'ignition', []],
    ['permanent', 'permanent', []],
  ] as const)('on %s that wants %s', (feed, wants, expected) => {
    expect(levels(by(ignitionSensePermanent, on(feed, wants)))).toEqual(expected)
  })
  it('asks how a feed is switched', () => {
    expect(asked(by(ignitionSensePermanent, on(undefined, 'ignition')))).toEqual([
      'needs how taps.J1.1 is switched',
    ])
  })
})

describe('the place of the fuse', () => {
  it.each([
    ['0.45 m', []],
    ['0.46 m', ['stop']],
  ] as const)('%s from the battery of a vehicle', (toFuse, expected) => {
    expect(levels(van(fuseNearSource, { toFuse }))).toEqual(expected)
  })
  // 33 CFR 183.455(b): 7 in bare; ABYC E-11: 72 in in a sheath from a battery terminal.
  it.each([
    ['0.177 m', false, []],
    ['0.18 m', false, ['stop']],
    ['1.8 m', true, []],
    ['1.83 m', true, ['stop']],
  ] as const)('%s from the battery of a boat, sheathed %s', (toFuse, sheathed, expected) => {
    const data = vehicleExample({ toFuse, place: { setting: 'boat' } })
    for (const wire of data.harnesses?.[0]?.wires ?? []) wire.sheathed = sheathed
    expect(levels(by(fuseNearSource, data))).toEqual(expected)
  })
})

describe('load of a fuse', () => {
  it.each([
    ['16 A', []],
    ['16.1 A', ['warning']],
    ['20.1 A', ['stop']],
  ] as const)('%s for good on 20 A', (standby, expected) => {
    const load = { amps: { off: '0 A', standby } } as const
    expect(levels(van(fuseLoaded, { load, metres: '1 m' }))).toEqual(expected)
  })
  it('may reach the rating for short times', () => {
    const load = { amps: { off: '0 A', standby: '1 A', transmit: '19 A' } } as const
    expect(van(fuseLoaded, { load, metres: '1 m' }).findings).toEqual([])
  })
})

describe('contact current', () => {
  it.each([
    ['12.5 A', 0],
    ['12 A', 2],
  ] as const)('10 A through contacts of %s', (contactAmps, many) => {
    // Feed and return of a plug are one place to mend.
    expect(van(contactCurrent, { contactAmps }).findings).toHaveLength(many)
  })
})

describe('single wires afloat', () => {
  it.each([
    ['0.75 mm²', false, 1],
    ['1 mm²', false, 0],
    ['0.75 mm²', true, 0],
    ['0.5 mm²', true, 1],
  ] as const)('%s, sheathed %s', (size, sheathed, many) => {
    const data = twoLoads('25 mm²', size)
    for (const wire of data.harnesses?.[0]?.wires ?? []) if (wire.id === 'B08') wire.sheathed = sheathed
    expect(by(thinWireAfloat, data).findings).toHaveLength(many)
  })
})

describe('a job of which only names and pins are known', () => {
  const rules = [
    ...[voltageAtLoad, feederDrop, fuseInFeed, fuseProtectsWire, returnAsBigAsFeed, standingDrain],
    ...[ignitionSensePermanent, fuseNearSource, fuseLoaded, contactCurrent, thinWireAfloat],
  ]
  it('has no findings', () => {
    const data = vehicleExample()
    for (const unit of data.equipment ?? [])
      for (const connector of unit.connectors)
        connector.pins = { '1': { name: 'PLUS' }, '2': { name: 'MINUS' } }
    for (const wire of data.harnesses?.[0]?.wires ?? [])
      for (const field of ['size', 'length'] as const) delete (wire as Record<string, unknown>)[field]
    expect(checkDocument(data, { rules }).findings).toEqual([])
  })
})
