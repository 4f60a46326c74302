import type { CablePartInput } from '../part-kinds.ts'
import { type CoreSize, coresOf } from './cores.ts'

const HUNDRED_FEET_PER_100_M = 100 / 30.48

/** Published loss in dB per 100 ft by MHz. */
const COAX = {
  'rg-58': {
    title: 'Coaxial cable RG-58C/U, 50 Ω',
    centre: '20 AWG',
    od: '4.95 mm',
    shieldOhmsPerKm: 14,
    lossDb100ft: { '50': 3.3, '150': 6.1, '450': 11.75, '850': 17.75 },
    strands: 19,
  },
  'rg-213': {
    title: 'Coaxial cable RG-213/U, 50 Ω',
    centre: '3 mm²',
    od: '10.3 mm',
    shieldOhmsPerKm: 4,
    lossDb100ft: { '50': 1.5, '150': 2.7, '450': 4.97, '850': 7.53 },
    strands: 7,
  },
  'rg-8x': {
    title: 'Coaxial cable RG-8X type, 50 Ω',
    centre: '16 AWG',
    od: '6.1 mm',
    shieldOhmsPerKm: 12,
    lossDb100ft: { '150': 4.7, '450': 8.6 },
    strands: 19,
  },
} as const satisfies Record<
  string,
  {
    title: string
    centre: CoreSize
    od: CablePartInput['od']
    shieldOhmsPerKm: number
    lossDb100ft: Record<string, number>
    strands: number
  }
>

function coaxCable(id: keyof typeof COAX): CablePartInput {
  const { title, centre, od, shieldOhmsPerKm, lossDb100ft, strands } = COAX[id]
  const per100m = Object.entries(lossDb100ft).map(([mhz, db]) => [
    mhz,
    Math.round(db * HUNDRED_FEET_PER_100_M * 100) / 100,
  ])
  return {
    kind: 'cable',
    id,
    title,
    cores: coresOf(['centre'], centre, []),
    shields: [{ name: 'shield', kind: 'braid', ohmsPerKm: shieldOhmsPerKm }],
    od,
    class: '80 °C',
    ohms: '50 Ω',
    bendOd: 10,
    lossDb100m: Object.fromEntries(per100m),
    use: 'coax',
    strands,
    source: `Loss from a generic table in a repeater training guide${id === 'rg-8x' ? ' and an amateur club table' : ''}; bend 10 × diameter preferred, 6 × least (NASA-STD-8739.4). Centre and shield from memory.`,
  }
}

/** Coaxial cables by their generic type designations. */
export const coaxCables = (): CablePartInput[] => (Object.keys(COAX) as (keyof typeof COAX)[]).map(coaxCable)
