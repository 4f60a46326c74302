import { formatAmps } from '../base/format-quantity.ts'
import { type FunctionOf, operatingStates, type PinFunction } from '../describe/function.ts'
import type { State, Terminal } from '../resolve/loom.ts'

/** What a pin draws in a state: a current, a power, or an unknown with what is needed to tell. */
export type LoadFigure =
  | { readonly kind: 'amps'; readonly amps: number; readonly why: string }
  | { readonly kind: 'watts'; readonly watts: number; readonly why: string }
  | { readonly kind: 'unknown'; readonly needs: string }

/** Where a figure was found: under which state's name; undefined for one figure that holds in every state. */
interface Found {
  readonly value: number
  readonly state?: string
}

/**
 * The figure for a state. A load that states one figure draws it in every state in which it is fed. Where a state has no
 * figure, the nearest earlier one of off, standby, receive, transmit is taken, else the nearest later one; a state of the job's
 * own falls back to standby. A set woken by a sense pin draws its "off" current, or nothing, while that pin is dead,
 * and its standby current in "off" while that pin is live.
 * @param awake whether its sense pin is live; undefined for a load without one
 */
export function loadFigure(
  terminal: Terminal,
  state: State,
  awake: boolean | undefined,
): LoadFigure | undefined {
  const { does } = terminal
  if (does.kind === 'sense')
    return does.amps === undefined ? undefined : { kind: 'amps', amps: does.amps, why: 'sense input' }
  if (does.kind !== 'supply-in') return undefined
  if (awake === false) return asleep(does)
  const wanted = awake && state.load === 'off' ? 'standby' : state.load
  const sense = does.awake === undefined ? '' : `, awake since ${does.awake} is live`
  const amps = pick(does.amps, wanted)
  if (amps) return { kind: 'amps', amps: amps.value, why: words(amps, wanted) + sense }
  const watts = pick(does.watts, wanted)
  if (watts) return { kind: 'watts', watts: watts.value, why: words(watts, wanted) + sense }
  return { kind: 'unknown', needs: `the current ${terminal.address} draws in ${state.id}` }
}

function asleep(does: FunctionOf<'supply-in'>): LoadFigure {
  const amps = typeof does.amps === 'object' ? (does.amps.off ?? 0) : 0
  return { kind: 'amps', amps, why: `off, since ${does.awake} is dead: ${formatAmps(amps)}` }
}

function words(found: Found, wanted: string): string {
  if (found.state === undefined) return 'one figure for every state'
  return found.state === wanted ? found.state : `no figure for ${wanted}, ${found.state} taken`
}

function pick(stated: number | Record<string, number> | undefined, wanted: string): Found | undefined {
  if (stated === undefined) return undefined
  if (typeof stated === 'number') return { value: stated }
  for (const state of fallbacks(wanted)) {
    const value = Object.hasOwn(stated, state) ? stated[state] : undefined
    if (value !== undefined) return { value, state }
  }
  return undefined
}

function fallbacks(wanted: string): string[] {
  const all: readonly string[] = operatingStates
  const at = all.indexOf(wanted)
  if (at < 0) return [wanted, ...fallbacks('standby')]
  return [wanted, ...all.slice(0, at).reverse(), ...all.slice(at + 1)]
}

/** The largest current a pin states for any state. */
export function largestAmps(does: PinFunction): number | undefined {
  if (does.kind !== 'supply-in' || does.amps === undefined) return undefined
  if (typeof does.amps === 'number') return does.amps
  const all = Object.values(does.amps)
  return all.length > 0 ? Math.max(...all) : undefined
}
