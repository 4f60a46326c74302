import type { ContactInput } from '../part-kinds.ts'

type Facts = Omit<ContactInput, 'kind' | 'id'>

const RING_SOURCE = 'DIN 46237 colours red, blue, yellow; yellow taken from 12 AWG up (common practice).'
const LUG_SOURCE = 'DIN 46235 tube lugs; each takes its own size and the gauge sold beside it.'
const RECEPTACLE_SOURCE = 'IEC 61210; colours as for rings.'

/** Rings, lugs, receptacles and clamps. */
export const TERMINAL_CONTACTS = {
  'ring-red': {
    title: 'Insulated ring barrel, red',
    half: 'any',
    join: 'crimp',
    area: '0.5..1.5 mm²',
    insulation: '1.2..3.2 mm',
    amps: '19 A',
    stripMm: 6,
    tool: 'Ratchet tool for insulated terminals, red nest',
    plating: 'tin',
    source: RING_SOURCE,
  },
  'ring-blue': {
    title: 'Insulated ring barrel, blue',
    half: 'any',
    join: 'crimp',
    area: '1.5..2.5 mm²',
    insulation: '2.0..4.2 mm',
    amps: '27 A',
    stripMm: 6,
    tool: 'Ratchet tool for insulated terminals, blue nest',
    plating: 'tin',
    source: RING_SOURCE,
  },
  'ring-yellow': {
    title: 'Insulated ring barrel, yellow',
    half: 'any',
    join: 'crimp',
    area: '2.6..6.6 mm²',
    insulation: '3.0..6.2 mm',
    amps: '48 A',
    stripMm: 8,
    tool: 'Ratchet tool for insulated terminals, yellow nest',
    plating: 'tin',
    source: RING_SOURCE,
  },
  'lug-10': lug('8..10 mm²', '80 A', 10),
  'lug-16': lug('13..16 mm²', '110 A', 12),
  'lug-25': lug('20..25 mm²', '150 A', 13),
  'lug-35': lug('33..35 mm²', '190 A', 14),
  'lug-50': lug('42..50 mm²', '240 A', 16),
  'receptacle-6.3-red': receptacle('6.3', 'red', '0.5..1.5 mm²', '15 A'),
  'receptacle-6.3-blue': receptacle('6.3', 'blue', '1.5..2.5 mm²', '20 A'),
  'receptacle-6.3-yellow': receptacle('6.3', 'yellow', '2.6..6.6 mm²', '24 A'),
  'receptacle-4.8-red': receptacle('4.8', 'red', '0.5..1.5 mm²', '12 A'),
  'receptacle-4.8-blue': receptacle('4.8', 'blue', '1.5..2.5 mm²', '16 A'),
  'receptacle-2.8-red': receptacle('2.8', 'red', '0.3..1 mm²', '8 A'),
  'fuse-blade-crimp': {
    title: 'Blade fuse holder contact',
    half: 'socket',
    join: 'crimp',
    area: '0.5..6 mm²',
    amps: '30 A',
    stripMm: 6,
    tool: 'Open-barrel (B-crimp) tool, die by wire size',
    plating: 'tin',
    source: 'Common practice; rating from memory.',
  },
  'fuse-maxi-crimp': {
    title: 'Maxi blade fuse holder contact',
    half: 'socket',
    join: 'crimp',
    area: '6..16 mm²',
    amps: '80 A',
    stripMm: 9,
    tool: 'Open-barrel (B-crimp) tool, die by wire size',
    plating: 'tin',
    source: 'Common practice; rating from memory.',
  },
  'screw-clamp': {
    title: 'Wire end under a screw clamp',
    half: 'any',
    join: 'screw',
    area: '0.2..4 mm²',
    amps: '16 A',
    stripMm: 7,
    tool: 'Screwdriver; ferrule on stranded ends, never tinned',
    wires: 2,
    source: 'IEC 60947-7-1 for the kind; two wires only of the same size and only where the block says so.',
  },
  'bare-end': {
    title: 'Stripped wire end',
    half: 'any',
    join: 'screw',
    area: '0.14..6 mm²',
    stripMm: 8,
    tool: 'Stripper set to the wire; strands not nicked, twisted back as laid',
    plating: 'bare',
    source: 'Common practice.',
  },
  'clamp-screw': {
    title: 'Battery clamp, cable under a screwed bridge',
    half: 'any',
    join: 'screw',
    area: '6..50 mm²',
    amps: '200 A',
    stripMm: 15,
    tool: 'Spanner; a crimped lug on the clamp bolt is better',
    source: 'Common practice; rating from memory.',
  },
} as const satisfies Record<string, Facts>

function lug<const A extends Facts['area']>(area: A, amps: `${number} A`, stripMm: number) {
  return {
    title: `Tube lug, ${area}`,
    half: 'any',
    join: 'crimp',
    area,
    amps,
    stripMm,
    tool: 'Hex crimp tool, die by lug size; adhesive sleeve over the barrel',
    plating: 'tin',
    source: LUG_SOURCE,
  } as const
}

function receptacle<const A extends Facts['area']>(
  widthMm: string,
  colour: string,
  area: A,
  amps: `${number} A`,
) {
  return {
    title: `Receptacle ${widthMm} mm, insulated, ${colour}`,
    half: 'socket',
    join: 'crimp',
    area,
    amps,
    stripMm: 6,
    tool: `Ratchet tool for insulated terminals, ${colour} nest`,
    plating: 'tin',
    source: RECEPTACLE_SOURCE,
  } as const
}
