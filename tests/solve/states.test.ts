import { describe, expect, test } from 'vitest'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { PinFunctionInput } from '../../src/describe/function.ts'
import { solve } from '../../src/solve/solve.ts'
import { loomOf } from '../resolve/shop-of.ts'

type Content = Omit<DocumentInput, 'loomwright'>
type Component = NonNullable<NonNullable<Content['harnesses']>[number]['components']>[number]
type Wire = readonly [from: string, to: string]

const none = { allowances: { contact: '0 Ω', fuse: '0 Ω', holder: '0 Ω' } } as const

/** A bench: a 12 V battery B (1 +, 2 −), a box X of four pins, parts between, wires of 1 m of 1.5 mm² (13.3 mΩ). */
function bench(job: {
  pins?: Record<string, PinFunctionInput>
  components?: Component[]
  wires: Wire[]
  volts?: string
  source?: Partial<Extract<PinFunctionInput, { kind: 'supply-out' }>>
  bare?: boolean
}): Content {
  return {
    policy: none,
    parts: [
      { kind: 'connector', id: 'test-two', title: 'Two', pins: ['1', '2'], style: 'housing' },
      { kind: 'connector', id: 'test-four', title: 'Four', pins: ['1', '2', '3', '4'], style: 'housing' },
    ],
    equipment: [
      {
        id: 'cell',
        title: 'Battery',
        role: 'battery',
        connectors: [
          {
            id: 'J',
            family: 'test-two',
            pins: {
              '1': { kind: 'supply-out', volts: '12 V', battery: true, capacity: '20 Ah', ...job.source },
              '2': { kind: 'return' },
            },
          },
        ],
      },
      { id: 'box', title: 'Box', connectors: [{ id: 'J', family: 'test-four', pins: job.pins ?? {} }] },
    ],
    harnesses: [
      {
        id: 'lead',
        title: 'Lead',
        connectors: [
          { id: 'B', family: 'test-two', fits: 'cell.J' },
          { id: 'X', family: 'test-four', fits: 'box.J' },
        ],
        components: job.components ?? [],
        wires: job.wires.map(([from, to], index) => ({
          id: `${index + 1}`,
          from,
          to,
          ...(job.bare ? {} : { size: '1.5 mm²', length: '1 m' }),
        })),
      },
    ],
  }
}

function run(job: Parameters<typeof bench>[0]) {
  const loom = loomOf(bench(job))
  const solution = solve(loom)
  const state = (id: string) => {
    const found = solution.states.find((entry) => entry.state.id === id)
    if (!found) throw new Error(`no state ${id}`)
    return found
  }
  const volts = (id: string, address: string) =>
    state(id).volts[loom.terminalAt.get(address)?.index ?? -1] ?? Number.NaN
  const drawn = (id: string) => state(id).loads.map((load) => load.amps)
  return { loom, solution, state, volts, drawn }
}

const both: Wire[] = [
  ['B.1', 'X.1'],
  ['X.2', 'B.2'],
]
const load = (
  more: Partial<Extract<PinFunctionInput, { kind: 'supply-in' }>>,
): Record<string, PinFunctionInput> => ({
  '1': { kind: 'supply-in', ...more },
  '2': { kind: 'return' },
})

