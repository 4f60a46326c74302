import { describe, expect, test } from 'vitest'
import type { WireSize } from '../../src/base/wire-size.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { dropAlong } from '../../src/solve/drop-along.ts'
import { sumOhms } from '../../src/solve/link-ohms.ts'
import { solve } from '../../src/solve/solve.ts'
import { loomOf } from '../resolve/shop-of.ts'
import { pickup } from './pickup.ts'

type Content = Omit<DocumentInput, 'loomwright'>

const inState = (content: Content, state: string) => {
  const loom = loomOf(content)
  const solution = solve(loom)
  const found = solution.states.find((entry) => entry.state.id === state)
  if (!found) throw new Error(`no state ${state}`)
  return { loom, solution, found }
}

describe('a 12 A mobile at the end of 5 m of wire', () => {
  // By hand, class 5 maxima of IEC 60228 at 20 °C: 6 mm² 3.30, 1.5 mm² 13.3 mΩ/m.
  const copper = (0.4 + 5.2) * 3.3 + 5.6 * 13.3
  const joints = 4 * 2 + 4 + 3 // four mated contacts, a fuse, its holder

  test('loses 1.30 V over a loop of 108 mΩ in transmit', () => {
    const { found, solution, loom } = inState(pickup(), 'transmit')
    const [load] = found.loads
    expect(load?.terminal.address).toBe('radio.J1.1')
    expect(load?.dropVolts).toBeCloseTo((12 * (copper + joints)) / 1000, 9)
    expect(load?.dropVolts.toFixed(2)).toBe('1.30')
    const { supply } = solution.paths
    const [feed] = load ? supply.supplies(load.terminal) : []
    const back = load && supply.returnPath(load.terminal, load.source)
    const loop = sumOhms([...(feed?.links ?? []), ...(back?.links ?? [])], solution.linkOhms)
    expect(loop.ohms * 1000).toBeCloseTo(107.96, 6)
    expect(loop.conductorOhms * 1000).toBeCloseTo(copper, 6)
    expect(loop.jointOhms * 1000).toBeCloseTo(joints, 6)
    expect(loop.terms[0]?.sum).toBe('A03 1.5 mm², 5.6 m × 13.3 mΩ/m')
    expect(feed?.fuses.map((fuse) => fuse.address)).toEqual(['main.F1'])
    const feedDrop = load && dropAlong(load.source, feed?.links ?? [], found.amps, solution.linkOhms)
    const backDrop = back && dropAlong(back.from, back.links, found.amps, solution.linkOhms)
    expect((feedDrop?.volts ?? 0) + (backDrop?.volts ?? 0)).toBeCloseTo(load?.dropVolts ?? 0, 9)
    expect(feedDrop?.conductorVolts).toBeCloseTo((12 * (0.4 + 5.2) * 3.3) / 1000, 9)
    const a03 = loom.conductorAt.get('main.A03')
    expect(a03 && solution.worstAmps.get(a03)?.amps).toBeCloseTo(12, 9)
    expect(a03 && solution.worstAmps.get(a03)?.state.id).toBe('transmit')
  })

  test('loses 0.62 V with the return in 6 mm²', () => {
    const { found } = inState(pickup({ back: '6 mm²' }), 'transmit')
    expect(found.loads[0]?.dropVolts.toFixed(2)).toBe('0.62')
  })

  test('flattens 25 Ah in 3.0 days when its sense wire is on the permanent feed', () => {
    const { solution } = inState(pickup(), 'off')
    const [drain] = solution.drains
    expect(drain?.amps).toBeCloseTo(0.35, 9)
    expect(drain?.days?.toFixed(1)).toBe('3.0')
    expect(drain?.parts.map(({ terminal, why }) => [terminal.address, why])).toEqual([
      ['radio.J1.1', 'standby, awake since J2.10 is live'],
    ])
  })

  test('draws nothing with the key off when its sense wire is on the ignition tap', () => {
    const { solution, found } = inState(pickup({ sense: 'ignition' }), 'off')
    expect(solution.drains[0]?.amps).toBeCloseTo(0, 9)
    expect(solution.drains[0]?.days).toBe(Number.POSITIVE_INFINITY)
    expect(found.loads[0]?.amps).toBe(0)
  })
})

