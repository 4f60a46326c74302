import type { SealInput } from './part-kinds.ts'

/** Wire seals and cavity plugs of the sealed housings. */
const SEALS = {
  'seal-1.2-1.7': { title: 'Wire seal 1.2 to 1.7 mm', insulation: '1.2..1.7 mm', colour: 'YE' },
  'seal-1.7-2.4': { title: 'Wire seal 1.7 to 2.4 mm', insulation: '1.7..2.4 mm', colour: 'GN' },
  'seal-2.4-3.0': { title: 'Wire seal 2.4 to 3.0 mm', insulation: '2.4..3 mm', colour: 'RD' },
  'seal-3.0-3.7': { title: 'Wire seal 3.0 to 3.7 mm', insulation: '3..3.7 mm', colour: 'BU' },
  'seal-3.7-4.5': { title: 'Wire seal 3.7 to 4.5 mm', insulation: '3.7..4.5 mm', colour: 'BN' },
  'cavity-plug': { title: 'Cavity plug', plug: true, colour: 'WH' },
} as const satisfies Record<string, Omit<SealInput, 'kind' | 'id'>>

export type StandardSealId = keyof typeof SEALS

/** Every standard seal. Choose by the diameter over insulation, never by conductor size. */
export const standardSeals = (): SealInput[] =>
  Object.entries(SEALS).map(([id, facts]) => ({
    kind: 'seal',
    id,
    ...facts,
    source: 'Generic seal of this catalogue; colours differ by maker.',
  }))
