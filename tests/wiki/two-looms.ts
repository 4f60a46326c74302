import type { DocumentInput } from '../../src/describe/document.ts'

/** A radio whose loudspeaker hangs on two looms mated on the way, fed through a fuse; the screen is cut back at one end. */
export function twoLooms(word = 'SPK', wire = 'A4'): DocumentInput {
  return {
    loomwright: 1,
    policy: { shop: 'Two looms' },
    equipment: [
      {
        id: 'accu',
        title: 'Battery',
        role: 'battery',
        connectors: [
          {
            id: 'POS',
            family: 'stud-m8',
            pins: { '1': { kind: 'supply-out', name: 'BAT+', volts: '12..14.4 V' } },
          },
          { id: 'NEG', family: 'stud-m8', pins: { '1': { kind: 'return', name: 'BAT-' } } },
        ],
      },
      {
        id: 'mobile',
        title: `Radio ${word}`,
        connectors: [
          {
            id: 'J1',
            family: 'dsub-9',
            half: 'socket',
            pins: {
              '1': {
                kind: 'supply-in',
                name: 'DC+',
                port: 'dc',
                volts: '10..16 V',
                amps: { standby: '0.5 A' },
              },
              '2': { kind: 'return', name: 'DC-', port: 'dc' },
              '3': { kind: 'unstated', name: `${word}+` },
              '4': { kind: 'unstated', name: `${word}-` },
            },
          },
        ],
      },
      {
        id: 'speaker',
        title: `Speaker ${word}`,
        connectors: [
          {
            id: 'T',
            family: 'screw-terminal-2',
            pins: {
              '1': { kind: 'unstated', name: `${word} in+` },
              '2': { kind: 'unstated', name: `${word} in-` },
            },
          },
        ],
      },
    ],
    harnesses: [
      {
        id: 'front',
        title: `Front ${word}`,
        connectors: [
          { id: 'P1', family: 'dsub-9', half: 'pin', fits: 'mobile.J1' },
          { id: 'R1', family: 'ring-m8', fits: 'accu.POS' },
          { id: 'R2', family: 'ring-m8', fits: 'accu.NEG' },
          { id: 'X2A', family: 'rect-2', half: 'socket' },
        ],
        components: [{ kind: 'fuse', id: 'F1', rating: '5 A' }],
        wires: [
          { id: 'A1', from: 'R1.1', to: 'F1.in', size: '1 mm²', colour: 'RD', length: '0.3 m' },
          { id: 'A2', from: 'F1.out', to: 'P1.1', size: '1 mm²', colour: 'RD', length: '2 m' },
          { id: 'A3', from: 'R2.1', to: 'P1.2', size: '1 mm²', colour: 'BK', length: '2 m' },
          { id: wire, from: 'P1.3', to: 'X2A.1', size: '0.75 mm²', colour: 'WHBU', length: '1.2 m' },
          { id: 'A5', from: 'P1.4', to: 'X2A.2', size: '0.75 mm²', colour: 'BU', length: '1.2 m' },
        ],
      },
      {
        id: 'rear',
        title: `Rear ${word}`,
        connectors: [
          { id: 'X2B', family: 'rect-2', half: 'pin' },
          { id: 'S1', family: 'screw-terminal-2', fits: 'speaker.T' },
        ],
        wires: [
          { id: 'B1', from: 'X2B.1', to: 'S1.1', size: '0.75 mm²', colour: 'WH', length: '3 m' },
          { id: 'B2', from: 'X2B.2', to: 'S1.2', size: '0.75 mm²', colour: 'BU', length: '3 m' },
        ],
      },
    ],
    installations: [
      {
        id: 'van',
        title: `Van ${word}`,
        setting: 'vehicle',
        units: [
          { id: 'battery', of: 'accu' },
          { id: 'radio', of: 'mobile' },
          { id: 'horn', of: 'speaker' },
        ],
        looms: [
          { id: 'one', of: 'front' },
          { id: 'two', of: 'rear' },
        ],
        mates: [['one.X2A', 'two.X2B']],
      },
    ],
  }
}