/** One load of a boat at the end of its own feed and return, with no allowance for joints. */
function boat(load: { amps: number; feed: [WireSize, number][]; back: [WireSize, number][] }): Content {
  const wires: { id: string; from: string; to: string; size: WireSize; length: `${number} m` }[] = []
  const chain = (prefix: string, start: string, end: string, parts: [WireSize, number][]): void =>
    parts.forEach(([size, metres], index) => {
      wires.push({
        id: `${prefix}${index}`,
        from: index === 0 ? start : `${prefix}S${index}`,
        to: index === parts.length - 1 ? end : `${prefix}S${index + 1}`,
        size,
        length: `${metres} m`,
      })
    })
  chain('F', 'R1', 'P.1', load.feed)
  chain('B', 'P.2', 'R2', load.back)
  const splices = [
    ...load.feed.slice(1).map((_, n) => ({ id: `FS${n + 1}` })),
    ...load.back.slice(1).map((_, n) => ({ id: `BS${n + 1}` })),
  ]
  return {
    policy: { allowances: { contact: '0 Ω', fuse: '0 Ω', holder: '0 Ω' } },
    parts: [
      { kind: 'connector', id: 'test-post', title: 'Post', pins: ['1'], style: 'stud', manyWires: true },
      { kind: 'connector', id: 'test-two', title: 'Plug', pins: ['1', '2'], style: 'housing' },
    ],
    equipment: [
      {
        id: 'cell',
        title: 'Battery',
        connectors: [
          {
            id: 'P',
            family: 'test-post',
            pins: { '1': { kind: 'supply-out', volts: '12 V', battery: true } },
          },
          { id: 'N', family: 'test-post', pins: { '1': { kind: 'return' } } },
        ],
      },
      {
        id: 'load',
        title: 'Load',
        connectors: [
          {
            id: 'J',
            family: 'test-two',
            pins: { '1': { kind: 'supply-in', amps: `${load.amps} A` }, '2': { kind: 'return' } },
          },
        ],
      },
    ],
    harnesses: [
      {
        id: 'run',
        title: 'Run',
        connectors: [
          { id: 'R1', family: 'test-post', fits: 'cell.P' },
          { id: 'R2', family: 'test-post', fits: 'cell.N' },
          { id: 'P', family: 'test-two', fits: 'load.J' },
        ],
        splices,
        wires,
      },
    ],
  }
}

describe('a 12 V launch, copper alone', () => {
  test.each([
    [
      'feeder at 35 A',
      35,
      [
        ['10 mm²', 0.9],
        ['10 mm²', 4.2],
      ],
      [['10 mm²', 4.6]],
      '0.65',
      '5.4',
    ],
    [
      'feeder in 25 mm²',
      35,
      [
        ['25 mm²', 0.9],
        ['25 mm²', 4.2],
      ],
      [['25 mm²', 4.6]],
      '0.26',
      '2.2',
    ],
    [
      'bilge pump',
      5,
      [
        ['1.5 mm²', 8],
        ['1.5 mm²', 0.5],
      ],
      [['1.5 mm²', 8]],
      '1.10',
      '9.1',
    ],
    [
      'bilge pump in 6 mm²',
      5,
      [
        ['6 mm²', 8],
        ['6 mm²', 0.5],
      ],
      [['6 mm²', 8]],
      '0.27',
      '2.3',
    ],
    [
      'radio',
      6,
      [['2.5 mm²', 7]],
      [
        ['2.5 mm²', 6.8],
        ['2.5 mm²', 0.2],
      ],
      '0.67',
      '5.6',
    ],
    [
      'radio in 6 mm²',
      6,
      [['6 mm²', 7]],
      [
        ['6 mm²', 6.8],
        ['6 mm²', 0.2],
      ],
      '0.28',
      '2.3',
    ],
  ] as [string, number, [WireSize, number][], [WireSize, number][], string, string][])(
    '%s',
    (_, amps, feed, back, volts, percent) => {
      const { found } = inState(boat({ amps, feed, back }), 'receive')
      const drop = found.loads[0]?.dropVolts ?? Number.NaN
      expect(drop.toFixed(2)).toBe(volts)
      expect(((100 * drop) / 12).toFixed(1)).toBe(percent)
    },
  )
})

