import { part } from 'loomwright'

/** The longer barrel sold for the same two-way power housing: it takes 6 mm². */
export const bigPowerContact = part.contact('rect-power-6', {
  title: 'Crimp contact, power, long barrel for 6 mm²',
  half: 'any',
  join: 'crimp',
  area: '4..6 mm²',
  insulation: '3.4..4.8 mm',
  amps: '30 A',
  stripMm: 7,
  tool: 'Open-barrel (B-crimp) tool, 4–6 die',
  plating: 'tin',
  source: 'Sample card of the counter we buy from; pull-tested here on 6 mm².',
})

/** For the 0.25 mm² that an instrument brings to a stud. */
export const smallRing = part.contact('ring-small', {
  title: 'Insulated ring barrel, small',
  half: 'any',
  join: 'crimp',
  area: '0.2..0.5 mm²',
  insulation: '1.0..2.2 mm',
  amps: '7 A',
  stripMm: 5,
  tool: 'Ratchet tool for insulated terminals, small nest',
  plating: 'tin',
  source: 'Sample card of the counter we buy from.',
})

/** What a market stall sells as boat cable: the right jacket over bare copper. */
export const stallFlex = part.wire('stall-flex', {
  title: 'Flexible cable, thick PVC, bare copper',
  use: 'vehicle',
  class: '80 °C',
  tinned: false,
  ods: {
    '0.5 mm²': '2.2 mm',
    '0.75 mm²': '2.4 mm',
    '1.5 mm²': '2.9 mm',
    '2.5 mm²': '3.5 mm',
    '10 mm²': '6.4 mm',
  },
  source: 'Measured on what came in the van.',
})

/** Thin enough over the insulation for the seals of a plug with 6 mm² contacts. */
export const slimBoat = part.wire('boat-tinned-slim', {
  title: 'Boat cable, tinned, thin wall, 105 °C',
  use: 'boat',
  class: '105 °C',
  tinned: true,
  ods: { '1.5 mm²': '2.8 mm', '2.5 mm²': '3.3 mm', '4 mm²': '3.9 mm', '6 mm²': '4.4 mm' },
  source: 'Measured on our drum.',
})

/** Two pairs of the size instruments are wired with. */
export const instrumentCable = part.cable('instrument-2x2x0.25', {
  title: 'Instrument cable, 2 × 2 × 0.25 mm², tinned, foil and drain',
  cores: [
    { name: '1a', colour: 'WH', size: '0.25 mm²', pair: 'pair1' },
    { name: '1b', colour: 'BN', size: '0.25 mm²', pair: 'pair1' },
    { name: '2a', colour: 'GN', size: '0.25 mm²', pair: 'pair2' },
    { name: '2b', colour: 'YE', size: '0.25 mm²', pair: 'pair2' },
  ],
  shields: [{ name: 'screen', kind: 'foil', ohmsPerKm: 80, drain: '0.22 mm²' }],
  od: '5.6 mm',
  coreOd: '1.3 mm',
  class: '80 °C',
  bendOd: 10,
  use: 'data',
  tinned: true,
  source: 'Measured on our drum.',
})

const radioRow = (names: readonly string[], yMm: number) =>
  names.map((name, i) => [
    name,
    { xMm: (i - 2.5) * 5, yMm, dMm: name < '3' && name.length === 1 ? 2.8 : 1.2 },
  ])

/** The twelve-way supply and signal plug of the boat radio: 1 and 2 take power contacts, the rest small ones. */
export const marine12 = part.connector('marine-12', {
  title: 'Boat radio plug, 12 ways, two of them for power',
  pins: ['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'],
  style: 'housing',
  face: {
    of: 'pin',
    outline: { shape: 'rect', wMm: 34, hMm: 15, rMm: 1 },
    pins: Object.fromEntries([
      ...radioRow(['1', '2', '3', '4', '5', '6'], 3),
      ...radioRow(['7', '8', '9', '10', '11', '12'], -3),
    ]),
    marks: [{ kind: 'latch', xMm: 0, yMm: 8.4, wMm: 8, hMm: 1.8, text: 'latch' }],
  },
  contacts: ['rect-small', 'rect-power'],
  lock: 'latch',
  volts: '60 V',
  ways: 'any',
  source: 'Invented; drawn from the plug in the hand.',
})

/** A hex-crimped tube lug on a clean M8 stud. Our meter reads a tenth of what we allow for a small ring. */
export const heavyLug = part.connector('lug-m8', {
  title: 'Tube lug for M8, hex crimped',
  pins: ['1'],
  style: 'ring',
  face: {
    of: 'socket',
    outline: { shape: 'circle', dMm: 18 },
    pins: { 1: { xMm: 0, yMm: 0, dMm: 8.4 } },
  },
  genderless: true,
  matesWith: ['stud-m8'],
  contacts: ['lug-10', 'lug-16', 'lug-25', 'lug-35'],
  lock: 'screw',
  contactResistance: '0.2 mΩ',
  ways: 'power',
  studMm: 8,
  source: 'DIN 46235 for the lug; four-wire reading over the joint, tightened to 9 N·m.',
})

/** One channel of the party line by itself, so that each channel has a common of its own. */
export const lineCable = part.cable('party-line-2x0.75', {
  title: 'Party-line cable, 2 × 0.75 mm², braided screen',
  cores: [
    { name: '1', colour: 'RD', size: '0.75 mm²' },
    { name: '2', colour: 'WH', size: '0.75 mm²' },
  ],
  shields: [{ name: 'screen', kind: 'braid', ohmsPerKm: 20 }],
  od: '6.6 mm',
  class: '70 °C',
  bendOd: 10,
  use: 'audio',
  source: 'Screen measured on our drum with four wires, 20 mΩ/m.',
})
