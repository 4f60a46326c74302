import type { PinFunction } from '../../describe/function.ts'
import type { Half, Terminal } from '../../resolve/loom.ts'

/** The two legs of a balanced or differential port on one half. */
export interface TwoLegs {
  readonly half: Half
  /** "RX", "CAN", "TX": what the port is called. */
  readonly name: string
  readonly hot: Terminal
  readonly cold: Terminal
}

/** Names of the two legs in the standards that are differential: what is left of the name tells one pair from another. */
const LEGS: readonly (readonly [RegExp, 'hot' | 'cold'])[] = [
  [/^(.*?)[ _]?(?:H|HIGH)$/i, 'hot'],
  [/^(.*?)[ _]?(?:L|LOW)$/i, 'cold'],
  [/^(.*?)[ _]?\+$/, 'hot'],
  [/^(.*?)[ _]?[-−–]$/, 'cold'],
  [/^(.*?)[ _]?(?:A|P)$/i, 'hot'],
  [/^(.*?)[ _]?(?:B|N|M)$/i, 'cold'],
]

const DIFFERENTIAL: ReadonlySet<string> = new Set([
  'tia-485',
  'tia-422',
  'can',
  'usb-2.0',
  'ethernet',
  'iec-61162-1',
  'audio-aes3',
])

interface Leg {
  readonly port: string
  readonly side: 'hot' | 'cold'
}

function audioLeg(does: PinFunction): Leg | undefined {
  if ((does.kind !== 'audio-out' && does.kind !== 'audio-in') || does.level === 'speaker') return undefined
  if (does.leg !== 'hot' && does.leg !== 'cold') return undefined
  return { port: does.port ?? `${does.kind} ${does.level}`, side: does.leg }
}

function dataLeg(does: PinFunction): Leg | undefined {
  if (does.kind !== 'data' || !DIFFERENTIAL.has(does.standard)) return undefined
  for (const [pattern, side] of LEGS) {
    const stem = pattern.exec(does.line.trim())?.[1]
    if (stem === undefined) continue
    const pair = stem.replace(/[ _]+$/, '')
    return { port: [does.port ?? does.standard, pair].filter((part) => part !== '').join(' '), side }
  }
  return undefined
}

/** Ports of the half whose two legs are one signal: balanced audio below loudspeaker level, and differential data lines. */
export function twoLegs(half: Half): readonly TwoLegs[] {
  const ports = new Map<string, { hot: Terminal[]; cold: Terminal[] }>()
  for (const pin of half.pins.values()) {
    const leg = audioLeg(pin.does) ?? dataLeg(pin.does)
    if (!leg) continue
    const legs = ports.get(leg.port) ?? { hot: [], cold: [] }
    legs[leg.side].push(pin)
    ports.set(leg.port, legs)
  }
  return [...ports].flatMap(([name, { hot, cold }]) => {
    const [one, two] = [hot[0], cold[0]]
    return hot.length === 1 && cold.length === 1 && one && two ? [{ half, name, hot: one, cold: two }] : []
  })
}
