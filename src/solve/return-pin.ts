import type { Terminal } from '../resolve/loom.ts'

/**
 * The pin through which the current of a supply pin, a load or an output comes back: the `return` or `chassis` pin of its
 * unit with the same port; else the unit's only return, the only one in the same connector, or that of its supply input.
 * Undefined when the unit has none, or several with nothing to tell them apart.
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
  return onlyOne(returns, terminal) ?? mainReturn(returns) ?? (returns.length === 0 ? frames[0] : undefined)
}

/** With several returns and no port, the one in the same connector is meant if there is only one there. */
function onlyOne(returns: readonly Terminal[], terminal: Terminal): Terminal | undefined {
  const free = returns.filter((pin) => pin.does.port === undefined)
  const pool = free.length > 0 ? free : returns
  if (pool.length <= 1) return pool[0]
  const near = pool.filter((pin) => pin.half === terminal.half)
  return near.length === 1 ? near[0] : undefined
}

/** The return of what feeds the unit: outputs without a port of their own come back through it. */
function mainReturn(returns: readonly Terminal[]): Terminal | undefined {
  const unit = returns[0]?.half?.unit
  const ports = new Set<string>()
  for (const half of unit?.halves ?? [])
    for (const pin of half.pins.values())
      if (pin.does.kind === 'supply-in' && pin.does.port !== undefined) ports.add(pin.does.port)
  const main = returns.filter((pin) => pin.does.port !== undefined && ports.has(pin.does.port))
  return main.length === 1 ? main[0] : undefined
}
