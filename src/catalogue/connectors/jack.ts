import type { ConnectorInput, FacePins } from '../part-kinds.ts'
import { PIN_NAMES, pinsOfFamily, type StandardFamilyId } from './pin-names.ts'

/** Length and diameter of the plug, and its solder contact, by trade size. */
const SIZES = {
  '6.35': { dMm: 6.35, lengthMm: 31, wire: 'jack-6.35-solder' },
  '3.5': { dMm: 3.5, lengthMm: 14, wire: 'jack-3.5-solder' },
} as const

const POLES = { ts: 'two-pole', trs: 'three-pole', trrs: 'four-pole' } as const

/** Contacts along the plug, tip at the left, seen from the side. */
function along(names: readonly string[], lengthMm: number): FacePins {
  const step = lengthMm / names.length
  const at = (index: number) => Math.round((-lengthMm / 2 + (index + 0.5) * step) * 100) / 100
  return Object.fromEntries(names.map((name, index) => [name, { xMm: at(index), yMm: 0 }]))
}

type JackId = Extract<StandardFamilyId, `jack-${string}`>

function jack(id: JackId, size: keyof typeof SIZES, poles: keyof typeof POLES): ConnectorInput {
  const { dMm, lengthMm, wire } = SIZES[size]
  return {
    kind: 'connector',
    ...pinsOfFamily(id),
    title: `Jack ${size} mm, ${POLES[poles]} (${poles.toUpperCase()})`,
    style: 'jack',
    face: {
      of: 'pin',
      outline: { shape: 'jack', dMm, lengthMm, rings: [...PIN_NAMES[id]] },
      pins: along(PIN_NAMES[id], lengthMm),
    },
    contacts: [wire],
    lock: 'friction',
    clamp: true,
    ip: 'IP20',
    ipOpen: 'IP20',
    bore: size === '6.35' ? '7 mm' : '5 mm',
    ways: 'audio',
    source:
      'IEC 60603-11; contacts named tip, ring, sleeve from the tip back (common practice). Cable opening from memory.',
  }
}

/** Concentric plugs and sockets. A two-pole plug in a three-pole socket shorts ring to sleeve, so sizes do not mate across. */
export const jackFamilies = (): ConnectorInput[] => [
  jack('jack-6.35-trs', '6.35', 'trs'),
  jack('jack-6.35-ts', '6.35', 'ts'),
  jack('jack-3.5-trs', '3.5', 'trs'),
  jack('jack-3.5-ts', '3.5', 'ts'),
  jack('jack-3.5-trrs', '3.5', 'trrs'),
]
