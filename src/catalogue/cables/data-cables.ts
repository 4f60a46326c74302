import type { Colour } from '../../base/colour.ts'
import { M12_COLOURS } from '../connectors/m12.ts'
import type { CablePartInput } from '../part-kinds.ts'
import { CORE_NAMES } from './core-names.ts'
import { type CoreSize, coresOf, pairedCores } from './cores.ts'

/** Position 1 first, as a flat cord lies in its plug. */
const FLAT_COLOURS = {
  'flat-6x0.14': ['WH', 'BK', 'RD', 'GN', 'YE', 'BU'],
  'flat-8x0.14': ['BU', 'OG', 'BK', 'RD', 'GN', 'YE', 'BN', 'WH'],
} as const satisfies Record<string, readonly Colour[]>

const flat = (id: keyof typeof FLAT_COLOURS): CablePartInput => ({
  kind: 'cable',
  id,
  title: `Flat modular cord, ${CORE_NAMES[id].length} × 0.14 mm², not twisted`,
  cores: coresOf(CORE_NAMES[id], '0.14 mm²', FLAT_COLOURS[id]),
  od: CORE_NAMES[id].length === 8 ? '7 mm' : '5 mm',
  class: '60 °C',
  use: 'flat',
  source: 'Common practice; colours from memory, width given as the diameter.',
})

/** Cores are named by colour, because T568A and T568B put them on different pins. */
const lan = (id: 'cat5e-utp' | 'cat5e-patch'): CablePartInput => ({
  kind: 'cable',
  id,
  title:
    id === 'cat5e-utp' ? 'Category 5e, 4 pairs, solid, unscreened' : 'Category 5e patch, 4 pairs, stranded',
  cores: pairedCores(CORE_NAMES[id], id === 'cat5e-utp' ? '24 AWG' : '26 AWG', CORE_NAMES[id]),
  od: id === 'cat5e-utp' ? '5.2 mm' : '5.5 mm',
  class: '60 °C',
  ohms: '100 Ω',
  bendOd: 4,
  use: 'data',
  strands: id === 'cat5e-utp' ? 1 : 7,
  source: 'TIA-568: pair 1 blue, 2 orange, 3 green, 4 brown. Bend 4 × diameter from memory.',
})

const CAN = {
  'can-bus-0.34': { data: '0.25 mm²', power: '0.34 mm²', od: '6.9 mm' },
  'can-bus-0.75': { data: '0.34 mm²', power: '0.75 mm²', od: '7.6 mm' },
} as const satisfies Record<string, { data: CoreSize; power: CoreSize; od: CablePartInput['od'] }>

function can(id: keyof typeof CAN): CablePartInput {
  const { data, power, od } = CAN[id]
  return {
    kind: 'cable',
    id,
    title: `CAN bus cable, 120 Ω pair and 2 × ${power} supply, screened`,
    cores: [
      { name: 'power', size: power, colour: 'RD', pair: 'supply' },
      { name: 'return', size: power, colour: 'BK', pair: 'supply' },
      { name: 'can-h', size: data, colour: 'WH', pair: 'data' },
      { name: 'can-l', size: data, colour: 'BU', pair: 'data' },
    ],
    shields: [{ name: 'screen', kind: 'foil-braid', ohmsPerKm: 30, drain: '0.34 mm²' }],
    od,
    class: '75 °C',
    ohms: '120 Ω',
    bendOd: 10,
    use: 'data',
    tinned: true,
    source:
      'CiA 303-1 for the line; colours as the M12 bus trade uses them; diameters and screen from memory.',
  }
}

const rs485 = (): CablePartInput => ({
  kind: 'cable',
  id: 'rs485-0.34',
  title: 'RS-485 cable, 120 Ω pair and reference core 0.34 mm², screened',
  cores: [
    { name: 'a', size: '0.34 mm²', colour: 'WH', pair: 'data' },
    { name: 'b', size: '0.34 mm²', colour: 'BN', pair: 'data' },
    { name: 'c', size: '0.34 mm²', colour: 'GN' },
  ],
  shields: [{ name: 'screen', kind: 'foil-braid', ohmsPerKm: 30, drain: '0.34 mm²' }],
  od: '6.8 mm',
  class: '70 °C',
  ohms: '120 Ω',
  bendOd: 10,
  use: 'data',
  source: 'TIA-485-A wants a signal ground conductor beside the pair; figures typical, from memory.',
})

const M12_LEADS = {
  'm12-lead-4x0.34': { size: '0.34 mm²', od: '4.7 mm', coreOd: '1.4 mm' },
  'm12-lead-5x0.34': { size: '0.34 mm²', od: '5 mm', coreOd: '1.4 mm' },
  'm12-lead-8x0.25': { size: '0.25 mm²', od: '6.2 mm', coreOd: '1.3 mm' },
} as const satisfies Record<
  string,
  { size: CoreSize; od: CablePartInput['od']; coreOd: CablePartInput['od'] }
>

/** Core n goes to pin n. */
function m12Lead(id: keyof typeof M12_LEADS): CablePartInput {
  const colours: readonly Colour[] =
    id === 'm12-lead-8x0.25' ? ['WH', 'BN', 'GN', 'YE', 'GY', 'PK', 'BU', 'RD'] : Object.values(M12_COLOURS)
  return {
    kind: 'cable',
    id,
    title: `M12 lead cable, ${CORE_NAMES[id].length} × ${M12_LEADS[id].size}`,
    cores: coresOf(CORE_NAMES[id], M12_LEADS[id].size, colours),
    od: M12_LEADS[id].od,
    coreOd: M12_LEADS[id].coreOd,
    class: '80 °C',
    bendOd: 10,
    use: 'control',
    source: 'IEC 60947-5-2 colours by pin for 4 and 5 cores; 8 cores and diameters from memory.',
  }
}

const usb = (): CablePartInput => ({
  kind: 'cable',
  id: 'usb-2.0-lead',
  title: 'USB 2.0 lead, 28 AWG data pair, 24 AWG supply, screened',
  cores: [
    { name: 'vbus', size: '24 AWG', colour: 'RD' },
    { name: 'dm', size: '28 AWG', colour: 'WH', pair: 'data' },
    { name: 'dp', size: '28 AWG', colour: 'GN', pair: 'data' },
    { name: 'gnd', size: '24 AWG', colour: 'BK' },
  ],
  shields: [{ name: 'screen', kind: 'foil-braid', ohmsPerKm: 30, drain: '28 AWG' }],
  od: '4.5 mm',
  class: '80 °C',
  ohms: '90 Ω',
  use: 'data',
  source: 'USB 2.0 chapter 6: a 24 AWG supply pair reaches 2.08 m. Screen and diameter from memory.',
})

/** Flat cords, LAN, CAN, RS-485, M12 leads and USB. */
export const dataCables = (): CablePartInput[] => [
  flat('flat-6x0.14'),
  flat('flat-8x0.14'),
  lan('cat5e-utp'),
  lan('cat5e-patch'),
  can('can-bus-0.34'),
  can('can-bus-0.75'),
  rs485(),
  m12Lead('m12-lead-4x0.34'),
  m12Lead('m12-lead-5x0.34'),
  m12Lead('m12-lead-8x0.25'),
  usb(),
]
