import { equipment, jack } from 'loomwright'

// Invented equipment. Only connector families, DIN 72552 terminal numbers and common practice are real.

const asMeasured = { view: 'mating', record: 'measured' } as const
const fromManual = { view: 'mating', record: 'maker' } as const

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

/** Remote-mount transceiver. Its negative is kept off its case, so the case may be bolted to the body. */
export const mobile = equipment('mobile-40', {
  title: 'Mobile transceiver, 40 W class, remote head',
  role: 'transceiver',
  connectors: [
    jack(
      'J1',
      'rect-power-2',
      'pin',
      {
        1: {
          kind: 'supply-in',
          name: 'DC+',
          port: 'dc',
          connect: 'must',
          volts: '10.8..15.6 V',
          amps: { off: '5 mA', standby: '0.35 A', receive: '1.2 A', transmit: '12 A' },
          awake: 'J2.10',
        },
        2: { kind: 'return', name: 'DC−', port: 'dc', connect: 'must' },
      },
      { title: 'Supply', ...fromManual },
    ),
    jack(
      'J2',
      'dsub-25',
      'socket',
      {
        1: {
          kind: 'audio-out',
          name: 'SPK+',
          port: 'speaker',
          level: 'speaker',
          leg: 'hot',
          bridged: true,
          minLoad: '4 Ω',
          watts: '15 W',
        },
        14: {
          kind: 'audio-out',
          name: 'SPK−',
          port: 'speaker',
          level: 'speaker',
          leg: 'cold',
          bridged: true,
          minLoad: '4 Ω',
          watts: '15 W',
        },
        3: {
          kind: 'switch-in',
          name: 'PTT',
          active: 'low',
          pull: 'up',
          pullOhms: '10 kΩ',
          rail: '5 V',
          purpose: 'key',
          wants: 'dry-contact',
          limit: '-0.3..16 V',
        },
        5: {
          kind: 'audio-out',
          name: 'RX+',
          port: 'rx',
          level: 'line',
          leg: 'hot',
          ohms: '600 Ω',
          dbu: '0 dBu',
        },
        6: {
          kind: 'audio-out',
          name: 'RX−',
          port: 'rx',
          level: 'line',
          leg: 'cold',
          ohms: '600 Ω',
          dbu: '0 dBu',
        },
        7: { kind: 'signal-return', name: '0V' },
        8: {
          kind: 'switch-out',
          name: 'ALARM',
          form: 'open-collector',
          active: 'low',
          maxAmps: '100 mA',
          maxVolts: '30 V',
          saturation: '0.4 V',
          purpose: 'alarm',
        },
        10: { kind: 'sense', name: 'IGN', wants: 'ignition', limit: '-0.5..16 V' },
        11: { kind: 'supply-out', name: 'SW+', feed: 'switched', volts: '12..14.4 V' },
        17: {
          kind: 'audio-in',
          name: 'TX+',
          port: 'tx',
          level: 'line',
          leg: 'hot',
          ohms: '10 kΩ',
          dbu: '0 dBu',
        },
        18: {
          kind: 'audio-in',
          name: 'TX−',
          port: 'tx',
          level: 'line',
          leg: 'cold',
          ohms: '10 kΩ',
          dbu: '0 dBu',
        },
        19: {
          kind: 'switch-in',
          name: 'DPTT',
          active: 'low',
          pull: 'up',
          pullOhms: '10 kΩ',
          rail: '5 V',
          purpose: 'key',
          wants: 'any',
          limit: '-0.3..16 V',
        },
        20: { kind: 'signal-return', name: '0V' },
        shell: { kind: 'chassis', name: 'CASE' },
      },
      { title: 'Accessories', ...fromManual },
    ),
    jack(
      'J3',
      'modular-8p8c',
      'socket',
      {
        1: {
          kind: 'supply-out',
          name: 'HEAD+',
          port: 'head',
          volts: '12..14.4 V',
          feed: 'switched',
          maxAmps: '0.5 A',
        },
        2: {
          kind: 'data',
          name: 'DATA+',
          port: 'bus',
          standard: 'proprietary',
          line: 'D+',
          direction: 'both',
        },
        3: {
          kind: 'data',
          name: 'DATA−',
          port: 'bus',
          standard: 'proprietary',
          line: 'D−',
          direction: 'both',
        },
        4: { kind: 'audio-in', name: 'MIC', port: 'mic', level: 'line', leg: 'single', limit: '-0.3..5.5 V' },
        5: { kind: 'signal-return', name: 'MIC 0V', port: 'mic' },
        6: { kind: 'audio-out', name: 'EAR', port: 'ear', level: 'line', leg: 'single' },
        7: { kind: 'switch-in', name: 'ON', active: 'low', pull: 'up', rail: '5 V', limit: '-0.3..5.5 V' },
        8: { kind: 'return', name: 'HEAD−', port: 'head' },
      },
      { title: 'Control head', ...fromManual },
    ),
    jack(
      'ANT',
      'tnc',
      'socket',
      {
        centre: { kind: 'rf', name: 'ANT', ohms: '50 Ω', watts: '40 W', from: '146 MHz', to: '174 MHz' },
        shield: { kind: 'shield', name: 'ANT screen' },
      },
      { title: 'Antenna', ...fromManual },
    ),
    jack(
      'CASE',
      'ring-m6',
      'genderless',
      { 1: { kind: 'chassis', name: 'CASE' } },
      { title: 'Mounting lug', ...fromManual },
    ),
  ],
  joins: [
    { pins: ['J1.2', 'J2.7', 'J2.20', 'J3.5', 'J3.8'], note: 'One board; measured with the unit off.' },
    { pins: ['CASE.1', 'J2.shell', 'ANT.shield'], note: 'Case; open to DC− on a meter.' },
  ],
  cautions: ['rf'],
})

