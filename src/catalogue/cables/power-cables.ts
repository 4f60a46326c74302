import { din47100Core } from '../../base/core-scheme.ts'
import type { CablePartInput } from '../part-kinds.ts'
import { CORE_NAMES } from './core-names.ts'
import { type CoreSize, coresOf } from './cores.ts'

const MULTICORE = {
  'multicore-4x0.5': '5.4 mm',
  'multicore-7x0.5': '6.3 mm',
  'multicore-12x0.5': '8.4 mm',
  'multicore-25x0.5': '11.8 mm',
} as const

function multicore(id: keyof typeof MULTICORE): CablePartInput {
  const names = CORE_NAMES[id]
  const colours = names.flatMap((_, index) => din47100Core(index + 1, names.length) ?? [])
  return {
    kind: 'cable',
    id,
    title: `Control cable, ${names.length} × 0.5 mm², DIN 47100 colours`,
    cores: coresOf(names, '0.5 mm²', colours),
    od: MULTICORE[id],
    coreOd: '1.6 mm',
    class: '70 °C',
    bendOd: 10,
    use: 'control',
    source:
      'DIN 47100 (withdrawn, still used); four cores are white, yellow, brown, green. Diameters from memory.',
  }
}

const TWIN = {
  'boat-twin-2x1.5': { size: '1.5 mm²', od: '8 mm' },
  'boat-twin-2x2.5': { size: '2.5 mm²', od: '9.4 mm' },
  'boat-twin-2x4': { size: '4 mm²', od: '11 mm' },
  'boat-twin-2x6': { size: '6 mm²', od: '12.8 mm' },
} as const satisfies Record<string, { size: CoreSize; od: CablePartInput['od'] }>

const twin = (id: keyof typeof TWIN): CablePartInput => ({
  kind: 'cable',
  id,
  title: `Boat twin cable, 2 × ${TWIN[id].size}, tinned, sheathed`,
  cores: coresOf(CORE_NAMES[id], TWIN[id].size, ['RD', 'YE']),
  od: TWIN[id].od,
  class: '105 °C',
  use: 'power',
  tinned: true,
  source:
    'UL 1426; ABYC E-11 prefers yellow for DC negative where AC black is aboard. Diameters from memory.',
})

/** Control multicores and sheathed boat twins. */
export const powerCables = (): CablePartInput[] => [
  ...(Object.keys(MULTICORE) as (keyof typeof MULTICORE)[]).map(multicore),
  ...(Object.keys(TWIN) as (keyof typeof TWIN)[]).map(twin),
]