describe('what a load draws', () => {
  test.each([
    ['one figure', { amps: '2 A' }, { off: 2, standby: 2, receive: 2, transmit: 2 }],
    [
      'each state',
      { amps: { off: '0 A', standby: '1 A', receive: '2 A', transmit: '9 A' } },
      { off: 0, standby: 1, receive: 2, transmit: 9 },
    ],
    ['the nearest earlier state', { amps: { standby: '1 A', transmit: '9 A' } }, { receive: 1, transmit: 9 }],
    ['the nearest later state where there is no earlier', { amps: { standby: '1 A' } }, { off: 1 }],
    ['nothing where it says so', { amps: { off: '0 A', transmit: '9 A' } }, { standby: 0, receive: 0 }],
  ] as const)('is %s', (_, figures, want) => {
    const { drawn } = run({ pins: load(figures), wires: both })
    for (const [state, amps] of Object.entries(want)) expect(drawn(state)).toEqual([amps])
  })

  test('is not known without a figure: it is named, and its wires have no current', () => {
    const { state, loom, solution } = run({ pins: load({}), wires: both })
    expect(state('transmit').loads).toEqual([])
    expect(state('transmit').unsolved.map((entry) => entry.needs)).toEqual([
      'the current box.J.1 draws in transmit',
    ])
    expect(loom.conductors.map((wire) => solution.worstAmps.get(wire))).toEqual([undefined, undefined])
    expect(solution.drains[0]?.needs).toEqual(['the current box.J.1 draws in off'])
    expect(solution.drains[0]?.amps).toBe(0)
  })

  test('comes from nowhere without a way back', () => {
    const { state } = run({ pins: load({ amps: '2 A' }), wires: [['B.1', 'X.1']] })
    expect(state('transmit').unsolved.map((entry) => entry.needs)).toEqual([
      'a way back from box.J.2 to cell.J.1',
    ])
    expect(state('transmit').sources[0]?.amps).toBe(0)
  })

  test('is nothing on an ignition feed with the ignition off', () => {
    const { state } = run({ pins: load({ amps: '2 A' }), wires: both, source: { feed: 'ignition' } })
    expect(state('off').loads).toEqual([])
    expect(state('standby').loads.map((entry) => entry.amps)).toEqual([2])
  })

  test('leaves volts unknown beyond a wire of unknown size, and asks for it', () => {
    const { state, volts } = run({ pins: load({ amps: '2 A' }), wires: both, bare: true })
    expect(state('transmit').unsolved.map((entry) => entry.needs)).toEqual(['the size and length of 1'])
    expect(volts('transmit', 'box.J.1')).toBeNaN()
    expect(volts('transmit', 'cell.J.1')).toBe(12)
    expect(state('transmit').sources[0]?.amps).toBeCloseTo(2, 9)
  })
})

describe('a source', () => {
  test('with a resistance of its own sags at its pin, which is not a loss of the wires', () => {
    const { state } = run({ pins: load({ amps: '10 A' }), wires: both, source: { resistance: '20 mΩ' } })
    const [found] = state('transmit').loads
    expect(found?.sourceVolts).toBeCloseTo(12 - 0.2, 9)
    expect(found?.dropVolts).toBeCloseTo(10 * 2 * 0.0133, 4)
    expect(state('transmit').sources[0]?.amps).toBeCloseTo(10, 6)
  })

  test('without a voltage is taken at 12 V, and that is said', () => {
    const loom = loomOf({
      ...bench({ pins: load({ amps: '1 A' }), wires: both }),
      equipment: [
        {
          id: 'cell',
          title: 'Supply',
          connectors: [
            { id: 'J', family: 'test-two', pins: { '1': { kind: 'supply-out' }, '2': { kind: 'return' } } },
          ],
        },
        {
          id: 'box',
          title: 'Box',
          connectors: [{ id: 'J', family: 'test-four', pins: load({ amps: '1 A' }) }],
        },
      ],
    })
    const [state] = solve(loom).states
    expect(state?.loads[0]?.sourceVolts).toBe(12)
    expect(state?.assumed).toEqual(['cell.J.1 at 12.00 V, since no voltage is given'])
  })
})

