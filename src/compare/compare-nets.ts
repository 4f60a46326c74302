import { naturalOrder } from '../base/natural-order.ts'
import type { Loom, Net, Terminal } from '../resolve/loom.ts'
import type { NetChange } from './changes.ts'
import type { JobMatch } from './match-job.ts'

/** The end a person at the bench can put a probe on speaks for a net. */
const RANK: Readonly<Record<Terminal['on'], number>> = { harness: 0, splice: 1, component: 2, equipment: 3 }
const speaksBefore = (a: Terminal, b: Terminal): boolean =>
  RANK[a.on] !== RANK[b.on] ? RANK[a.on] < RANK[b.on] : naturalOrder(a.address, b.address) < 0

/** Terminals of a net by the net of the other revision they are on, as far as that one still carries a conductor. */
function partsOf(net: Net, other: Loom, addressThere: (terminal: Terminal) => string): Map<Net, string> {
  const parts = new Map<Net, Terminal>()
  for (const terminal of net.terminals) {
    const there = other.terminalAt.get(addressThere(terminal))
    const found = there && other.nets[other.netOf[there.index] ?? -1]
    // A pin that a wire was taken off has no circuit any more; the move itself tells of it.
    if (!found || found.conductors.length === 0) continue
    const known = parts.get(found)
    if (known === undefined || speaksBefore(terminal, known)) parts.set(found, terminal)
  }
  return new Map([...parts].map(([found, { address }]) => [found, address]))
}

const order = (a: NetChange, b: NetChange): number => naturalOrder(a.parts.join(' '), b.parts.join(' '))

/** Nets of one job that came apart or came together, judged by the terminals both revisions have. */
export function compareNets(before: Loom, after: Loom, match: JobMatch): NetChange[] {
  const changes: NetChange[] = []
  const oldAddress = new Map<string, string>()
  for (const { address } of before.terminals) oldAddress.set(match.address(address), address)
  for (const net of before.nets) {
    if (net.conductors.length === 0) continue
    const parts = partsOf(net, after, ({ address }) => match.address(address))
    if (parts.size < 2) continue
    const ends = [...parts].sort(([, a], [, b]) => naturalOrder(a, b))
    changes.push({
      change: 'split',
      job: after.id,
      before: [net.name],
      after: ends.map(([{ name }]) => name),
      parts: ends.map(([, end]) => match.address(end)),
    })
  }
  for (const net of after.nets) {
    if (net.conductors.length === 0) continue
    const parts = partsOf(net, before, ({ address }) => oldAddress.get(address) ?? '')
    if (parts.size < 2) continue
    const ends = [...parts].sort(([, a], [, b]) => naturalOrder(a, b))
    changes.push({
      change: 'merged',
      job: after.id,
      before: ends.map(([{ name }]) => name),
      after: [net.name],
      parts: ends.map(([, end]) => end),
    })
  }
  return changes.sort((a, b) => (a.change === b.change ? order(a, b) : a.change === 'split' ? -1 : 1))
}
