import { equipment, jack } from 'loomwright'

// Invented equipment; a bridged output on two pins of a nine-way plug is common practice.

const fromManual = { view: 'mating', record: 'maker' } as const

export const tradeMobile = equipment('trade-mobile', {
  title: 'Mobile transceiver, 25 W class, nine-way accessory port',
  role: 'transceiver',
  connectors: [
    jack(
      'ACC',
      'dsub-9',
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
          note: 'Idles near half the supply: never on ground, chassis or a scope clip.',
        },
        2: {
          kind: 'audio-out',
          name: 'SPK−',
          port: 'speaker',
          level: 'speaker',
          leg: 'cold',
          bridged: true,
          minLoad: '4 Ω',
          watts: '15 W',
          note: 'Idles near half the supply: never on ground, chassis or a scope clip.',
        },
        3: {
          kind: 'switch-in',
          name: 'PTT',
          active: 'low',
          pull: 'up',
          pullOhms: '10 kΩ',
          rail: '5 V',
          purpose: 'key',
          limit: '-0.3..5.5 V',
        },
        5: { kind: 'signal-return', name: '0V' },
        6: { kind: 'audio-in', name: 'MIC', port: 'mic', level: 'mic', leg: 'single', limit: '-0.3..5.5 V' },
        7: { kind: 'signal-return', name: 'MIC 0V', port: 'mic' },
        shell: { kind: 'chassis', name: 'CASE' },
      },
      { title: 'Accessories', ...fromManual },
    ),
  ],
  joins: [{ pins: ['ACC.5', 'ACC.7', 'ACC.shell'] }],
  cautions: ['rf'],
})

/** Its inputs are single-ended with the shell on mains earth, as test sets are. */
export const testSet = equipment('test-set', {
  title: 'Communications test set',
  role: 'instrument',
  connectors: [
    jack(
      'AF-IN',
      'bnc',
      'socket',
      {
        centre: {
          kind: 'audio-in',
          name: 'AF IN',
          port: 'af in',
          level: 'line',
          leg: 'single',
          ohms: '1 MΩ',
        },
        shield: { kind: 'chassis', name: 'AF IN earth', port: 'af in' },
      },
      { title: 'Audio in', ...fromManual },
    ),
    jack(
      'KEY',
      'jack-3.5-ts',
      'socket',
      {
        T: { kind: 'contact', name: 'KEY', port: 'key', rest: 'open', maxAmps: '0.5 A' },
        S: { kind: 'contact', name: 'KEY return', port: 'key', maxAmps: '0.5 A' },
      },
      { title: 'Volt-free key contact', ...fromManual },
    ),
  ],
  cautions: ['mains'],
})

export const dummySpeaker = equipment('dummy-speaker', {
  title: 'Load resistor 4 Ω, 40 W, in place of the loudspeaker',
  role: 'speaker',
  connectors: [
    jack(
      'R',
      'screw-terminal-2',
      'genderless',
      {
        1: {
          kind: 'audio-in',
          name: '+',
          port: 'load',
          level: 'speaker',
          leg: 'hot',
          ohms: '4 Ω',
          watts: '40 W',
        },
        2: {
          kind: 'audio-in',
          name: '−',
          port: 'load',
          level: 'speaker',
          leg: 'cold',
          ohms: '4 Ω',
          watts: '40 W',
        },
      },
      { title: 'Terminals', view: 'mating', record: 'measured' },
    ),
  ],
  note: 'Gets hot: 15 W for more than a minute burns fingers.',
})
