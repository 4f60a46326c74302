import type { EquipmentIndex } from './fits.ts'
import type { DraftHalf, GraphBuilder } from './graph-builder.ts'
import type { Unit } from './loom.ts'
import { isFree, mateHalves } from './mate-halves.ts'
import { resolveUnit } from './resolve-unit.ts'

/**
 * Makes up the equipment a lone harness is built for, so that it can be checked and drawn with what it plugs into:
 * one unit of each type, and a further one where a second plug fits a connector that is taken.
 */
export function standInUnits(b: GraphBuilder, equipment: EquipmentIndex): void {
  const free = new Map<string, DraftHalf[]>()
  const names = new NameMaker([...b.units, ...b.looms].map((entry) => entry.id))
  for (const plug of b.halves.filter((half) => half.fits !== undefined)) {
    const [type = '', connector = '', ...rest] = (plug.fits ?? '').split('.')
    const described = equipment.get(type)
    if (!described?.value.connectors.some((entry) => entry.id === connector)) continue
    const key = `${type}.${connector}`
    if (!free.get(key)?.length) {
      const place = { id: names.next(type), standIn: true, at: described.at }
      offer(free, resolveUnit(b, described.value, described.at, place))
    }
    const list = free.get(key) ?? []
    const home = list[0]
    const pin = rest.join('.')
    if (!home) continue
    mateHalves(b, { half: plug }, { half: home, ...(pin !== '' && home.pins.has(pin) ? { pin } : {}) })
    if (!isFree({ half: home })) list.shift()
  }
}

/** Puts the connectors of a new unit up for mating. */
function offer(free: Map<string, DraftHalf[]>, unit: Unit): void {
  for (const half of unit.halves as readonly DraftHalf[]) {
    const key = `${unit.equipment.id}.${half.id}`
    const list = free.get(key)
    if (list) list.push(half)
    else free.set(key, [half])
  }
}

/** Names for units of one type: the type's own, then with a number. */
class NameMaker {
  private readonly taken: Set<string>
  private readonly counts = new Map<string, number>()

  constructor(taken: Iterable<string>) {
    this.taken = new Set(taken)
  }

  next(type: string): string {
    let count = this.counts.get(type) ?? 1
    let name = count === 1 ? type : `${type}-${count}`
    while (this.taken.has(name)) name = `${type}-${++count}`
    this.counts.set(type, count)
    this.taken.add(name)
    return name
  }
}
