import type { Terminal } from '../resolve/loom.ts'
import type { Facts } from './facts.ts'
import { type Lookup, lookUp } from './lookup.ts'

/** The terminal a citation means: a pin by its address, or the only pin of a one-pin connector by the connector's. */
export function findPin(facts: Facts, name: string): Lookup<Terminal> {
  const { loom } = facts
  const single = [...loom.halfAt].flatMap(([address, half]) => {
    const pins = [...half.pins.values()].filter((pin) => pin.name !== 'shell')
    return pins.length === 1 && pins[0] && !loom.terminalAt.has(address) ? [[address, pins[0]] as const] : []
  })
  return lookUp(facts, new Map([...loom.terminalAt, ...single]), 'pin', name)
}
