import { equipment, jack } from 'loomwright'

// Invented equipment. Only connector families, DIN 72552 terminal numbers and common practice are real.

const asMeasured = { view: 'mating', record: 'measured' } as const

/** Battery with its sensor, and the body metal behind it. The sensor counts only what goes through its body side. */
export const pickupBattery = equipment('pickup-battery', {
  title: 'Battery 12 V, sensor and body metal',
  role: 'battery',
  connectors: [
    jack(
      'POS',
      'stud-m8',
      'genderless',
      {
        1: {
          kind: 'supply-out',
          name: 'BAT+',
          port: 'battery',
          volts: '12..14.4 V',
          feed: 'permanent',
          battery: true,
          capacity: '25 Ah',
        },
      },
      { title: 'Stud on the positive clamp', ...asMeasured },
    ),
    jack(
      'POST',
      'stud-m8',
      'genderless',
      { 1: { kind: 'return', name: 'BAT−', port: 'battery' } },
      { title: 'Stud on the negative post', ...asMeasured },
    ),
    jack(
      'G1',
      'ground-stud',
      'genderless',
      { 1: { kind: 'chassis', name: 'BODY' } },
      { title: 'Body side of the battery sensor', ...asMeasured },
    ),
    ...(['G2', 'G3', 'G4', 'G5'] as const).map((id) =>
      jack(
        id,
        'ground-stud',
        'genderless',
        { 1: { kind: 'chassis', name: 'BODY' } },
        { title: `Body stud ${id}`, ...asMeasured },
      ),
    ),
  ],
  inside: [
    {
      kind: 'link',
      id: 'SENSOR',
      title: 'Battery sensor',
      senses: 'battery',
      resistance: '0.1 mΩ',
      between: { 1: 'POST.1', 2: 'G1.1' },
    },
  ],
  joins: [{ pins: ['G1.1', 'G2.1', 'G3.1', 'G4.1', 'G5.1'], resistance: '1 mΩ', note: 'Body sheet metal.' }],
  cautions: ['battery'],
  note: 'Half of the 50 Ah may be used and still start the engine.',
})

/** Taps behind the glove box, numbered as DIN 72552 does. */
export const fuseBox = equipment('fuse-box', {
  title: 'Tap points behind the glove box',
  role: 'distribution',
  connectors: [
    jack(
      'KL30',
      'tab-6.3',
      'pin',
      { 1: { kind: 'supply-out', name: 'KL30', feed: 'permanent', volts: '12..14.4 V' } },
      { title: 'Permanent feed', ...asMeasured },
    ),
    jack(
      'KL15',
      'tab-6.3',
      'pin',
      { 1: { kind: 'supply-out', name: 'KL15', feed: 'ignition', volts: '12..14.4 V' } },
      { title: 'Live with the ignition on', ...asMeasured },
    ),
  ],
})

export const horn = equipment('horn', {
  title: 'Alarm horn',
  role: 'load',
  connectors: [
    jack(
      'PLUS',
      'tab-6.3',
      'pin',
      { 1: { kind: 'supply-in', name: 'HORN+', port: 'horn', volts: '9..15 V', amps: '4 A', motor: true } },
      { title: 'Plus', ...asMeasured },
    ),
    jack(
      'MINUS',
      'tab-6.3',
      'pin',
      { 1: { kind: 'return', name: 'HORN−', port: 'horn' } },
      { title: 'Minus', ...asMeasured },
    ),
  ],
  cautions: ['hearing'],
})
