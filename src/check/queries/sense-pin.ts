import type { Terminal } from '../../resolve/loom.ts'

/** The sense pin that a load says wakes it; undefined where it names none. */
export function sensePinOf(load: Terminal): Terminal | undefined {
  const { does } = load
  if (does.kind !== 'supply-in' || does.awake === undefined) return undefined
  const [connector, ...pin] = does.awake.split('.')
  return load.half?.unit?.halves.find(({ id }) => id === connector)?.pins.get(pin.join('.'))
}
