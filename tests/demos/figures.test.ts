import { describe, expect, it } from 'vitest'
import * as launch from '../../harnesses/launch/planned.ts'
import * as theatre from '../../harnesses/party-line/planned.ts'
import { shopPolicy } from '../../harnesses/shop-policy.ts'
import { asDocument } from '../../src/author/as-document.ts'
import { describeShop } from '../../src/describe/validate.ts'
import type { Loom } from '../../src/resolve/loom.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'
import type { Solution } from '../../src/solve/solution.ts'
import { solve } from '../../src/solve/solve.ts'
import { type Job, job } from './demo-shop.ts'

/*
 * The figures a technician would work out on the back of an envelope, against those the solver gives from the description.
 * Copper at 20 °C, mΩ/m, IEC 60228 class 5: plain 0.75 → 26.0, 1.5 → 13.3, 2.5 → 7.98, 6 → 3.30, 10 → 1.91; tinned 6 → 3.39,
 * 25 → 0.795. 0.22 mm² is not in the table: 96 mΩ/m is common practice. Joints: 2 mΩ a contact, 4 mΩ a fuse, 3 mΩ its holder.
 */

function state({ solution }: { solution: Solution }, id: string) {
  const found = solution.states.find((one) => one.state.id === id)
  if (!found) throw new Error(`no state ${id}`)
  return found
}

function load(of: { solution: Solution }, stateId: string, address: string) {
  const found = state(of, stateId).loads.find(({ terminal }) => terminal.address === address)
  if (!found) throw new Error(`no load ${address}`)
  return found
}

/** Resistance of some wires by number, copper only. */
function copperOhms({ loom, solution }: { loom: Loom; solution: Solution }, ids: readonly string[]): number {
  const links = loom.links.filter(({ conductor }) => conductor && ids.includes(conductor.id))
  expect(links.map(({ conductor }) => conductor?.id).sort()).toEqual([...ids].sort())
  return links.reduce((sum, { index }) => sum + (solution.linkOhms[index]?.ohms ?? Number.NaN), 0)
}

describe('council pickup', () => {
  const planned = job('council-pickup-planned')
  const mended = job('council-pickup')

  it('loses 1.30 V at 12 A over A01, A02 and A03', () => {
    // 0.4 × 3.30 + 5.2 × 3.30 + 5.6 × 13.3 = 1.32 + 17.16 + 74.48 = 92.96 mΩ
    expect(copperOhms(planned, ['A01', 'A02', 'A03']) * 1000).toBeCloseTo(92.96, 6)
    // + 4 contacts × 2 + 4 + 3 = 107.96 mΩ; × 12 A = 1.2955 V
    expect(load(planned, 'transmit', 'radio.J1.1').dropVolts).toBeCloseTo(1.2955, 3)
  })

  it('loses 0.62 V with a return of 6 mm²', () => {
    // 1.32 + 17.16 + 5.6 × 3.30 = 36.96; + 8 + 7 + 0.1 of the sensor = 52.06 mΩ; × 12 A = 0.6247 V
    expect(load(mended, 'transmit', 'radio.J1.1').dropVolts).toBeCloseTo(0.6247, 3)
  })

  it('is flat in 3.0 days with the sense line on permanent feed, and in 208 with it on the ignition', () => {
    // 25 Ah ÷ 0.35 A ÷ 24 h; 25 Ah ÷ 5 mA ÷ 24 h
    expect(planned.solution.drains[0]?.amps).toBeCloseTo(0.35, 9)
    expect(planned.solution.drains[0]?.days).toBeCloseTo(2.976, 3)
    expect(mended.solution.drains[0]?.days).toBeCloseTo(208.3, 1)
  })

  it('puts 2 Ω on the output as planned and 4 Ω as mended', () => {
    // 4 ∥ 4, 8 ∥ 8
    expect(planned.solution.speakers[0]?.loadOhms).toBeCloseTo(2, 6)
    expect(mended.solution.speakers[0]?.loadOhms).toBeCloseTo(4, 6)
  })

  it('never gives a speaker more than it is rated for', () => {
    for (const each of mended.solution.speakers[0]?.speakers ?? []) expect(each.watts).toBeLessThan(40)
    expect(mended.solution.speakers[0]?.speakers).toHaveLength(2)
  })
})

