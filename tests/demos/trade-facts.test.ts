import { describe, expect, it } from 'vitest'
import { parseQuantity } from '../../src/base/quantity.ts'
import { checkShop } from '../../src/check/check.ts'
import { standardRules } from '../../src/check/standard-rules.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'
import { feederLossDb, feederOutputWatts } from '../../src/solve/formulas/feeder-power.ts'
import { hertzFromPpm, ppmFromHertz } from '../../src/solve/formulas/frequency-tolerance.ts'
import { solve } from '../../src/solve/solve.ts'
import { job } from './demo-shop.ts'

/** Facts every fitter of two-way radios knows. All are common practice; none is looked up in a standard. */

const idsCovering = (code: string) =>
  standardRules.filter((rule) => rule.covers.includes(code)).map(({ id }) => id)

function findings(document: DocumentInput) {
  const { shop } = describeShop([{ name: 'fact.json', data: document }], [])
  const looms = resolveShop(shop).looms.map((loom) => ({ loom, solution: solve(loom) }))
  return checkShop({ looms }).findings
}

/** A set with a bridge-tied output of 15 W into 4 Ω on pins 1 and 2 of its nine-way plug, and what is joined to them. */
function nineWay(
  speakerWatts: string,
  more: Partial<NonNullable<DocumentInput['harnesses']>[number]> = {},
): DocumentInput {
  const leg = { level: 'speaker', port: 'speaker' } as const
  return {
    loomwright: 1,
    equipment: [
      {
        id: 'set',
        title: 'Transceiver',
        role: 'transceiver',
        connectors: [
          {
            id: 'ACC',
            family: 'dsub-9',
            half: 'socket',
            view: 'mating',
            pins: {
              '1': { kind: 'audio-out', ...leg, leg: 'hot', bridged: true, watts: '15 W', minLoad: '4 Ω' },
              '2': { kind: 'audio-out', ...leg, leg: 'cold', bridged: true, watts: '15 W', minLoad: '4 Ω' },
              '5': { kind: 'chassis' },
            },
          },
        ],
      },
      {
        id: 'cone',
        title: 'Loudspeaker',
        role: 'speaker',
        connectors: [
          {
            id: 'TB',
            family: 'screw-terminal-2',
            view: 'mating',
            pins: {
              '1': { kind: 'audio-in', ...leg, leg: 'hot', ohms: '4 Ω', watts: speakerWatts as '40 W' },
              '2': { kind: 'audio-in', ...leg, leg: 'cold', ohms: '4 Ω' },
            },
          },
        ],
      },
    ],
    harnesses: [
      {
        id: 'lead',
        title: 'Speaker lead',
        connectors: [
          { id: 'P1', family: 'dsub-9', half: 'pin', fits: 'set.ACC' },
          { id: 'S1', family: 'screw-terminal-2', fits: 'cone.TB' },
        ],
        wires: [
          { id: 'L1', from: 'P1.1', to: 'S1.1', size: '0.5 mm²', colour: 'WH', length: '2 m', pair: 'TP' },
          { id: 'L2', from: 'P1.2', to: 'S1.2', size: '0.5 mm²', colour: 'GY', length: '2 m', pair: 'TP' },
          ...(more.wires ?? []),
        ],
      },
    ],
  }
}

describe('a bridge-tied output on a nine-way plug', () => {
  const grounded = idsCovering('A1')
  it('lands on two pins and is clean', () => {
    expect(findings(nineWay('40 W')).filter(({ level }) => level === 'stop')).toEqual([])
  })
  it.each(['P1.1', 'P1.2'])('may not meet ground on %s', (leg) => {
    const wires = [
      { id: 'L3', from: leg, to: 'P1.5', size: '0.5 mm²', colour: 'BK', length: '0.1 m' } as const,
    ]
    const stops = findings(nineWay('40 W', { wires })).filter(({ level }) => level === 'stop')
    expect(stops.map(({ rule }) => rule)).toContain(grounded[0])
  })
  it('reaches test equipment only through an isolation transformer', () => {
    const { loom, result } = job('radio-bench')
    expect(loom.components.map(({ source }) => source.kind)).toContain('transformer')
    expect(result.findings.filter(({ rule }) => grounded.includes(rule))).toEqual([])
  })
})

describe('15 W into 4 Ω', () => {
  const rated = idsCovering('A4')
  it.each([
    ['10 W', true],
    ['40 W', false],
  ])('into a loudspeaker of %s', (watts, warns) => {
    const rules = findings(nineWay(watts)).map(({ rule }) => rule)
    expect(rules.includes(rated[0] ?? 'no rule for A4')).toBe(warns)
  })
})

describe('lengths as the trade says them', () => {
  it.each([
    ['18 ft', 5486.4],
    ['6 ft', 1828.8],
  ])('%s', (text, lengthMm) => {
    const read = parseQuantity(text, 'length')
    expect(read.ok && read.value).toBeCloseTo(lengthMm, 6)
  })
  it('a head cable with an accessory plug of 25 ways beside it', () => {
    const { loom } = job('council-pickup')
    expect(loom.halves.map(({ familyId }) => familyId)).toEqual(
      expect.arrayContaining(['modular-8p8c', 'dsub-25']),
    )
  })
})

describe('commissioning figures', () => {
  it('1 ppm at 870 MHz is 870 Hz, and 350 Hz there is 0.4 ppm', () => {
    expect(hertzFromPpm(870e6, 1)).toBeCloseTo(870, 9)
    expect(ppmFromHertz(870e6, 350)).toBeCloseTo(0.402, 3)
  })
  it('one error in ppm shows most at the highest channel', () => {
    const channels = [146e6, 155e6, 440e6, 870e6]
    const errors = channels.map((hertz) => hertzFromPpm(hertz, 1.5))
    expect(errors.toSorted((a, b) => a - b)).toEqual(errors)
  })
  it('the loss of the test cable comes off before a power reading is called low', () => {
    const loss = feederLossDb(2000, 0.385)
    expect(feederOutputWatts(40, loss)).toBeCloseTo(33.5, 1)
  })
})
