import { describe, expect, test } from 'vitest'
import type { DocumentInput } from '../../src/describe/document.ts'
import { makePaths } from '../../src/solve/paths.ts'
import { throughMetal } from '../../src/solve/reach.ts'
import { loomOf } from '../resolve/shop-of.ts'

type Content = Omit<DocumentInput, 'loomwright'>

/** A battery, a main fuse, a bar that splits into a fused radio and an unfused lamp, a body stud, and an audio pair. */
const job: Content = {
  parts: [
    { kind: 'connector', id: 'test-stud', title: 'Stud', pins: ['1'], style: 'stud' },
    { kind: 'connector', id: 'test-ring', title: 'Ring', pins: ['1'], style: 'ring' },
    { kind: 'connector', id: 'test-four', title: 'Four', pins: ['1', '2', '3', '4'], style: 'housing' },
    {
      kind: 'cable',
      id: 'test-pair',
      title: 'A pair',
      cores: ['w', 'b'].map((name) => ({ name, size: '0.22 mm²', pair: 'p' })),
    },
  ],
  equipment: [
    {
      id: 'battery',
      title: 'Battery',
      role: 'battery',
      connectors: [
        {
          id: 'P',
          family: 'test-stud',
          pins: { '1': { kind: 'supply-out', volts: '12..14.4 V', battery: true } },
        },
        { id: 'N', family: 'test-stud', pins: { '1': { kind: 'return' } } },
      ],
    },
    {
      id: 'body',
      title: 'Body',
      role: 'chassis',
      connectors: [{ id: 'G', family: 'test-stud', pins: { '1': { kind: 'chassis' } } }],
    },
    {
      id: 'radio',
      title: 'Radio',
      connectors: [
        {
          id: 'J',
          family: 'test-four',
          pins: {
            '1': { kind: 'supply-in', amps: '5 A' },
            '2': { kind: 'return' },
            '3': { kind: 'audio-out', level: 'line', leg: 'hot', port: 'rx' },
            '4': { kind: 'audio-out', level: 'line', leg: 'cold', port: 'rx' },
          },
        },
      ],
    },
    {
      id: 'lamp',
      title: 'Lamp',
      connectors: [
        {
          id: 'J',
          family: 'test-four',
          pins: { '1': { kind: 'supply-in', amps: '1 A' }, '2': { kind: 'return' } },
        },
      ],
    },
    {
      id: 'modem',
      title: 'Modem',
      connectors: [
        {
          id: 'J',
          family: 'test-four',
          pins: {
            '1': { kind: 'audio-in', level: 'line', leg: 'hot', port: 'rx' },
            '2': { kind: 'audio-in', level: 'line', leg: 'cold', port: 'rx' },
          },
        },
      ],
    },
  ],
  harnesses: [
    {
      id: 'main',
      title: 'Main',
      connectors: [
        { id: 'R1', family: 'test-ring', fits: 'battery.P' },
        { id: 'R2', family: 'test-ring', fits: 'battery.N' },
        { id: 'R3', family: 'test-ring', fits: 'body.G' },
        { id: 'P', family: 'test-four', fits: 'radio.J' },
        { id: 'L', family: 'test-four', fits: 'lamp.J' },
        { id: 'M', family: 'test-four', fits: 'modem.J' },
      ],
      splices: [{ id: 'BAR' }],
      components: [
        { kind: 'fuse', id: 'F1', rating: '20 A' },
        { kind: 'fuse', id: 'F2', rating: '7.5 A' },
        { kind: 'relay', id: 'K', coil: '80 Ω' },
      ],
      wires: [
        { id: '1', from: 'R1', to: 'F1.in', size: '6 mm²', length: '0.4 m' },
        { id: '2', from: 'F1.out', to: 'BAR', size: '6 mm²', length: '2 m' },
        { id: '3', from: 'BAR', to: 'F2.in', size: '2.5 mm²', length: '0.2 m' },
        { id: '4', from: 'F2.out', to: 'P.1', size: '1.5 mm²', length: '3 m' },
        { id: '5', from: 'R1', to: 'L.1', size: '1 mm²', length: '1 m' },
        { id: '6', from: 'P.2', to: 'R2', size: '1.5 mm²', length: '3 m' },
        { id: '7', from: 'L.2', to: 'R3', size: '1 mm²', length: '1 m' },
        { id: '8', from: 'BAR', to: 'K.86', size: '0.5 mm²', length: '1 m' },
        { id: '9', from: 'K.85', to: 'L.3', size: '0.5 mm²', length: '1 m' },
        { id: '10', from: 'R2', to: 'R3', size: '16 mm²', length: '0.5 m' },
      ],
      cables: [
        {
          id: 'W',
          part: 'test-pair',
          length: '2 m',
          cores: [
            { core: 'w', from: 'P.3', to: 'M.1' },
            { core: 'b', from: 'P.4', to: 'M.2' },
          ],
        },
      ],
    },
  ],
}

