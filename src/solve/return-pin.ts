import type { Terminal } from '../resolve/loom.ts'

/**
 * The pin through which the current of a supply pin, a load or an output comes back: the `return` or `chassis` pin of its
 * unit with the same port, else the unit's only one. Undefined when the unit has none, or several without a port to tell.
 */
export function returnPin(terminal: Terminal): Terminal | undefined {
  const unit = terminal.half?.unit
  if (!unit) return undefined
  const { port } = terminal.does
  const returns: Terminal[] = []
  const frames: Terminal[] = []
  for (const half of unit.halves)
    for (const pin of half.pins.values()) {
      if (pin === terminal) continue
      if (pin.does.kind === 'return') returns.push(pin)
      else if (pin.does.kind === 'chassis') frames.push(pin)
    }
  if (port !== undefined) {
    const same = [...returns, ...frames].find((pin) => pin.does.port === port)
    if (same) return same
  }
  return onlyOne(returns, terminal) ?? (returns.length === 0 ? frames[0] : undefined)
}

/** With several returns and no port, the one in the same connector is meant if there is only one there. */
function onlyOne(returns: readonly Terminal[], terminal: Terminal): Terminal | undefined {
  const unclaimed = returns.filter(
    (pin) => pin.does.port === undefined || pin.does.port === terminal.does.port,
  )
  const pool = unclaimed.length > 0 ? unclaimed : returns
  if (pool.length <= 1) return pool[0]
  const near = pool.filter((pin) => pin.half === terminal.half)
  return near.length === 1 ? near[0] : near.length === 0 ? undefined : near[0]
}
