import type { PinKind } from '../describe/function.ts'
import type { Conductor, Terminal } from './loom.ts'

/** Which pin's signal name a net takes when several have one: what feeds it, then what it is the common of, then what drives it. */
const strength: Readonly<Record<PinKind, number>> = {
  'supply-out': 0,
  chassis: 1,
  return: 2,
  'supply-in': 3,
  'audio-out': 4,
  rf: 5,
  data: 6,
  'switch-out': 7,
  'switch-in': 8,
  sense: 9,
  'audio-in': 10,
  'signal-return': 11,
  contact: 12,
  coil: 13,
  shield: 14,
  unstated: 15,
  reserved: 16,
  spare: 17,
}

/** One name a net, no two alike: the given one, else the strongest pin's signal name, else the first address. */
export function nameNets(
  members: readonly (readonly Terminal[])[],
  wires: readonly (readonly Conductor[])[],
): string[] {
  const raw = members.map((terminals, index) => rawName(terminals, wires[index] ?? []))
  const count = new Map<string, number>()
  for (const { name } of raw) count.set(name, (count.get(name) ?? 0) + 1)
  const taken = new Set<string>()
  return raw.map(({ name, address }) => {
    const plain = (count.get(name) ?? 0) === 1 || name === address ? name : `${name} ${address}`
    let unique = plain
    for (let copy = 2; taken.has(unique); copy++) unique = `${plain} (${copy})`
    taken.add(unique)
    return unique
  })
}

function rawName(
  terminals: readonly Terminal[],
  wires: readonly Conductor[],
): { name: string; address: string } {
  const address = terminals[0]?.address ?? ''
  for (const wire of wires)
    if ('net' in wire.source && wire.source.net) return { name: wire.source.net, address }
  let best: Terminal | undefined
  for (const terminal of terminals)
    if (terminal.does.name && (!best || rank(terminal) < rank(best))) best = terminal
  return best ? { name: best.does.name ?? address, address: best.address } : { name: address, address }
}

/** Equipment says itself what its pin is called; a loom pin only repeats what it was made for. */
function rank(terminal: Terminal): number {
  return strength[terminal.does.kind] + (terminal.on === 'equipment' ? 0 : 100)
}
