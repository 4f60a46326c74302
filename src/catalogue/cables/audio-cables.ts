import type { Colour } from '../../base/colour.ts'
import type { CablePartInput } from '../part-kinds.ts'
import { CORE_NAMES, SHIELD_NAMES } from './core-names.ts'
import { type CoreSize, coresOf, pairedCores } from './cores.ts'

/** Pair by pair. */
const PAIR_COLOURS = ['WH', 'BU', 'RD', 'BK', 'GN', 'OG'] as const satisfies readonly Colour[]

const SCREENED = {
  'screened-1x2x0.22': { pairs: 1, od: '3.9 mm' },
  'screened-2x2x0.22': { pairs: 2, od: '5.4 mm' },
  'screened-3x2x0.22': { pairs: 3, od: '6 mm' },
  'screened-2x2x0.22-each': { pairs: 2, od: '6.4 mm' },
  'screened-3x2x0.22-each': { pairs: 3, od: '7.2 mm' },
} as const

/** A foil carries little; its 0.22 mm² drain, beside the foil, sets the resistance. */
const FOIL_OHMS_PER_KM = 80

function screened(id: keyof typeof SCREENED): CablePartInput {
  const { pairs, od } = SCREENED[id]
  const names = SHIELD_NAMES[id]
  const each = names.length > 1
  return {
    kind: 'cable',
    id,
    title: `Screened cable, ${pairs} × 2 × 0.22 mm², foil and drain ${each ? 'round each pair' : 'over all'}`,
    cores: pairedCores(CORE_NAMES[id], '0.22 mm²', PAIR_COLOURS),
    shields: names.map((name, index) => ({
      name,
      ...(each ? { covers: [`pair${index + 1}`] } : {}),
      kind: 'foil',
      ohmsPerKm: FOIL_OHMS_PER_KM,
      drain: '0.22 mm²',
    })),
    od,
    coreOd: '1.2 mm',
    class: '70 °C',
    bendOd: 10,
    use: 'audio',
    source: 'Common construction; diameters, colours and screen resistance typical, from memory.',
  }
}

const microphone = (): CablePartInput => ({
  kind: 'cable',
  id: 'mic-2x0.22',
  title: 'Microphone cable, 2 × 0.22 mm², braided screen',
  cores: coresOf(CORE_NAMES['mic-2x0.22'], '0.22 mm²', ['RD', 'BU']).map((core) => ({
    ...core,
    pair: 'pair1',
  })),
  shields: [{ name: 'screen', kind: 'braid', ohmsPerKm: 25 }],
  od: '6.2 mm',
  coreOd: '1.5 mm',
  class: '70 °C',
  bendOd: 10,
  use: 'audio',
  source: 'Common construction; figures typical, from memory.',
})

const headset = (): CablePartInput => ({
  kind: 'cable',
  id: 'headset-4x0.14',
  title: 'Headset cable, 4 × 0.14 mm², flexible',
  cores: coresOf(CORE_NAMES['headset-4x0.14'], '0.14 mm²', ['BK', 'RD', 'WH', 'GN']),
  od: '5 mm',
  coreOd: '1.2 mm',
  class: '70 °C',
  use: 'audio',
  source: 'Common construction; figures typical, from memory.',
})

const SPEAKER = {
  'speaker-2x0.75': { size: '0.75 mm²', od: '5 mm' },
  'speaker-2x1.5': { size: '1.5 mm²', od: '6.4 mm' },
  'speaker-2x2.5': { size: '2.5 mm²', od: '7.8 mm' },
} as const satisfies Record<string, { size: CoreSize; od: CablePartInput['od'] }>

const speaker = (id: keyof typeof SPEAKER): CablePartInput => ({
  kind: 'cable',
  id,
  title: `Loudspeaker cable, 2 × ${SPEAKER[id].size}`,
  cores: coresOf(CORE_NAMES[id], SPEAKER[id].size, ['RD', 'BK']),
  od: SPEAKER[id].od,
  class: '70 °C',
  use: 'speaker',
  source: 'Common construction; diameters from memory.',
})

const PARTY_LINE = {
  'party-line-4x0.22': { size: '0.22 mm²', od: '6 mm' },
  'party-line-4x0.5': { size: '0.5 mm²', od: '7.4 mm' },
  'party-line-4x0.75': { size: '0.75 mm²', od: '8.2 mm' },
  'party-line-5x0.22': { size: '0.22 mm²', od: '6.4 mm' },
  'party-line-5x0.75': { size: '0.75 mm²', od: '8.8 mm' },
} as const satisfies Record<string, { size: CoreSize; od: CablePartInput['od'] }>

/** Where the screen is the common of the line, its 20 Ω/km is what the stations share. */
function partyLine(id: keyof typeof PARTY_LINE): CablePartInput {
  const names = CORE_NAMES[id]
  const colours: readonly Colour[] =
    names.length === 5 ? ['BK', 'RD', 'WH', 'OG', 'BU'] : ['RD', 'WH', 'OG', 'BU']
  return {
    kind: 'cable',
    id,
    title: `Party-line trunk, ${names.length} × ${PARTY_LINE[id].size}, braided screen`,
    cores: coresOf(names, PARTY_LINE[id].size, colours),
    shields: [{ name: 'screen', kind: 'braid', ohmsPerKm: 20 }],
    od: PARTY_LINE[id].od,
    class: '70 °C',
    bendOd: 10,
    use: 'audio',
    source: 'Common construction; figures typical, from memory. Measure the screen of the drum you have.',
  }
}

const ids = <T extends object>(table: T) => Object.keys(table) as (keyof T)[]

/** Screened pairs, microphone, headset, loudspeaker and party-line cables. */
export const audioCables = (): CablePartInput[] => [
  ...ids(SCREENED).map(screened),
  microphone(),
  headset(),
  ...ids(SPEAKER).map(speaker),
  ...ids(PARTY_LINE).map(partyLine),
]
