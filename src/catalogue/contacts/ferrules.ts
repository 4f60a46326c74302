import type { ContactInput } from '../part-kinds.ts'

/** Nominal area, area range and collar colour, DIN 46228-4. */
export const FERRULES = {
  'ferrule-0.25': { area: '0.2..0.25 mm²', collar: 'yellow', stripMm: 8 },
  'ferrule-0.34': { area: '0.3..0.35 mm²', collar: 'turquoise', stripMm: 8 },
  'ferrule-0.5': { area: '0.34..0.52 mm²', collar: 'white', stripMm: 10 },
  'ferrule-0.75': { area: '0.5..0.83 mm²', collar: 'grey', stripMm: 10 },
  'ferrule-1': { area: '0.75..1 mm²', collar: 'red', stripMm: 10 },
  'ferrule-1.5': { area: '1..1.5 mm²', collar: 'black', stripMm: 10 },
  'ferrule-2.5': { area: '1.5..2.5 mm²', collar: 'blue', stripMm: 10 },
  'ferrule-4': { area: '2.5..4 mm²', collar: 'grey', stripMm: 12 },
  'ferrule-6': { area: '4..6 mm²', collar: 'yellow', stripMm: 14 },
  'ferrule-10': { area: '6..10 mm²', collar: 'red', stripMm: 15 },
  'ferrule-16': { area: '10..16 mm²', collar: 'blue', stripMm: 15 },
} as const

export type FerruleId = keyof typeof FERRULES
export const FERRULE_IDS = Object.keys(FERRULES) as FerruleId[]

/** Insulated ferrules for stranded ends under a screw or spring clamp. */
export const ferrules = (): ContactInput[] =>
  FERRULE_IDS.map((id) => ({
    kind: 'contact',
    id,
    title: `Ferrule ${id.slice('ferrule-'.length)} mm² with ${FERRULES[id].collar} collar`,
    half: 'any',
    join: 'crimp',
    area: FERRULES[id].area,
    stripMm: FERRULES[id].stripMm,
    tool: 'Square or trapezoid ferrule crimp tool, matching notch',
    plating: 'tin',
    source: 'DIN 46228-4; colours and strip lengths from memory, makers differ.',
  }))