describe('harbour launch', () => {
  const planned = job('harbour-launch-planned')
  const mended = job('harbour-launch')
  const volts = (of: Job, ids: readonly string[], amps: number) => copperOhms(of, ids) * amps
  const percent = (dropVolts: number) => Math.round((dropVolts / 12) * 1000) / 10

  it.each([planned, mended])('draws 35 A with everything on', (each) => {
    const battery = state(each, 'transmit').sources.find(
      ({ terminal }) => terminal.address === 'battery.POS.1',
    )
    // House 15.3, radio 6, pump 5, plotter 4, hailer 4, display 0.4, buzzer 0.2, heading 0.1
    expect(battery?.amps).toBeCloseTo(35, 6)
  })

  it('loses 5.4 % in the copper of the feeder, 9.1 % in that of the pump, 5.6 % in that of the radio', () => {
    // 9.7 m × 1.91 = 18.53 mΩ × 35 A = 0.648 V; 16.5 × 13.3 = 219.5 × 5 = 1.097; 14.0 × 7.98 = 111.7 × 6 = 0.670
    const feeder = volts(planned, ['B01', 'B02', 'B03'], 35)
    const pump = volts(planned, ['B10', 'B11', 'B12'], 5)
    const radio = volts(planned, ['B05', 'B06', 'B07'], 6)
    expect([feeder, pump, radio].map((each) => each.toFixed(2))).toEqual(['0.65', '1.10', '0.67'])
    expect([feeder, pump, radio].map(percent)).toEqual([5.4, 9.1, 5.6])
  })

  it('loses 2.2 %, 2.3 % and 2.3 % with 25 mm² and 6 mm², tinned', () => {
    // 9.7 m × 0.795 × 35 = 0.270 V; 16.5 × 3.39 × 5 = 0.280; 13.8 × 3.39 × 6 = 0.281
    const feeder = volts(mended, ['B01', 'B02', 'B03'], 35)
    const pump = volts(mended, ['B10', 'B11', 'B12'], 5)
    const radio = volts(mended, ['B05', 'B06'], 6)
    expect([feeder, pump, radio].map(percent)).toEqual([2.2, 2.3, 2.3])
  })
})

describe('theatre party line', () => {
  const planned = job('theatre-planned')
  const atFarEnd = (of: { solution: Solution }) =>
    ['pack-a8.LINE.2', 'pack-b6.LINE.2'].map((pin) => load(of, 'show', pin).volts)

  it('feeds 0.67 A to channel A and 0.54 A to channel B', () => {
    const amps = (pin: string) =>
      state(planned, 'show').sources.find(({ terminal }) => terminal.address === pin)?.amps
    // 8 × 65 mA + 150 mA; 6 × 65 mA + 150 mA
    expect(amps('main-station.LINE.2')).toBeCloseTo(0.67, 9)
    expect(amps('main-station.LINE.4')).toBeCloseTo(0.54, 9)
  })

  it('leaves 22.7 V and 23.4 V at the far end of 0.22 mm²', () => {
    // Core 60 m × 96 = 5.76 Ω, common 60 × 20 = 1.2 Ω shared by 1.21 A:
    // A 28 − 0.67 × 5.76 − 1.21 × 1.2 = 22.69 V; B 28 − 0.54 × 5.76 − 1.452 = 23.44 V; tails and contacts take 20 mV more
    expect(atFarEnd(planned).map((each) => each.toFixed(1))).toEqual(['22.7', '23.4'])
  })

  it('would leave 25.5 V on A with cores of 0.75 mm² in the same trunk', () => {
    // 28 − 0.67 × 60 × 26.0 mΩ − 1.452 = 25.50 V
    const thicker = JSON.parse(
      JSON.stringify(asDocument(theatre, shopPolicy)).replace('party-line-4x0.22', 'party-line-4x0.75'),
    )
    const { looms } = resolveShop(describeShop([{ name: 'thicker', data: thicker }]).shop)
    const [loom] = looms
    if (!loom) throw new Error('no loom')
    expect(atFarEnd({ solution: solve(loom) })[0]?.toFixed(1)).toBe('25.5')
  })

  it('leaves 26.1 V and 26.5 V with a trunk and a common for each channel', () => {
    // 28 − 0.67 × (1.56 + 1.2) = 26.15 V; 28 − 0.54 × 2.76 = 26.51 V; tails and contacts take 20 mV more
    expect(atFarEnd(job('theatre')).map((each) => each.toFixed(1))).toEqual(['26.1', '26.5'])
  })
})

describe('the figures above', () => {
  it('move with the description: half the length of B03 is half its copper', () => {
    const text = JSON.stringify(asDocument(launch, shopPolicy))
    const [loom] = resolveShop(
      describeShop([
        { name: 'shorter', data: JSON.parse(text.replace('"length":"4.6 m"', '"length":"2.3 m"')) },
      ]).shop,
    ).looms
    if (!loom) throw new Error('no loom')
    expect(copperOhms({ loom, solution: solve(loom) }, ['B03'])).toBeCloseTo(0.0023 * 1.91, 9)
  })
})