describe('switches, relays and diodes', () => {
  const switched: Wire[] = [
    ['B.1', 'S.1'],
    ['S.2', 'X.1'],
    ['X.2', 'B.2'],
  ]

  test('a switch is closed in the states it names', () => {
    const { state } = run({
      pins: load({ amps: '2 A' }),
      components: [{ kind: 'switch', id: 'S', closed: ['transmit'] }],
      wires: switched,
    })
    expect(state('receive').loads).toEqual([])
    expect(state('transmit').loads.map((entry) => entry.amps)).toEqual([2])
  })

  test('a relay pulled in by a switched output feeds its load, and its coil draws', () => {
    const { state } = run({
      pins: {
        ...load({ amps: '2 A' }),
        '3': { kind: 'switch-out', form: 'open-collector', active: 'low' },
      },
      components: [{ kind: 'relay', id: 'K', coil: '80 Ω', pulled: ['transmit'] }],
      wires: [
        ['B.1', 'K.30'],
        ['B.1', 'K.86'],
        ['K.85', 'X.3'],
        ['K.87', 'X.1'],
        ['X.2', 'B.2'],
      ],
    })
    expect(state('receive').sources[0]?.amps).toBeCloseTo(0, 9)
    expect(state('transmit').loads.map((entry) => entry.amps)).toEqual([2])
    expect(state('transmit').sources[0]?.amps).toBeCloseTo(2 + 12 / 80, 3)
    expect(state('transmit').assumed[0]).toMatch(/^box\.J\.3 is on in transmit/)
  })

  test('the rest contact of a relay is closed while it is not pulled in', () => {
    const { state } = run({
      pins: load({ amps: '2 A' }),
      components: [{ kind: 'relay', id: 'K', changeover: true, pulled: ['transmit'] }],
      wires: [
        ['B.1', 'K.30'],
        ['K.87a', 'X.1'],
        ['X.2', 'B.2'],
      ],
    })
    expect(state('receive').loads.map((entry) => entry.amps)).toEqual([2])
    expect(state('transmit').loads).toEqual([])
  })

  test.each([
    ['forward', 'a', 'k', 12 - 0.7 - 2 * 2 * 0.0133 - 2 * 0.01],
    ['against the current', 'k', 'a', undefined],
  ] as const)('a diode %s', (_, near, far, want) => {
    const { state, volts } = run({
      pins: load({ amps: '2 A' }),
      components: [{ kind: 'diode', id: 'D' }],
      wires: [
        ['B.1', `D.${near}`],
        [`D.${far}`, 'X.1'],
        ['X.2', 'B.2'],
      ],
    })
    if (want === undefined) expect(state('transmit').loads).toEqual([])
    else expect(volts('transmit', 'box.J.1') - volts('transmit', 'cell.J.2')).toBeCloseTo(want, 4)
  })

  test('a suppressor across a coil blocks while the coil is fed', () => {
    const { state } = run({
      components: [
        { kind: 'coil', id: 'L', ohms: '60 Ω' },
        { kind: 'diode', id: 'D' },
      ],
      wires: [
        ['B.1', 'L.1'],
        ['L.2', 'B.2'],
        ['D.k', 'L.1'],
        ['D.a', 'L.2'],
      ],
    })
    expect(state('transmit').sources[0]?.amps).toBeCloseTo(12 / 60, 3)
  })

  test('a divider stands where its resistors put it', () => {
    const { volts } = run({
      components: [
        { kind: 'resistor', id: 'RA', ohms: '1 kΩ' },
        { kind: 'resistor', id: 'RB', ohms: '2 kΩ' },
      ],
      wires: [
        ['B.1', 'RA.1'],
        ['RA.2', 'X.3'],
        ['RB.1', 'X.3'],
        ['RB.2', 'B.2'],
      ],
    })
    expect(volts('off', 'box.J.3')).toBeCloseTo(8, 4)
    expect(volts('off', 'box.J.4')).toBeNaN()
  })
})

describe('a load that no state feeds', () => {
  test('is named with the switch that would have to close', () => {
    const { solution } = run({
      pins: load({ amps: '2 A' }),
      components: [{ kind: 'switch', id: 'FS' }],
      wires: [
        ['B.1', 'FS.1'],
        ['FS.2', 'X.1'],
        ['X.2', 'B.2'],
      ],
    })
    expect(solution.unfed.map((entry) => entry.needs)).toEqual(['a state in which FS is closed, for box.J.1'])
  })

  test('is named when no supply reaches it, and not when one does', () => {
    expect(
      run({ pins: load({ amps: '2 A' }), wires: [] }).solution.unfed.map((entry) => entry.needs),
    ).toEqual(['a supply that reaches box.J.1'])
    expect(run({ pins: load({ amps: '2 A' }), wires: both }).solution.unfed).toEqual([])
  })
})

