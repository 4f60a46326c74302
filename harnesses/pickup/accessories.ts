import { equipment, jack } from 'loomwright'

// Invented equipment. Only connector families, DIN 72552 terminal numbers and common practice are real.

const asMeasured = { view: 'mating', record: 'measured' } as const
const fromManual = { view: 'mating', record: 'maker' } as const

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
