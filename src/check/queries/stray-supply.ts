import type { PinKind } from '../../describe/function.ts'
import type { Circuit, Loom, Terminal } from '../../resolve/loom.ts'

/**
 * One key for everything that is wrong because a supply has come onto a circuit where it has no business: too many volts,
 * two worlds in one joint, a feed without a fuse. Taking the supply off cures all of it.
 */
export const straySupply = (source: Terminal, { index }: Circuit): string =>
  `stray-supply:${source.address} ${index}`

/** The circuit a terminal is on. */
export const circuitOf = (loom: Loom, { index }: Terminal): Circuit | undefined =>
  loom.circuits[loom.circuitOf[loom.netOf[index] ?? -1] ?? -1]

const SIGNALS: ReadonlySet<PinKind> = new Set(['data', 'audio-in', 'audio-out', 'switch-in', 'switch-out'])
const IDLE: ReadonlySet<PinKind> = new Set(['spare', 'reserved', 'shield'])

/** Whether of all pins a feed reaches some are signals and none can live on it: then the feed itself is the mistake. */
export const onlySignals = (reached: readonly Terminal[]): boolean =>
  reached.some(({ does }) => SIGNALS.has(does.kind)) &&
  reached.every(({ does }) => SIGNALS.has(does.kind) || IDLE.has(does.kind))
