import type { GraphBuilder } from './graph-builder.ts'
import type { Terminal, Unit } from './loom.ts'

/** Coils and volt-free contacts of equipment are described pin by pin; pins of one port make one coil or one contact. */
export function linkPorts(b: GraphBuilder): void {
  for (const unit of b.units) {
    const ports = portsOf(unit)
    for (const pins of ports.values()) {
      linkCoil(b, pins)
      linkContacts(b, pins)
    }
  }
}

function portsOf(unit: Unit): Map<string, Terminal[]> {
  const ports = new Map<string, Terminal[]>()
  for (const half of unit.halves)
    for (const pin of half.pins.values()) {
      const { port } = pin.does
      if (port === undefined) continue
      const list = ports.get(port)
      if (list) list.push(pin)
      else ports.set(port, [pin])
    }
  return ports
}

/** Two coil ends of one port, or one coil end and the return of its port. The plus end comes first. */
function linkCoil(b: GraphBuilder, pins: readonly Terminal[]): void {
  const ends = pins.filter((pin) => pin.does.kind === 'coil')
  const back = pins.find((pin) => pin.does.kind === 'return' || pin.does.kind === 'chassis')
  const [first, second = back] = ends
  if (!first || !second) return
  const minusFirst = first.does.kind === 'coil' && first.does.side === 'minus'
  const ohms = [first, second].map((pin) => (pin.does.kind === 'coil' ? pin.does.ohms : undefined))
  const known = ohms[0] ?? ohms[1]
  b.link({
    kind: 'coil',
    a: minusFirst ? second : first,
    b: minusFirst ? first : second,
    ...(known === undefined ? {} : { ohms: known }),
  })
}

/** Two pins make one contact; of three the one without a rest position is the common of a changeover. */
function linkContacts(b: GraphBuilder, pins: readonly Terminal[]): void {
  const sides = pins.filter((pin) => pin.does.kind === 'contact')
  const commons = sides.filter((pin) => pin.does.kind === 'contact' && pin.does.rest === undefined)
  const common = sides.length > 2 && commons.length === 1 ? commons[0] : sides[0]
  if (!common) return
  for (const pin of sides) if (pin !== common) b.link({ kind: 'switch', a: common, b: pin })
}
