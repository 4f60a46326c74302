import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { figureLimit, lookLimit } from '../../src/commission/figure-limit.ts'
import { asPrinted, judge, limitText, marginText, printed } from '../../src/commission/judge.ts'
import type { FigureLimit } from '../../src/commission/limit.ts'
import {
  AMPS,
  AUDIO_LEVEL,
  frequencyError,
  HERTZ,
  type Measure,
  OHMS,
  RADIO_LEVEL,
  STANDING_WAVE,
  VOLTS,
  WATTS,
} from '../../src/commission/measures.ts'
import { readReading } from '../../src/commission/read-reading.ts'
import { judged, limits, visit } from './fitted-shop.ts'

const line = { id: 'x', group: 'supply', what: 'x', how: 'x', sum: 'x', source: 'x' } as const
const of = (measure: Measure, unit: string, bounds: Partial<FigureLimit> = {}): FigureLimit =>
  figureLimit({ ...line, measure, unit, ...bounds })
const look = lookLimit(line)
const value = (text: string, measure: Measure) => {
  const read = readReading(text, of(measure, Object.keys(measure.units)[0] ?? ''))
  return read.ok && read.value.kind === 'figure' ? read.value.value : read.ok ? 'look' : read.problem
}

describe('reading what was written', () => {
  test.each<[string, Measure, number]>([
    ['13.1 V', VOLTS, 13.1],
    ['13.1V', VOLTS, 13.1],
    ['  850 mV ', VOLTS, 0.85],
    ['−0.2 V', VOLTS, -0.2],
    ['350mA', AMPS, 0.35],
    ['74 mΩ', OHMS, 0.074],
    ['60 ohm', OHMS, 60],
    ['4.7 k\u2126', OHMS, 4700],
    ['OL', OHMS, Number.POSITIVE_INFINITY],
    ['open', OHMS, Number.POSITIVE_INFINITY],
    ['38 W', WATTS, 38],
    ['2.4 khz', HERTZ, 2400],
    ['-120 Hz', frequencyError(162e6), -120],
    ['2.5 ppm', frequencyError(162e6), 405],
    ['-117 dBm', RADIO_LEVEL, -117],
    ['0.35 µV', RADIO_LEVEL, -116.108],
    ['1.3:1', STANDING_WAVE, 1.3],
    ['1.3 :1', STANDING_WAVE, 1.3],
    ['14 dB', STANDING_WAVE, 1.499],
    // 50 W forward and 2 W back is 1.5:1, as every wattmeter chart shows.
    ['50 W / 2 W', STANDING_WAVE, 1.5],
    ['50/2 W', STANDING_WAVE, 1.5],
    ['40 W / 400 mW', STANDING_WAVE, 1.222],
    ['40 W / 0 W', STANDING_WAVE, 1],
    ['0.775 V', AUDIO_LEVEL, 0.0045],
    ['-2 dBV', AUDIO_LEVEL, 0.218],
  ])('%s', (text, measure, base) => {
    const got = value(text, measure)
    if (Number.isFinite(base)) expect(got).toBeCloseTo(base, 3)
    else expect(got).toBe(base)
  })

  test.each<[string, Measure, RegExp]>([
    ['13.1', VOLTS, /has no unit; write a voltage such as “13\.1 V”/],
    ['13,1 V', VOLTS, /comma/],
    ['13.1 Ω', VOLTS, /“Ω” is a unit of a resistance, and a voltage is asked for/],
    ['13.1 volts', VOLTS, /not a unit of voltage/],
    ['12 MΩm', OHMS, /not a unit/],
    ['1e309 V', VOLTS, /nothing a meter can show/],
    ['-3 Ω', OHMS, /nothing a meter can show/],
    ['0.9:1', STANDING_WAVE, /nothing a meter can show/],
    ['0 dB', STANDING_WAVE, /nothing a meter can show/],
    ['2 W / 50 W', STANDING_WAVE, /no forward and reflected power/],
    ['50 / 2', STANDING_WAVE, /no forward and reflected power/],
    ['50 W / 2 W', VOLTS, /not a unit of voltage/],
    ['0 µV', RADIO_LEVEL, /nothing a meter can show/],
    ['OL', VOLTS, /is not a voltage/],
    ['', VOLTS, /is not a voltage/],
    ['<script>', VOLTS, /is not a voltage/],
    [`${'9'.repeat(99)} V`, VOLTS, /is not a voltage/],
  ])('refuses %s', (text, measure, problem) => {
    expect(value(text, measure)).toMatch(problem)
  })

  test('milli is never taken for mega', () => {
    expect(value('3 mΩ', OHMS)).toBe(0.003)
    expect(value('3 MΩ', OHMS)).toBe(3e6)
  })

  test.each([
    ['yes', true],
    ['Pass', true],
    ['no', false],
  ])('a look takes %s', (text, good) => {
    expect(readReading(text, look)).toEqual({ ok: true, value: { kind: 'look', good } })
  })
  test('a look takes no figure', () => {
    expect(readReading('13 V', look)).toMatchObject({
      ok: false,
      problem: expect.stringContaining('“yes” or “no”'),
    })
  })
  test('never throws', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        readReading(text, look)
        readReading(text, of(RADIO_LEVEL, 'dBm'))
      }),
    )
  })
})