const loom = loomOf(job)
const paths = makePaths(loom)
const terminal = (address: string) => {
  const found = loom.terminalAt.get(address)
  if (!found) throw new Error(`no ${address}`)
  return found
}
const wire = (id: string) => {
  const found = loom.conductorAt.get(`main.${id}`)
  if (!found) throw new Error(`no wire ${id}`)
  return found
}
const fuse = (id: string) => {
  const found = loom.components.find((component) => component.id === id)
  if (!found) throw new Error(`no ${id}`)
  return found
}
const ids = (list: readonly { id: string }[]) => list.map((entry) => entry.id).sort()

describe('supplies', () => {
  test('reach a load over a path with its fuses', () => {
    const [feed] = paths.supply.supplies(terminal('radio.J.1'))
    expect(feed?.source.address).toBe('battery.P.1')
    expect(feed?.links.flatMap((link) => link.conductor?.id ?? [])).toEqual(['1', '2', '3', '4'])
    expect(feed?.fuses.map((entry) => entry.id)).toEqual(['F1', 'F2'])
  })

  test('have their first fuse at a length, and branches that never meet one', () => {
    const found = paths.supply.unfused(terminal('battery.P.1'))
    expect(found.firstFuses.map((first) => [first.fuse.id, first.lengthMm])).toEqual([['F1', 400]])
    expect(ids(found.conductors)).toEqual(['1', '5'])
    expect(ids(found.dead)).toEqual(['5'])
    expect(found.loads.map((entry) => entry.to.address)).toEqual(['lamp.J.1'])
  })

  test.each([
    ['1', undefined],
    ['2', 'F1'],
    ['3', 'F1'],
    ['4', 'F2'],
    ['5', undefined],
    ['8', 'F1'],
  ])('wire %s is protected by %s', (id, want) => {
    expect(paths.supply.protectors(wire(id)).map((entry) => entry.fuse?.id)).toEqual([want])
  })

  test('do not reach the return side, nor through a coil', () => {
    expect(paths.supply.protectors(wire('6'))).toEqual([])
    expect(paths.supply.protectors(wire('9'))).toEqual([])
  })

  test('below a fuse lie conductors to the next fuse, and all its loads', () => {
    expect(ids(paths.supply.conductorsBelow(fuse('F1')))).toEqual(['2', '3', '8'])
    expect(ids(paths.supply.conductorsBelow(fuse('F2')))).toEqual(['4'])
    expect(paths.supply.loadsBelow(fuse('F1')).map((entry) => entry.address)).toEqual(['radio.J.1'])
  })

  test('take their current back over the return', () => {
    const back = paths.supply.returnPath(terminal('radio.J.1'), terminal('battery.P.1'))
    expect(back?.links.flatMap((link) => link.conductor?.id ?? [])).toEqual(['6'])
    expect(back?.to.address).toBe('battery.N.1')
  })
})

describe('nets', () => {
  test('are ground where a chassis or a return is on them', () => {
    expect(paths.nets.groundAt(paths.nets.net(terminal('lamp.J.2')))?.address).toBe('body.G.1')
    expect(paths.nets.isGround(paths.nets.net(terminal('radio.J.3')))).toBe(false)
  })

  test('know what drives them, the other leg and the pair', () => {
    const hot = terminal('radio.J.3')
    expect(paths.nets.drivers(paths.nets.net(hot)).map((pin) => pin.address)).toEqual(['radio.J.3'])
    expect(paths.nets.otherLeg(hot)?.address).toBe('radio.J.4')
    expect(paths.nets.pairsAt(hot)).toEqual(['main.W.p'])
    expect(paths.nets.conductorsAt(hot).map((entry) => entry.core)).toEqual(['w'])
  })
})

describe('volts and ways', () => {
  test('the highest voltage passes fuses and an unpowered coil, and stops at ground', () => {
    expect(paths.highestVolts(terminal('radio.J.1'))?.volts).toBe(14.4)
    expect(paths.highestVolts(terminal('lamp.J.3'))?.volts).toBe(14.4)
    expect(paths.highestVolts(terminal('lamp.J.3'))?.links.map((link) => link.kind)).toContain('coil')
    expect(paths.highestVolts(terminal('lamp.J.2'))).toBeUndefined()
    expect(paths.highestVolts(terminal('radio.J.3'))).toBeUndefined()
  })

  test('between two pins is the fewest links, and an unplugged connector cuts them', () => {
    const [from, to] = [terminal('radio.J.3'), terminal('modem.J.1')]
    expect(paths.between(from, to, throughMetal)?.map((link) => link.kind)).toEqual([
      'mate',
      'conductor',
      'mate',
    ])
    expect(paths.between(from, terminal('modem.J.2'))).toBeUndefined()
    const plug = loom.halfAt.get('main.M')
    if (!plug) throw new Error('no plug')
    expect(paths.unplugged(from, plug).has(to)).toBe(false)
    expect(paths.unplugged(from, plug).has(terminal('main.M.1'))).toBe(true)
  })
})
