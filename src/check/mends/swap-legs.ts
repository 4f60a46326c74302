import type { Edit, Finding, ValueChange } from '../../base/finding.ts'
import { naturalOrder } from '../../base/natural-order.ts'
import { below } from '../../base/place.ts'
import type { PinFunction } from '../../describe/function.ts'
import type { Conductor, Loom, Terminal } from '../../resolve/loom.ts'
import { landings, matedPins } from '../queries/landings.ts'
import { type Ladder, localSubject, type Mend, pinInFact } from './mend.ts'

interface End {
  readonly wire: Conductor
  readonly side: 'from' | 'to'
  readonly written: string
}

/** The one conductor on a pin of a free half, by the end it has there. */
function endOn(lands: ReturnType<typeof landings>, pin: Terminal): End | undefined {
  const wires = (lands.get(pin) ?? []).filter(({ kind }) => kind !== 'shield')
  const [wire] = wires
  if (!wire || wires.length > 1) return undefined
  const side = wire.from === pin ? 'from' : 'to'
  const written = wire.source[side]
  return written === undefined ? undefined : { wire, side, written }
}

/** The free pin that meets a pin of equipment, where only one does. */
function freePin(loom: Loom, pin: Terminal): Terminal | undefined {
  const free = matedPins(loom, pin).filter(({ half }) => half?.side === 'harness')
  return free.length === 1 ? free[0] : undefined
}

/** Exchanges what lands on two pins of one plug. Both ends of a pair could be turned; it is done at the plug of these pins. */
function swapAt(loom: Loom, one: Terminal | undefined, two: Terminal | undefined): Ladder {
  const pins = [one, two].map((pin) => pin && freePin(loom, pin))
  const [first, second] = pins
  if (!first?.half || !second || first.half !== second.half || first === second) return []
  const lands = landings(loom)
  const [a, b] = [endOn(lands, first), endOn(lands, second)]
  if (!a || !b || a.wire === b.wire) return []
  const ids = [a.wire.id, b.wire.id].sort(naturalOrder)
  const put = (end: End, written: string): ValueChange => ({
    at: below(end.wire.at, end.side),
    value: written,
  })
  const edit: Edit = {
    what: `${ids.join(' and ')} change places at ${first.half.id}`,
    changes: [put(a, b.written), put(b, a.written)],
  }
  return [edit]
}

const others = (pin: Terminal): readonly Terminal[] =>
  [...(pin.half?.pins.values() ?? [])].filter((other) => other !== pin)

/** The only pin of the same connector of which something holds. */
function onlyOther(pin: Terminal, test: (does: PinFunction) => boolean): Terminal | undefined {
  const found = others(pin).filter(({ does }) => test(does))
  return found.length === 1 ? found[0] : undefined
}

/** The other leg of an audio port or of a balanced data line. */
function otherLeg(pin: Terminal): Terminal | undefined {
  const { does } = pin
  if (does.kind === 'audio-in' || does.kind === 'audio-out')
    return onlyOther(pin, (other) => other.kind === does.kind && other.port === does.port)
  if (does.kind === 'data')
    return onlyOther(
      pin,
      (other) => other.kind === 'data' && other.standard === does.standard && other.port === does.port,
    )
  return undefined
}

/** What a serial line crosses with: transmit with receive, and each handshake with its own. */
const CROSSES: Readonly<Record<string, string>> = { RXD: 'TXD', CTS: 'RTS', DSR: 'DTR' }

function crossed(pin: Terminal): Terminal | undefined {
  const { does } = pin
  const line = does.kind === 'data' ? CROSSES[does.line] : undefined
  return line === undefined
    ? undefined
    : onlyOther(pin, (other) => other.kind === 'data' && other.standard === 'tia-232' && other.line === line)
}

function proposals(finding: Finding, loom: Loom): readonly Ladder[] {
  if (finding.rule === 'speakers-in-phase') {
    // Several turned ones are several plugs; the finding goes only with all of them.
    const pins = finding.marks.map((address) => loom.terminalAt.get(address))
    return pins.length === 2 ? [swapAt(loom, pins[0], pins[1])] : []
  }
  if (finding.rule === 'serial-directions') {
    const pin = loom.terminalAt.get(localSubject(finding, loom))
    return pin ? [swapAt(loom, pin, crossed(pin))] : []
  }
  const names = finding.rule === 'hot-cold-identity' ? ['input', 'output'] : ['two', 'one']
  return names.flatMap((fact) => {
    const pin = pinInFact(finding, fact, loom)
    return pin ? [swapAt(loom, pin, otherLeg(pin))] : []
  })
}

export const swapLegs: Mend = {
  id: 'swap-legs',
  rules: ['hot-cold-identity', 'data-legs-swapped', 'speakers-in-phase', 'serial-directions'],
  propose: (finding, { loom }) => proposals(finding, loom),
}