describe('judging', () => {
  const between = fc.double({ min: -900, max: 900, noNaN: true, noDefaultInfinity: true })

  test('a verdict is where the reading lies, and the margin its distance', () => {
    fc.assert(
      fc.property(between, between, between, (a, b, reading) => {
        const limit = of(VOLTS, 'V', { least: Math.min(a, b), most: Math.max(a, b) })
        const { least = 0, most = 0 } = limit
        const { verdict, margin } = judge(limit, { kind: 'figure', value: reading })
        if (reading > least && reading < most) expect(verdict).toBe('pass')
        if (reading < least - 1e-6 || reading > most + 1e-6) expect(verdict).toBe('fail')
        expect(margin).toBeCloseTo(Math.min(reading - least, most - reading), 9)
      }),
    )
  })

  test('a bound reads the same as it is printed, so a reading of just that passes', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 900, noNaN: true }), (most) => {
        const limit = of(VOLTS, 'V', { most })
        const read = readReading(`${printed(limit, limit.most ?? 0)} V`, limit)
        expect(read.ok && judge(limit, read.value).verdict).toBe('pass')
        expect(asPrinted(limit, limit.most ?? 0)).toBe(limit.most)
      }),
    )
  })

  test('an open reading passes where there is no upper bound, and fails where there is one', () => {
    const open = { kind: 'figure', value: Number.POSITIVE_INFINITY } as const
    expect(judge(of(OHMS, 'kΩ', { least: 1000 }), open)).toEqual({ verdict: 'pass' })
    expect(judge(of(OHMS, 'Ω', { least: 54, most: 66 }), open)).toEqual({ verdict: 'fail' })
  })

  test.each([
    [of(VOLTS, 'V', { most: 0.457 }), 0.5, 'fail', '0.043 V outside', 'at most 0.457 V'],
    [of(RADIO_LEVEL, 'dBm', { most: -116 }), -119.5, 'pass', '3.5 dB inside', 'at most -116 dBm'],
    [of(STANDING_WAVE, ':1', { most: 1.31 }), 1.2, 'pass', '0.11 inside', 'at most 1.31:1'],
    [
      of(frequencyError(162e6), 'Hz', { least: -405, most: 405 }),
      -410,
      'fail',
      '5 Hz outside',
      'within ±405 Hz',
    ],
  ] as const)('%#: says by how much', (limit, reading, verdict, margin, text) => {
    const judgement = judge(limit, { kind: 'figure', value: reading })
    expect(judgement.verdict).toBe(verdict)
    expect(marginText({ limit, reading: '', ...judgement })).toBe(margin)
    expect(limitText(limit)).toBe(text)
  })
})

