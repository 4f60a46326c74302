import type { GraphBuilder } from './graph-builder.ts'
import type { ComponentUse, Link, Terminal } from './loom.ts'

/** The links a component makes between its own terminals. A relay's rest contact exists if it is said to, or used. */
export function linkComponents(b: GraphBuilder): void {
  const used = new Set<Terminal>()
  for (const link of b.links) {
    used.add(link.a)
    used.add(link.b)
  }
  for (const component of b.components) linkComponent(b, component, used)
}

function linkComponent(b: GraphBuilder, component: ComponentUse, used: ReadonlySet<Terminal>): void {
  const join = (kind: Link['kind'], from: string, to: string, ohms?: number): void => {
    const a = component.terminals.get(from)
    const z = component.terminals.get(to)
    if (a && z) b.link({ kind, a, b: z, component, ...(ohms === undefined ? {} : { ohms }) })
  }
  const { source } = component
  switch (source.kind) {
    case 'fuse':
      join('fuse', 'in', 'out')
      return
    case 'switch':
      join('switch', '1', '2', source.resistance)
      return
    case 'relay': {
      join('coil', '86', '85', source.coil)
      join('relay-contact', '30', '87')
      const rest = component.terminals.get('87a')
      if (source.changeover || (rest && used.has(rest))) join('relay-contact', '30', '87a')
      return
    }
    case 'diode':
      join('diode', 'a', 'k')
      return
    case 'resistor':
      join('resistor', '1', '2', source.ohms)
      return
    case 'capacitor':
      join('capacitor', '1', '2')
      return
    case 'coil':
      join('coil', '1', '2', source.ohms)
      return
    case 'transformer':
      join('winding', 'p1', 'p2')
      join('winding', 's1', 's2')
      return
    case 'link':
      join('bond', '1', '2', source.resistance)
  }
}
