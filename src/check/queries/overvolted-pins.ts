import type { Level } from '../../base/finding.ts'
import { formatVolts } from '../../base/format-quantity.ts'
import type { PinFunction } from '../../describe/function.ts'
import type { Loom, Terminal } from '../../resolve/loom.ts'
import type { Paths } from '../../solve/paths.ts'
import { functionWords } from './pin-words.ts'

/** Something a wrongly mated plug does. */
export interface Harm {
  readonly level: Level
  /** "12.00 V on a microphone pin radio.J1.9". */
  readonly text: string
  readonly pin: string
}

/** A signal pin whose limit is not stated is taken to stand this much: any supply is above it. */
const ANY_SIGNAL_VOLTS = 5.5

interface Bearing {
  readonly volts: number
  readonly level: Level
}

/** What a signal pin bears; undefined for pins that live on a supply or on ground. */
function bears(does: PinFunction): Bearing | undefined {
  const stated = does.limit?.max
  switch (does.kind) {
    case 'audio-in':
    case 'audio-out':
      return { volts: Math.max(stated ?? ANY_SIGNAL_VOLTS, does.bias ?? 0), level: 'stop' }
    case 'data':
      return { volts: stated ?? ANY_SIGNAL_VOLTS, level: 'stop' }
    case 'switch-in':
      return {
        volts: stated ?? Math.max(ANY_SIGNAL_VOLTS, does.rail ?? 0),
        level: stated ? 'stop' : 'warning',
      }
    case 'switch-out':
      return { volts: stated ?? does.maxVolts ?? Number.POSITIVE_INFINITY, level: 'stop' }
    default:
      return stated === undefined ? undefined : { volts: stated, level: 'stop' }
  }
}

/** Signal pins that get more than they bear in the tried loom and not in the real one. Both looms have the same addresses. */
export function overvoltedPins(before: Paths, real: Loom, after: Paths, tried: Loom): readonly Harm[] {
  const harms: Harm[] = []
  for (const pin of tried.terminals) {
    if (pin.on !== 'equipment') continue
    const bearing = bears(pin.does)
    const reached = bearing && after.highestVolts(pin)
    if (!reached || reached.volts <= bearing.volts || reached.source === pin) continue
    const original = real.terminalAt.get(pin.address)
    const was = original ? (before.highestVolts(original)?.volts ?? 0) : 0
    if (was >= reached.volts) continue
    harms.push({ level: bearing.level, pin: pin.address, text: harmText(reached.volts, pin) })
  }
  return harms.sort((a, b) => Number(a.level !== 'stop') - Number(b.level !== 'stop'))
}

const harmText = (volts: number, pin: Terminal): string =>
  `${formatVolts(volts)} on ${pin.address}, a ${functionWords(pin.does)}${pin.does.name ? ` (${pin.does.name})` : ''}`
