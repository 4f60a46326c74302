import type { Half, Loom } from '../resolve/loom.ts'
import { anchor } from './anchor.ts'

/** The page a thing is on, and the spot. */
export interface Anchored {
  readonly page: { readonly kind: 'harness' | 'equipment'; readonly id: string }
  readonly anchor?: string
}

/** Where each address of a loom is shown: wires and free halves on the harness page, fixed halves on the equipment page. */
export function placesIn(loom: Loom): ReadonlyMap<string, Anchored> {
  const all = new Map<string, Anchored>()
  for (const unit of loom.units) all.set(unit.id, { page: { kind: 'equipment', id: unit.equipment.id } })
  for (const use of loom.looms) {
    const page = { kind: 'harness', id: use.harness.id } as const
    all.set(use.id, { page })
    for (const cable of use.cables) all.set(cable.address, { page, anchor: anchor('cable', cable.id) })
  }
  for (const terminal of loom.terminals) {
    if (terminal.on === 'splice') {
      const use = loom.looms.find((one) => terminal.address.startsWith(`${one.id}.`))
      if (use)
        all.set(terminal.address, {
          page: { kind: 'harness', id: use.harness.id },
          anchor: anchor('splice', terminal.name),
        })
    }
  }
  for (const component of loom.components) {
    const page = component.loom
      ? ({ kind: 'harness', id: component.loom.harness.id } as const)
      : component.unit && ({ kind: 'equipment', id: component.unit.equipment.id } as const)
    if (!page) continue
    const spot = { page, anchor: anchor('part', component.id) }
    all.set(component.address, spot)
    for (const terminal of component.terminals.values()) all.set(terminal.address, spot)
  }
  for (const half of loom.halves) addHalf(all, half)
  for (const conductor of loom.conductors) {
    all.set(conductor.address, {
      page: { kind: 'harness', id: conductor.loom.harness.id },
      anchor: anchor('wire', conductor.id),
    })
  }
  return all
}

function addHalf(all: Map<string, Anchored>, half: Half): void {
  const page = half.loom
    ? ({ kind: 'harness', id: half.loom.harness.id } as const)
    : half.unit && ({ kind: 'equipment', id: half.unit.equipment.id } as const)
  if (!page) return
  all.set(half.address, { page, anchor: anchor('connector', half.id) })
  for (const pin of half.pins.values())
    all.set(pin.address, { page, anchor: anchor('pin', `${half.id}.${pin.name}`) })
}