const headSide = jack(
  'J4',
  'modular-8p8c',
  'socket',
  {
    1: {
      kind: 'supply-in',
      name: 'HEAD+',
      port: 'head',
      volts: '10..15.6 V',
      limit: '-0.5..16 V',
      amps: { off: '0 A', standby: '0.1 A' },
      note: 'Counted in what the transceiver draws.',
    },
    2: { kind: 'data', name: 'DATA+', port: 'bus', standard: 'proprietary', line: 'D+', direction: 'both' },
    3: { kind: 'data', name: 'DATA−', port: 'bus', standard: 'proprietary', line: 'D−', direction: 'both' },
    4: { kind: 'audio-out', name: 'MIC', port: 'mic', level: 'line', leg: 'single' },
    5: { kind: 'signal-return', name: 'MIC 0V', port: 'mic' },
    6: { kind: 'audio-in', name: 'EAR', port: 'ear', level: 'line', leg: 'single', limit: '-0.3..5.5 V' },
    7: {
      kind: 'switch-out',
      name: 'ON',
      form: 'open-collector',
      active: 'low',
      maxAmps: '10 mA',
      maxVolts: '16 V',
    },
    8: { kind: 'return', name: 'HEAD−', port: 'head' },
  },
  { title: 'To the transceiver', ...fromManual },
)

/** What the handset socket does, whatever its shape. */
const handsetPins = {
  1: {
    kind: 'switch-in',
    name: 'PTT',
    active: 'low',
    pull: 'up',
    rail: '5 V',
    purpose: 'key',
    limit: '-0.3..5.5 V',
  },
  2: { kind: 'signal-return', name: 'PTT 0V' },
  3: { kind: 'audio-in', name: 'MIC+', port: 'handset mic', level: 'mic', leg: 'hot', limit: '-0.3..5.5 V' },
  4: { kind: 'audio-in', name: 'MIC−', port: 'handset mic', level: 'mic', leg: 'cold', limit: '-0.3..5.5 V' },
  5: {
    kind: 'audio-out',
    name: 'EAR+',
    port: 'handset ear',
    level: 'headphone',
    leg: 'hot',
    limit: '-0.3..5.5 V',
  },
  6: {
    kind: 'audio-out',
    name: 'EAR−',
    port: 'handset ear',
    level: 'headphone',
    leg: 'cold',
    limit: '-0.3..5.5 V',
  },
  7: { kind: 'signal-return', name: 'HOOK 0V' },
  8: { kind: 'switch-in', name: 'HOOK', active: 'low', pull: 'up', rail: '5 V', limit: '-0.3..5.5 V' },
} as const

/** First head we bought: both sockets are 8P8C and sit 20 mm apart. */
export const headTwin = equipment('head-8p8c', {
  title: 'Control head, handset socket 8P8C',
  role: 'control',
  connectors: [
    headSide,
    jack('J5', 'modular-8p8c', 'socket', handsetPins, { title: 'Handset', ...fromManual }),
  ],
})

/** Same head with a screwed round handset socket. */
export const headRound = equipment('head-round', {
  title: 'Control head, handset socket round',
  role: 'control',
  connectors: [headSide, jack('J5', 'm12-a-8', 'socket', handsetPins, { title: 'Handset', ...fromManual })],
})

export const handset = equipment('handset', {
  title: 'Handset with push-to-talk',
  role: 'microphone',
  connectors: [
    jack(
      'TB',
      'screw-terminal-8',
      'genderless',
      {
        1: { kind: 'contact', name: 'PTT', port: 'ptt', rest: 'open' },
        2: { kind: 'contact', name: 'PTT 0V', port: 'ptt' },
        3: {
          kind: 'audio-out',
          name: 'MIC+',
          port: 'mic',
          level: 'mic',
          leg: 'hot',
          element: 'dynamic',
          ohms: '600 Ω',
        },
        4: {
          kind: 'audio-out',
          name: 'MIC−',
          port: 'mic',
          level: 'mic',
          leg: 'cold',
          element: 'dynamic',
          ohms: '600 Ω',
        },
        5: { kind: 'audio-in', name: 'EAR+', port: 'ear', level: 'headphone', leg: 'hot', ohms: '150 Ω' },
        6: { kind: 'audio-in', name: 'EAR−', port: 'ear', level: 'headphone', leg: 'cold', ohms: '150 Ω' },
        7: { kind: 'contact', name: 'HOOK 0V', port: 'hook' },
        8: { kind: 'contact', name: 'HOOK', port: 'hook', rest: 'closed' },
      },
      { title: 'Terminals under the back cover', ...asMeasured },
    ),
  ],
  cautions: ['hearing'],
})

