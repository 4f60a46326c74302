import type { Terminal } from '../resolve/loom.ts'

/** The sense pin that a load says wakes it; undefined where it names none, or one that is not there. */
export function sensePin(load: Terminal): Terminal | undefined {
  const { does } = load
  if (does.kind !== 'supply-in' || does.awake === undefined) return undefined
  const dot = does.awake.indexOf('.')
  const connector = does.awake.slice(0, dot < 0 ? undefined : dot)
  const pins = load.half?.unit?.halves.find(({ id }) => id === connector)?.pins
  return dot < 0 ? pins?.values().next().value : pins?.get(does.awake.slice(dot + 1))
}
