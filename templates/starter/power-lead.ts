// A lead of five wires: battery to a two-way radio, and the radio to its loudspeaker. Change it into yours.
//
//   loomwright check .     says what is wrong, worst first; loomwright explain RULE says why
//   loomwright build .     draws it and publishes pages, sheets and an install guide
//
// Every figure is optional: names and pins are enough for a first drawing. Each figure you add lets more be checked, and
// "not checked" at the end of a report says which one to look up next. Figures carry their unit: '12 A', '1.6 m', '4 mm²' or '12 AWG'.
import { equipment, fuse, harness, installation, jack, loom, plug, unit, wire } from 'loomwright'

// ── Equipment: what the lead lands on. Copy the pinout from the maker's manual, and say from which side it was drawn. ──

const battery = equipment('battery-12v', {
  title: 'Vehicle battery, M6 studs on its clamps',
  role: 'battery',
  cautions: ['battery'],
  connectors: [
    jack('PLUS', 'stud-m6', 'genderless', {
      1: { kind: 'supply-out', name: '+', volts: '12.0..14.4 V', feed: 'permanent', battery: true, capacity: '60 Ah' },
    }),
    jack('MINUS', 'stud-m6', 'genderless', { 1: { kind: 'return', name: '-' } }),
  ],
})

const radio = equipment('mobile-radio', {
  title: 'Two-way radio, 25 W',
  role: 'transceiver',
  cautions: ['rf'],
  connectors: [
    jack(
      'J1',
      'rect-power-2',
      'pin',
      {
        // What it draws in each state, from the manual; 'off' is what it takes with the knob off.
        1: {
          kind: 'supply-in',
          name: '+12 V',
          port: 'dc',
          connect: 'must',
          volts: '10.8..15.6 V',
          amps: { off: '2 mA', standby: '0.3 A', receive: '0.8 A', transmit: '6 A' },
        },
        2: { kind: 'return', name: '0 V', port: 'dc', connect: 'must' },
      },
      { title: 'Supply', view: 'wire-entry', record: 'maker' },
    ),
    jack(
      'J2',
      'rect-2',
      'socket',
      {
        // A bridge-tied output: both legs are driven, so neither may ever meet ground.
        1: { kind: 'audio-out', name: 'SPK+', port: 'spk', level: 'speaker', leg: 'hot', bridged: true, minLoad: '4 Ω', watts: '4 W' },
        2: { kind: 'audio-out', name: 'SPK-', port: 'spk', level: 'speaker', leg: 'cold', bridged: true, minLoad: '4 Ω', watts: '4 W' },
      },
      { title: 'Loudspeaker', view: 'wire-entry', record: 'maker' },
    ),
  ],
})

const speaker = equipment('speaker-4r', {
  title: 'Loudspeaker, 4 Ω',
  role: 'speaker',
  connectors: [
    jack(
      'J1',
      'rect-2',
      'pin',
      {
        1: { kind: 'audio-in', name: '+', port: 'in', level: 'speaker', leg: 'hot', ohms: '4 Ω', watts: '15 W' },
        2: { kind: 'audio-in', name: '-', port: 'in', level: 'speaker', leg: 'cold', ohms: '4 Ω', watts: '15 W' },
      },
      { view: 'wire-entry', record: 'maker' },
    ),
  ],
})

// ── The lead: its connectors, what is in the run, and its wires. ──
// plug() makes the free half that fits; a pin that is not there is an error while you type.

const X1 = plug('X1', battery.at('PLUS'), { family: 'ring-m6', contact: 'ring-blue', label: 'BATTERY +' })
const X2 = plug('X2', battery.at('MINUS'), { family: 'ring-m6', contact: 'ring-blue', label: 'BATTERY -' })
const P1 = plug('P1', radio.at('J1'), { contact: 'rect-power', view: 'wire-entry', label: 'RADIO DC' })
const P2 = plug('P2', radio.at('J2'), { contact: 'rect-medium', view: 'wire-entry', label: 'RADIO SPK' })
const P3 = plug('P3', speaker.at('J1'), { contact: 'rect-medium', view: 'wire-entry', label: 'SPEAKER' })

// The fuse guards the wire, not the radio: it sits next to the battery and is no larger than the thinnest wire behind it carries.
const F1 = fuse('F1', { title: 'Radio fuse', part: 'blade-10' })

const supply = { size: '2.5 mm²', part: 'vehicle-thin-wall' } as const
const audio = { size: '0.75 mm²', part: 'vehicle-thin-wall', length: '1.5 m' } as const

export const powerLead = harness('power-lead', {
  title: 'Radio supply and loudspeaker',
  document: 'L-001',
  revision: 'A',
  components: [F1],
  wires: [
    wire('A01', X1.pin(1), F1.in, { ...supply, colour: 'RD', length: '0.2 m' }),
    wire('A02', F1.out, P1.pin(1), { ...supply, colour: 'RD', length: '2.4 m' }),
    wire('A03', X2.pin(1), P1.pin(2), { ...supply, colour: 'BK', length: '2.6 m' }),
    wire('A10', P2.pin(1), P3.pin(1), { ...audio, colour: 'WH' }),
    wire('A11', P2.pin(2), P3.pin(2), { ...audio, colour: 'GY' }),
  ],
})

// ── The installation: which units and leads meet where. Halves that fit only one another need not be listed. ──

export const vehicle = installation('my-vehicle', {
  title: 'Radio in my vehicle',
  setting: 'vehicle',
  structure: 'metal',
  supply: '13.8 V',
  units: [unit('battery', battery), unit('radio', radio), unit('speaker', speaker)],
  looms: [loom('lead', powerLead)],
})
