import { fileURLToPath } from 'node:url'
import {
  asDocument,
  cable,
  connector,
  diode,
  equipment,
  fuse,
  harness,
  installation,
  jack,
  loom,
  mate,
  pair,
  part,
  plug,
  policy,
  relay,
  splice,
  unit,
  wire,
} from 'loomwright'
import { describe, expect, test } from 'vitest'
import { terminalsOf } from '../../src/describe/component-terminals.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { readShop } from '../../src/read/read-shop.ts'

const block = part.connector('block-4', { title: 'Block', pins: ['A', 'B'], style: 'terminal' })
const gold = part.contact('gold-22', { title: 'Gold contact', join: 'crimp', area: '0.2..0.5 mm²' })
const radio = equipment('radio', {
  title: 'Radio',
  connectors: [
    jack('J1', 'm12-a-5', 'socket', { 1: { name: '12 V' } }, { coding: 'A' }),
    jack('J2', block, 'pin', { A: { kind: 'return' } }),
  ],
})

describe('one thing after the other', () => {
  test('a plug is the other half of what it fits, of the same family and keying', () => {
    expect(plug('P1', radio.at('J1'), { contact: gold, zone: 'dash' })).toEqual({
      id: 'P1',
      family: 'm12-a-5',
      half: 'pin',
      coding: 'A',
      fits: 'radio.J1',
      contact: 'gold-22',
      zone: 'dash',
    })
    expect(plug('P2', radio.at('J2'))).toMatchObject({ family: 'block-4', half: 'socket' })
    expect(plug('P3', radio.at('J1'), { family: 'wire-end' })).toEqual({
      id: 'P3',
      family: 'wire-end',
      half: 'pin',
      fits: 'radio.J1',
    })
  })

  test('a connector lists what differs from cavity to cavity', () => {
    const P1 = connector('P1', block, 'genderless', {
      pins: { A: { contact: gold, note: 'x' }, B: { plugged: true } },
    })
    expect(P1).toEqual({
      id: 'P1',
      family: 'block-4',
      pins: { A: { contact: 'gold-22', note: 'x' }, B: { plugged: true } },
    })
  })

  test('every terminal of a component is a member and a pin', () => {
    const parts = { fuse: fuse('F1'), relay: relay('K1'), diode: diode('D1') }
    for (const [kind, made] of Object.entries(parts))
      for (const name of terminalsOf[kind as keyof typeof parts]) {
        const members = made as unknown as Record<string, { address: string }>
        const { pin } = made as unknown as { pin: (name: string) => unknown }
        expect(members[name]?.address).toBe(`${made.id}.${name}`)
        expect(pin(name)).toEqual(members[name])
      }
    expect(Object.keys(parts.relay)).toEqual(['kind', 'id'])
  })

  test('a harness lists what its wires land on, after what it lists itself, each once', () => {
    const [P1, P2] = [connector('P1', 'rect-2'), connector('P2', 'rect-2')]
    const [F1, SP1, R1] = [fuse('F1'), splice('SP1', { kind: 'crimp' }), connector('R1', 'ring-m6')]
    const h = harness('h', {
      title: 'H',
      connectors: [P2],
      wires: [
        wire('A1', P1.pin(1), F1.in),
        [wire('A2', F1.out, SP1), pair('TP1', wire('A3', SP1, P2.p[1]), wire('A4', R1, P2.pin('2')))],
      ],
      cables: [[cable('W1', 'speaker-2x1.5', { cores: { plus: [P1.pin(2), SP1, { id: 'A5' }] } })]],
    })
    expect(JSON.parse(JSON.stringify(h))).toEqual({
      id: 'h',
      title: 'H',
      connectors: ['P2', 'P1', 'R1'].map((id) => expect.objectContaining({ id })),
      splices: [{ id: 'SP1', kind: 'crimp' }],
      components: [{ kind: 'fuse', id: 'F1' }],
      wires: [
        { id: 'A1', from: 'P1.1', to: 'F1.in' },
        { id: 'A2', from: 'F1.out', to: 'SP1' },
        { id: 'A3', from: 'SP1', to: 'P2.1', pair: 'TP1' },
        { id: 'A4', from: 'R1', to: 'P2.2', pair: 'TP1' },
      ],
      cables: [
        { id: 'W1', part: 'speaker-2x1.5', cores: [{ core: 'plus', from: 'P1.2', to: 'SP1', id: 'A5' }] },
      ],
    })
  })

  test('a document holds what things mention, each once and before what mentions it', () => {
    const head = harness('head', {
      title: 'Head',
      connectors: [plug('P1', radio.at('J2'), { contact: gold })],
    })
    const [rad, main] = [unit('rad', radio, { zone: 'dash' }), loom('main', head)]
    const pickup = installation('i', {
      title: 'I',
      units: [rad],
      looms: [main],
      mates: [mate(main.at('P1'), rad.at('J2'))],
    })
    const made = asDocument([{ pickup }], pickup, policy({ shop: 'Hollin' }), () => 3)
    expect(Object.keys(made)).toEqual([
      'loomwright',
      'parts',
      'equipment',
      'harnesses',
      'installations',
      'policy',
    ])
    expect(made.parts?.map(({ id }) => id)).toEqual(['block-4', 'gold-22'])
    expect(made.installations).toEqual([
      {
        id: 'i',
        title: 'I',
        units: [{ id: 'rad', of: 'radio', zone: 'dash' }],
        looms: [{ id: 'main', of: 'head' }],
        mates: [['main.P1', 'rad.J2']],
      },
    ])
    expect(describeShop([{ name: 'd', data: made }]).findings).toEqual([])
  })

  test('what is left out is not there at all', () => {
    const made = wire('A1', fuse('F1').in, splice('S'), { size: undefined, note: 'n' })
    expect(Object.keys(made)).toEqual(['id', 'from', 'to', 'note'])
  })
})

describe('without a call stack, as in some browsers', () => {
  test('builders work as well, only without places', () => {
    const capture = Error.captureStackTrace
    try {
      Reflect.deleteProperty(Error, 'captureStackTrace')
      expect(wire('A1', fuse('F1').in, splice('S'))).toEqual({ id: 'A1', from: 'F1.in', to: 'S' })
    } finally {
      Error.captureStackTrace = capture
    }
  })

  test('the stack settings of the host are left as they were', () => {
    const before = [Error.prepareStackTrace, Error.stackTraceLimit]
    wire('A1', fuse('F1').in, splice('S'))
    expect([Error.prepareStackTrace, Error.stackTraceLimit]).toEqual(before)
  })
})

test('the demo jobs as TypeScript and as their own JSON are one and the same shop', async () => {
  const root = fileURLToPath(new URL('../..', import.meta.url))
  const source = await readShop('harnesses', root)
  expect(source.troubles).toEqual([])
  expect(source.documents.length).toBeGreaterThan(2)
  const again = source.documents.map(({ name, data }) => ({
    name,
    data: JSON.parse(JSON.stringify(data)) as unknown,
  }))
  expect(again).toEqual(source.documents.map(({ name, data }) => ({ name, data })))
  const [typed, read] = [describeShop(source.documents), describeShop(again)]
  expect(read.shop).toEqual(typed.shop)
  expect(typed.findings).toEqual([])
})
