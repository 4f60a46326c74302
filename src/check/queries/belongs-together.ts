import type { PinFunction } from '../../describe/function.ts'
import type { Terminal } from '../../resolve/loom.ts'

type World = 'plus' | 'zero' | 'audio' | 'data' | 'switch' | 'rf'

const WORLD: Partial<Record<PinFunction['kind'], World>> = {
  'supply-out': 'plus',
  'supply-in': 'plus',
  sense: 'plus',
  return: 'zero',
  chassis: 'zero',
  'signal-return': 'zero',
  shield: 'zero',
  'audio-out': 'audio',
  'audio-in': 'audio',
  data: 'data',
  'switch-in': 'switch',
  'switch-out': 'switch',
  rf: 'rf',
}

/** Pairs of worlds whose meeting in one contact is never meant. Switching meets plus or zero in honest circuits, so it is not here. */
const NEVER: ReadonlySet<string> = new Set([
  'plus zero',
  'audio plus',
  'data plus',
  'audio data',
  'audio switch',
  'data rf',
  'data zero',
])

/** A live leg on zero volts is a fault; the cold leg of an unbalanced join may lie there. */
const liveLeg = (does: PinFunction): boolean =>
  (does.kind === 'audio-out' || does.kind === 'audio-in') && (does.leg !== 'cold' || sharedBridge(does))

const sharedBridge = (does: PinFunction): boolean => does.kind === 'audio-out' && does.bridged === true

function worldsClash(a: PinFunction, b: PinFunction): boolean {
  const worlds = [WORLD[a.kind], WORLD[b.kind]]
  if (worlds[0] === undefined || worlds[1] === undefined) return false
  const pair = worlds.sort().join(' ')
  if (pair === 'audio zero') return liveLeg(a) || liveLeg(b)
  return NEVER.has(pair)
}

/** Two signal pins of one unit that are not the same signal: another port, another leg, another line. */
function twoSignalsOfOneUnit(a: Terminal, b: Terminal): boolean {
  if (!a.half?.unit || a.half.unit !== b.half?.unit) return false
  const [one, two] = [a.does, b.does]
  if (one.kind === 'data' && two.kind === 'data') return one.line !== two.line
  const audio = (does: PinFunction) => does.kind === 'audio-out' || does.kind === 'audio-in'
  if (!audio(one) || !audio(two)) return false
  const ports = one.port !== undefined && two.port !== undefined && one.port !== two.port
  const legs = 'leg' in one && 'leg' in two && one.leg !== undefined && two.leg !== undefined
  return ports || (legs && one.port === two.port && one.leg !== two.leg)
}

/**
 * Whether any two of many pins may clash: quick to say no for the thousand returns that meet in one ring. What it says yes to is looked at pair by
 * pair.
 */
export function mayClash(pins: Iterable<Terminal>): boolean {
  const kinds = new Set<PinFunction>()
  const units = new Map<unknown, PinFunction>()
  for (const { does, half } of pins) {
    const unit = half?.unit
    const signal = does.kind === 'data' || does.kind === 'audio-out' || does.kind === 'audio-in'
    if (unit && signal) {
      if (units.has(unit)) return true
      units.set(unit, does)
    }
    kinds.add(does)
  }
  // Two pins of one kind may clash by what else is said of them.
  const all = [...kinds]
  if (all.length > MOST_KINDS) return true
  return all.some((one, index) => all.slice(index).some((two) => worldsClash(one, two)))
}

/** More functions than this are no more alike than the pins are. */
const MOST_KINDS = 64

/** Whether two pins can never be meant to be one net. Pins whose function is not stated clash with nothing. */
export const clash = (a: Terminal, b: Terminal): boolean =>
  a !== b && (worldsClash(a.does, b.does) || twoSignalsOfOneUnit(a, b))