describe('a file of readings', () => {
  const values = (...list: [limit: string, reading: unknown][]) => ({
    values: list.map(([limit, reading]) => ({ limit, reading })) as never,
  })
  const words = (...files: [string, unknown][]) =>
    judged(...files).findings.map(({ rule, what, fix, at }) => ({
      rule,
      text: `${what} / ${fix}`,
      path: at.path,
    }))

  test('is judged line by line, and what it does not tell of is not measured', () => {
    const { assets, findings } = judged([
      'v.json',
      visit(values(['radio.J1.1/drop/transmit', '0.44 V'], ['main.F1/rating', '20 A'])),
    ])
    const verdicts = new Map(assets[0]?.lines.map(({ limit, verdict }) => [limit.id, verdict]))
    expect(verdicts.get('radio.J1.1/drop/transmit')).toBe('pass')
    expect(verdicts.get('main.F1/rating')).toBe('fail')
    expect(assets[0]?.counts).toEqual({ pass: 1, fail: 1, notMeasured: limits().limits.length - 2 })
    expect(findings).toMatchObject([
      { rule: 'reading-outside-limit', level: 'stop', at: { doc: 'v.json', path: ['values', 1, 'reading'] } },
    ])
  })

  test.each<[string, unknown, string, RegExp, (string | number)[]]>([
    [
      'a wrong unit',
      visit(values(['radio.J1.1/loop', '50 mV'])),
      'reading-unusable',
      /“mV” is a unit of a voltage, and a resistance/,
      ['values', 0, 'reading'],
    ],
    [
      'no unit',
      visit(values(['radio.J1.1/loop', '50'])),
      'reading-unusable',
      /has no unit/,
      ['values', 0, 'reading'],
    ],
    [
      'negative ohms',
      visit(values(['radio.J1.1/loop', '-5 mΩ'])),
      'reading-unusable',
      /nothing a meter can show/,
      ['values', 0, 'reading'],
    ],
    [
      'a bare number beyond all bounds',
      visit(values(['radio.J1.1/loop', Number.POSITIVE_INFINITY])),
      'record-shape',
      /beyond all bounds has no unit/,
      ['values', 0, 'reading'],
    ],
    [
      '1e309 as text',
      visit(values(['radio.J1.1/loop', '1e309 Ω'])),
      'reading-unusable',
      /nothing a meter can show/,
      ['values', 0, 'reading'],
    ],
    [
      'an unknown limit',
      visit(values(['radio.J1.1/lop', '50 mΩ'])),
      'reading-unusable',
      /Did you mean “radio\.J1\.1\/loop”/,
      ['values', 0, 'limit'],
    ],
    [
      'a reading twice',
      visit(values(['main.F1/rating', '15 A'], ['main.F1/rating', '15 A'])),
      'reading-unusable',
      /written twice/,
      ['values', 1, 'reading'],
    ],
    [
      'an unknown installation',
      visit({ installation: 'vam' }),
      'record-place',
      /no installation “vam” \/ Did you mean “van”/,
      ['installation'],
    ],
    [
      'an unknown loom',
      visit({ looms: [{ loom: 'mian', serial: '1' }] }),
      'record-place',
      /Did you mean “main”/,
      ['looms', 0, 'loom'],
    ],
    [
      'an unknown unit',
      visit({ equipment: [{ unit: 'raido' }] }),
      'record-place',
      /Did you mean “radio”/,
      ['equipment', 0, 'unit'],
    ],
    [
      'a misspelt key',
      { ...visit(), odometre: '3 km' },
      'record-shape',
      /Did you mean “odometer”/,
      ['odometre'],
    ],
    ['another version', { ...visit(), readings: 2 }, 'record-shape', /readings/, ['readings']],
    ['nothing at all', [], 'record-shape', /does not say that it holds readings/, []],
    [
      'an older revision',
      visit({ looms: [{ loom: 'main', revision: 'A' }] }),
      'record-stale',
      /revision A; it is now revision B.*Return from 1\.5 to 6 mm²/s,
      ['looms', 0],
    ],
    [
      'another match code',
      visit({ looms: [{ loom: 'main', revision: 'B', match: 'AAAA-AAAA' }] }),
      'record-stale',
      /match code AAAA-AAAA/,
      ['looms', 0],
    ],
  ])('with %s says so at its place', (_what, data, rule, text, path) => {
    expect(words(['v.readings.json', data])).toEqual([{ rule, text: expect.stringMatching(text), path }])
  })

  test('of the issue that holds now says nothing', () => {
    const first = judged(['v.json', visit()]).assets[0]
    const match = first?.looms[0]?.now.match
    const { findings, assets } = judged([
      'v.json',
      visit({ looms: [{ loom: 'main', revision: 'B', match }] as never }),
    ])
    expect(findings).toEqual([])
    expect(assets[0]?.looms[0]?.standing).toBe('current')
  })

  test('the latest of an asset counts', () => {
    const bad = visit(values(['main.F1/rating', '20 A']))
    const good = { ...visit(values(['main.F1/rating', '15 A'])), date: '2026-03-02' }
    const { assets, findings } = judged(['a.json', good], ['b.json', bad])
    expect(assets.map(({ superseded, counts }) => [superseded, counts.fail])).toEqual([
      [false, 0],
      [true, 1],
    ])
    expect(findings).toEqual([])
  })

  test('any JSON is read without a crash', () => {
    fc.assert(
      fc.property(
        fc.jsonValue(),
        fc.constantFrom('values', 'looms', 'deviations', 'open', 'asset', 'date'),
        (json, key) => {
          judged(
            ['x.readings.json', json],
            ['y.json', { ...visit(), [key]: json }],
            ['z.json', { asBuilt: 1, steps: json }],
          )
        },
      ),
      { numRuns: 60 },
    )
  })
})
