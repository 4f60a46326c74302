import type { FunctionOf } from '../../describe/function.ts'
import type { Half, Terminal } from '../../resolve/loom.ts'
import { type Tree, throughMetal } from '../../solve/reach.ts'
import type { RuleContext } from '../rule.ts'

export type KeyInput = Terminal & { readonly does: FunctionOf<'switch-in'> }

/** What a key or alarm input does once a plug on its line is off. */
export interface UnpluggedKey {
  readonly pin: KeyInput
  readonly half: Half
  /** Level that what is left holds it at; undefined where it floats. */
  readonly level: 'low' | 'high' | undefined
  readonly effect: 'on' | 'floats' | 'off'
}

/** An input that puts a transmitter on air or sounds an alarm. */
export const isKey = (pin: Terminal): pin is KeyInput =>
  pin.on === 'equipment' &&
  pin.does.kind === 'switch-in' &&
  (pin.does.purpose === 'key' || pin.does.purpose === 'alarm')

/** Halves of looms that a pin is wired through: each of them can come off. */
function halvesOn({ paths }: RuleContext, pin: Terminal): readonly Half[] {
  const halves = new Set<Half>()
  for (const { half } of paths.from(pin, throughMetal).order)
    if (half?.side === 'harness' && half.mates.length > 0) halves.add(half)
  return [...halves]
}

/** The level that what is still joined to the pin gives it; undefined where nothing does. */
function levelOf(left: Tree): 'low' | 'high' | undefined {
  const pins = left.order.filter(({ on }) => on === 'equipment')
  if (
    pins.some(
      ({ does }) => does.kind === 'chassis' || does.kind === 'return' || does.kind === 'signal-return',
    )
  )
    return 'low'
  if (pins.some(({ does }) => does.kind === 'supply-out')) return 'high'
  const pulls = pins.flatMap(({ does }) => (does.kind === 'switch-in' && does.pull ? [does.pull] : []))
  if (pulls.includes('up')) return 'high'
  if (pulls.includes('down')) return 'low'
  return undefined
}

/** One plug after another off the line of a key; nothing where active level or pull are not stated. */
export function unplugKey(context: RuleContext, pin: KeyInput): UnpluggedKey[] {
  const { active, pull } = pin.does
  if (active === undefined || pull === undefined) return []
  return halvesOn(context, pin).map((half) => {
    const level = levelOf(context.paths.unplugged(pin, half, throughMetal))
    return { pin, half, level, effect: level === undefined ? 'floats' : level === active ? 'on' : 'off' }
  })
}