describe('where the zero is', () => {
  const second = (pins: Record<string, PinFunctionInput>, wires: Wire[]) =>
    run({ pins, wires: [...wires, ['X.4', 'B.2']] })

  test('a second supply stands on its own return, lifted by the wire that ties it to the first', () => {
    // 3 A from X.1 through the battery's negative back to X.4: the return wire lifts X.4 below zero.
    const { volts, state } = second(
      {
        '1': { kind: 'supply-out', volts: '5 V', port: 'aux' },
        '4': { kind: 'return', port: 'aux' },
        '2': { kind: 'supply-in', amps: '3 A', port: 'load' },
        '3': { kind: 'return', port: 'load' },
      },
      [
        ['X.1', 'X.2'],
        ['X.3', 'B.2'],
      ],
    )
    const [found] = state('transmit').loads
    expect(found?.source.address).toBe('box.J.1')
    expect(volts('transmit', 'box.J.4')).toBeCloseTo(-3 * 0.0133, 4)
    expect(found?.sourceVolts).toBeCloseTo(5, 4)
    expect(found?.dropVolts).toBeCloseTo(3 * 3 * 0.0133, 4)
  })

  test('body studs count as the negative in a metal vehicle, and that is said; not in a plastic hull', () => {
    const content = (structure: 'metal' | 'non-conductive'): Content => {
      const plain = bench({
        pins: load({ amps: '4 A' }),
        wires: [
          ['B.1', 'X.1'],
          ['X.2', 'G.1'],
        ],
      })
      const [lead] = plain.harnesses ?? []
      if (!lead) throw new Error('no lead')
      return {
        ...plain,
        equipment: [
          ...(plain.equipment ?? []),
          {
            id: 'body',
            title: 'Body',
            role: 'chassis',
            connectors: [{ id: 'S', family: 'test-two', pins: { '1': { kind: 'chassis' } } }],
          },
        ],
        harnesses: [
          { ...lead, connectors: [...lead.connectors, { id: 'G', family: 'test-two', fits: 'body.S' }] },
        ],
        installations: [
          {
            id: 'site',
            title: 'Site',
            structure,
            units: [
              { id: 'cell', of: 'cell' },
              { id: 'box', of: 'box' },
              { id: 'body', of: 'body' },
            ],
            looms: [{ id: 'lead', of: 'lead' }],
          },
        ],
      }
    }
    const at = (structure: 'metal' | 'non-conductive') => solve(loomOf(content(structure))).states.at(-1)
    expect(at('metal')?.loads[0]?.dropVolts).toBeCloseTo(4 * 2 * 0.0133, 4)
    expect(at('metal')?.assumed).toEqual(['body.S.1 is body metal, taken as the battery’s negative'])
    expect(at('non-conductive')?.unsolved.map((entry) => entry.needs)).toEqual([
      'a way back from box.J.2 to cell.J.1',
    ])
  })
})

describe('standing drain', () => {
  test('counts loads, held coils and bleeders, largest first', () => {
    const { solution } = run({
      pins: load({ amps: '20 mA' }),
      components: [
        { kind: 'coil', id: 'L', ohms: '120 Ω' },
        { kind: 'resistor', id: 'RB', ohms: '1.2 kΩ' },
      ],
      wires: [...both, ['B.1', 'L.1'], ['L.2', 'B.2'], ['B.1', 'RB.1'], ['RB.2', 'B.2']],
    })
    const [drain] = solution.drains
    expect(drain?.amps).toBeCloseTo(0.02 + 0.1 + 0.01, 4)
    expect(drain?.parts.map((part) => [part.terminal.address, part.why])).toEqual([
      ['lead.L.1', 'coil held in'],
      ['box.J.1', 'one figure for every state'],
      ['lead.RB.1', 'resistor across the supply'],
    ])
    expect(drain?.days).toBeCloseTo(20 / (24 * 0.13), 2)
  })
})
