import type { WirePartInput } from './part-kinds.ts'

type Facts = Omit<WirePartInput, 'kind' | 'id'>

/** Single conductors by construction; each covers a range of sizes, with the diameter over insulation of each. */
const WIRES = {
  'vehicle-thin-wall': {
    title: 'Road-vehicle wire, thin PVC wall, fine strands',
    use: 'vehicle',
    class: '100 °C',
    resists: ['oil'],
    ods: {
      '0.35 mm²': '1.3 mm',
      '0.5 mm²': '1.6 mm',
      '0.75 mm²': '1.9 mm',
      '1 mm²': '2.1 mm',
      '1.5 mm²': '2.4 mm',
      '2.5 mm²': '3 mm',
      '4 mm²': '3.7 mm',
      '6 mm²': '4.3 mm',
    },
    source: 'ISO 6722-1 class B, thin wall; diameters are its maxima, from memory.',
  },
  'vehicle-cross-linked': {
    title: 'Road-vehicle wire, cross-linked polyethylene (GXL wall)',
    use: 'vehicle',
    class: '125 °C',
    resists: ['oil'],
    ods: {
      '20 AWG': '2.2 mm',
      '18 AWG': '2.4 mm',
      '16 AWG': '2.7 mm',
      '14 AWG': '3 mm',
      '12 AWG': '3.5 mm',
      '10 AWG': '4.1 mm',
      '8 AWG': '5.3 mm',
    },
    source:
      'SAE J1128 GXL; diameters from memory. SAE sizes hold less copper than the gauge of the same number.',
  },
  'equipment-pvc': {
    title: 'Equipment wire, PVC',
    use: 'appliance',
    class: '70 °C',
    ods: {
      '0.14 mm²': '1.1 mm',
      '0.22 mm²': '1.3 mm',
      '0.25 mm²': '1.3 mm',
      '0.34 mm²': '1.5 mm',
      '0.5 mm²': '1.8 mm',
      '0.75 mm²': '2 mm',
      '1 mm²': '2.2 mm',
      '1.5 mm²': '2.6 mm',
      '24 AWG': '1.4 mm',
      '22 AWG': '1.6 mm',
      '20 AWG': '1.8 mm',
      '18 AWG': '2.1 mm',
    },
    source: 'Common PVC hook-up wire, IEC 60228 class 5; diameters from memory.',
  },
  'battery-cable': {
    title: 'Battery cable, fine strands, PVC',
    use: 'vehicle',
    class: '100 °C',
    ods: {
      '6 mm²': '5 mm',
      '10 mm²': '6.5 mm',
      '16 mm²': '8.3 mm',
      '25 mm²': '10.4 mm',
      '35 mm²': '11.6 mm',
      '50 mm²': '13.5 mm',
      '8 AWG': '6.2 mm',
      '6 AWG': '7.2 mm',
      '4 AWG': '8.5 mm',
      '2 AWG': '10.2 mm',
      '1/0 AWG': '13.2 mm',
    },
    source: 'ISO 6722-1 class B, thick wall; diameters from memory.',
  },
  'boat-tinned': {
    title: 'Boat cable, tinned, 105 °C',
    use: 'boat',
    class: '105 °C',
    tinned: true,
    resists: ['oil', 'salt', 'sun'],
    ods: {
      '0.75 mm²': '2.4 mm',
      '1 mm²': '2.6 mm',
      '1.5 mm²': '2.9 mm',
      '2.5 mm²': '3.5 mm',
      '4 mm²': '4.2 mm',
      '6 mm²': '5 mm',
      '10 mm²': '6.4 mm',
      '16 mm²': '8 mm',
      '25 mm²': '9.6 mm',
      '35 mm²': '11 mm',
      '50 mm²': '13 mm',
      '18 AWG': '2.5 mm',
      '16 AWG': '2.8 mm',
      '14 AWG': '3.3 mm',
      '12 AWG': '3.9 mm',
      '10 AWG': '4.6 mm',
      '8 AWG': '6.1 mm',
      '6 AWG': '7.9 mm',
      '4 AWG': '9.1 mm',
      '2 AWG': '10.9 mm',
      '1 AWG': '12.4 mm',
      '1/0 AWG': '13.5 mm',
      '2/0 AWG': '14.9 mm',
    },
    source:
      'UL 1426 boat cable; diameters from memory. ISO 10133 wants stranded copper, and tinning resists salt.',
  },
  'tinned-hook-up': {
    title: 'Hook-up wire, tinned, PVC',
    use: 'audio',
    class: '80 °C',
    tinned: true,
    ods: {
      '26 AWG': '1.3 mm',
      '24 AWG': '1.4 mm',
      '22 AWG': '1.6 mm',
      '20 AWG': '1.8 mm',
      '0.14 mm²': '1.1 mm',
      '0.22 mm²': '1.3 mm',
      '0.25 mm²': '1.3 mm',
      '0.34 mm²': '1.5 mm',
      '0.5 mm²': '1.8 mm',
    },
    source: 'Common tinned hook-up wire; diameters from memory.',
  },
} as const satisfies Record<string, Facts>

export type StandardWireId = keyof typeof WIRES

/** Every standard wire. */
export const standardWires = (): WirePartInput[] =>
  Object.entries(WIRES).map(([id, facts]) => ({ kind: 'wire', id, ...facts }))