/** Two party-line channels fed down one 60 m cable whose screen is the common of both. */
function partyLine(core: WireSize): Content {
  const pack = (id: string, amps: number) => ({
    id,
    title: 'Belt packs of one channel together',
    connectors: [
      {
        id: 'J',
        family: 'xlr-3-way',
        pins: {
          '1': { kind: 'return' as const },
          '2': { kind: 'supply-in' as const, amps: `${amps} A` as const, volts: '24..30 V' as const },
          '3': { kind: 'audio-in' as const, level: 'line' as const },
        },
      },
    ],
  })
  return {
    parts: [
      {
        kind: 'connector',
        id: 'xlr-5-way',
        title: 'XLR-5',
        pins: ['1', '2', '3', '4', '5'],
        style: 'circular',
      },
      { kind: 'connector', id: 'xlr-3-way', title: 'XLR-3', pins: ['1', '2', '3'], style: 'circular' },
      {
        kind: 'cable',
        id: 'trunk',
        title: 'Four cores and a screen',
        cores: ['1', '2', '3', '4'].map((name) => ({ name, size: core })),
        shields: [{ name: 'screen', ohmsPerKm: 20 }],
      },
    ],
    equipment: [
      {
        id: 'master',
        title: 'Party-line supply',
        connectors: [
          {
            id: 'J',
            family: 'xlr-5-way',
            pins: {
              '1': { kind: 'return', port: 'line' },
              '2': { kind: 'supply-out', volts: '28 V', port: 'line' },
              '4': { kind: 'supply-out', volts: '28 V', port: 'line' },
            },
          },
        ],
      },
      pack('channel-a', 0.67),
      pack('channel-b', 0.54),
    ],
    harnesses: [
      {
        id: 'line',
        title: 'Trunk and split',
        connectors: [
          { id: 'M', family: 'xlr-5-way', fits: 'master.J' },
          { id: 'A', family: 'xlr-3-way', fits: 'channel-a.J' },
          { id: 'B', family: 'xlr-3-way', fits: 'channel-b.J' },
        ],
        splices: [{ id: 'COM' }],
        wires: [
          { id: 'C06', from: 'COM', to: 'A.1', size: '1.5 mm²', length: '1 mm' },
          { id: 'C09', from: 'COM', to: 'B.1', size: '1.5 mm²', length: '1 mm' },
        ],
        cables: [
          {
            id: 'TK',
            part: 'trunk',
            length: '60 m',
            cores: [
              { core: '1', from: 'M.2', to: 'A.2' },
              { core: '3', from: 'M.4', to: 'B.2' },
            ],
            shields: [{ shield: 'screen', from: 'M.1', to: 'COM' }],
          },
        ],
      },
    ],
  }
}

describe('two party-line channels on 60 m of shared screen', () => {
  const far = (core: WireSize) => {
    const { found } = inState(partyLine(core), 'receive')
    return Object.fromEntries(found.loads.map((load) => [load.terminal.address, load.volts]))
  }
  test('stand at 22.7 V and 23.4 V with 0.22 mm² cores', () => {
    // 28 V − 0.67 A × 5.76 Ω − 1.21 A × 1.2 Ω, and a few millivolts of contacts
    const volts = far('0.22 mm²')
    expect(volts['channel-a.J.2']?.toFixed(1)).toBe('22.7')
    expect(volts['channel-b.J.2']?.toFixed(1)).toBe('23.4')
    expect(volts['channel-a.J.2']).toBeCloseTo(28 - 0.67 * 5.76 - 1.21 * 1.2, 1)
  })
  test('stand at 25.5 V with 0.75 mm² cores', () => {
    expect(far('0.75 mm²')['channel-a.J.2']?.toFixed(1)).toBe('25.5')
  })
})