/** 15 W into 4 Ω wants a speaker rated above that; 40 W is comfortable (common practice). */
const speakerOf = <const Id extends string>(id: Id, ohms: '4 Ω' | '8 Ω') =>
  equipment(id, {
    title: `Loudspeaker ${ohms}, 40 W`,
    role: 'speaker',
    connectors: [
      jack(
        'TB',
        'screw-terminal-2',
        'genderless',
        {
          1: { kind: 'audio-in', name: '+', port: 'coil', level: 'speaker', leg: 'hot', ohms, watts: '40 W' },
          2: {
            kind: 'audio-in',
            name: '−',
            port: 'coil',
            level: 'speaker',
            leg: 'cold',
            ohms,
            watts: '40 W',
          },
        },
        { title: 'Terminals', ...asMeasured },
      ),
    ],
    cautions: ['hearing'],
  })

export const speaker4 = speakerOf('speaker-4', '4 Ω')
export const speaker8 = speakerOf('speaker-8', '8 Ω')

/** Telemetry modem. Audio goes through transformers and the key output through an optocoupler, so its common floats. */
export const modem = equipment('modem', {
  title: 'Telemetry modem',
  role: 'modem',
  connectors: [
    jack(
      'J1',
      'dsub-9',
      'socket',
      {
        1: {
          kind: 'audio-in',
          name: 'RX−',
          port: 'rx',
          level: 'line',
          leg: 'cold',
          ohms: '10 kΩ',
          dbu: '0 dBu',
        },
        2: {
          kind: 'audio-in',
          name: 'RX+',
          port: 'rx',
          level: 'line',
          leg: 'hot',
          ohms: '10 kΩ',
          dbu: '0 dBu',
        },
        3: {
          kind: 'audio-out',
          name: 'TX+',
          port: 'tx',
          level: 'line',
          leg: 'hot',
          ohms: '600 Ω',
          dbu: '0 dBu',
        },
        4: {
          kind: 'audio-out',
          name: 'TX−',
          port: 'tx',
          level: 'line',
          leg: 'cold',
          ohms: '600 Ω',
          dbu: '0 dBu',
        },
        5: { kind: 'signal-return', name: 'KEY 0V', isolated: true },
        7: {
          kind: 'switch-out',
          name: 'DPTT',
          form: 'open-collector',
          active: 'low',
          maxAmps: '50 mA',
          maxVolts: '30 V',
          purpose: 'key',
        },
        9: { kind: 'data', name: 'RXD', standard: 'ttl', line: 'RXD', direction: 'in', limit: '-0.3..5.5 V' },
        shell: { kind: 'chassis', name: 'CASE' },
      },
      { title: 'Radio', ...fromManual },
    ),
    jack(
      'J2',
      'rect-2',
      'pin',
      {
        1: {
          kind: 'supply-in',
          name: 'DC+',
          port: 'dc',
          volts: '9..30 V',
          amps: { off: '0 A', standby: '0.15 A' },
        },
        2: { kind: 'return', name: 'DC−', port: 'dc' },
      },
      { title: 'Supply', ...fromManual },
    ),
    jack(
      'CASE',
      'ring-m6',
      'genderless',
      { 1: { kind: 'chassis', name: 'CASE' } },
      { title: 'Mounting lug', ...fromManual },
    ),
  ],
  joins: [{ pins: ['J1.shell', 'J2.2', 'CASE.1'], note: 'Case and DC− are one in this unit.' }],
  isolates: [
    { pins: ['J1.1', 'J1.2', 'J1.3', 'J1.4'], by: 'audio transformers' },
    { pins: ['J1.5', 'J1.7'], by: 'optocoupler' },
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

export const footswitch = equipment('footswitch', {
  title: 'Foot switch',
  role: 'control',
  connectors: [
    jack(
      'J1',
      'jack-6.35-trs',
      'socket',
      {
        T: { kind: 'contact', name: 'PTT', port: 'foot', rest: 'open', maxAmps: '0.5 A' },
        S: { kind: 'contact', name: '0V', port: 'foot', maxAmps: '0.5 A' },
      },
      { title: 'Foot switch', ...asMeasured },
    ),
  ],
})

/** Glass mount: its foot does not touch the body, so the braid carries no supply current. */
export const antenna = equipment('antenna-glass', {
  title: 'Antenna, glass mount',
  role: 'antenna',
  connectors: [
    jack(
      'A1',
      'tnc',
      'socket',
      {
        centre: { kind: 'rf', name: 'ANT', ohms: '50 Ω', from: '146 MHz', to: '174 MHz' },
        shield: { kind: 'shield', name: 'ANT screen' },
      },
      { title: 'Feeder', ...fromManual },
    ),
  ],
  cautions: ['rf', 'heights'],
})
