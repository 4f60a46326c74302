import type { WireSize } from '../../src/base/wire-size.ts'
import type { DocumentInput } from '../../src/describe/document.ts'

type Content = Omit<DocumentInput, 'loomwright'>

/** The supply of a 12 A mobile in a pickup: fused feed at the battery, return to the post, sense on the feed or on the tap. */
export function pickup(options: { back?: WireSize; sense?: 'permanent' | 'ignition' } = {}): Content {
  const back = options.back ?? '1.5 mm²'
  const sense = options.sense ?? 'permanent'
  return {
    parts: [
      { kind: 'connector', id: 'post', title: 'Battery post', pins: ['1'], style: 'stud', manyWires: true },
      { kind: 'connector', id: 'eye', title: 'Ring', pins: ['1'], style: 'ring', matesWith: ['post'] },
      { kind: 'connector', id: 'two', title: 'Two-way power plug', pins: ['1', '2'], style: 'housing' },
      { kind: 'connector', id: 'acc', title: 'Accessory plug', pins: ['7', '10'], style: 'housing' },
    ],
    equipment: [
      {
        id: 'battery',
        title: 'Battery, 12 V',
        role: 'battery',
        connectors: [
          {
            id: 'P',
            family: 'post',
            pins: {
              '1': {
                kind: 'supply-out',
                volts: '12..14.4 V',
                feed: 'permanent',
                battery: true,
                capacity: '25 Ah',
                port: 'b',
              },
            },
          },
          { id: 'N', family: 'post', pins: { '1': { kind: 'return', port: 'b' } } },
        ],
      },
      {
        id: 'fusebox',
        title: 'Ignition tap',
        connectors: [
          {
            id: 'T15',
            family: 'eye',
            pins: { '1': { kind: 'supply-out', feed: 'ignition', volts: '12..14.4 V' } },
          },
        ],
      },
      {
        id: 'mobile',
        title: 'Mobile, 40 W class',
        role: 'transceiver',
        connectors: [
          {
            id: 'J1',
            family: 'two',
            pins: {
              '1': {
                kind: 'supply-in',
                port: 'dc',
                volts: '10.8..15.6 V',
                amps: { off: '0 A', standby: '0.35 A', transmit: '12 A' },
                awake: 'J2.10',
              },
              '2': { kind: 'return', port: 'dc' },
            },
          },
          {
            id: 'J2',
            family: 'acc',
            pins: { '10': { kind: 'sense', wants: 'ignition' }, '7': { kind: 'signal-return' } },
          },
        ],
      },
    ],
    harnesses: [
      {
        id: 'head',
        title: 'Supply of the remote-head mobile',
        connectors: [
          { id: 'R1', family: 'eye', fits: 'battery.P' },
          { id: 'R2', family: 'eye', fits: 'battery.N' },
          { id: 'T1', family: 'post', fits: 'fusebox.T15' },
          { id: 'P1', family: 'two', fits: 'mobile.J1' },
          { id: 'P2', family: 'acc', fits: 'mobile.J2' },
        ],
        components: [{ kind: 'fuse', id: 'F1', rating: '20 A' }],
        wires: [
          { id: 'A01', from: 'R1', to: 'F1.in', size: '6 mm²', length: '0.4 m', colour: 'RD' },
          { id: 'A02', from: 'F1.out', to: 'P1.1', size: '6 mm²', length: '5.2 m', colour: 'RD' },
          { id: 'A03', from: 'P1.2', to: 'R2', size: back, length: '5.6 m', colour: 'BK' },
          {
            id: 'A11',
            from: sense === 'permanent' ? 'F1.out' : 'T1',
            to: 'P2.10',
            size: '0.5 mm²',
            length: '4.6 m',
            colour: 'YE',
          },
        ],
      },
    ],
    installations: [
      {
        id: 'pickup',
        title: 'Council pickup',
        setting: 'vehicle',
        supply: '13.8 V',
        units: [
          { id: 'bat', of: 'battery' },
          { id: 'tap', of: 'fusebox' },
          { id: 'radio', of: 'mobile' },
        ],
        looms: [{ id: 'main', of: 'head' }],
      },
    ],
  }
}
