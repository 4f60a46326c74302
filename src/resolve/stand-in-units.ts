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
  const plugs = b.halves.filter((half) => half.fits !== undefined)
  for (const plug of plugs) {
    const [type = '', connector = '', ...rest] = (plug.fits ?? '').split('.')
    const described = equipment.get(type)
    if (!described?.value.connectors.some((entry) => entry.id === connector)) continue
    const home = freeHalf(b, type, connector) ?? madeHalf(b, type, connector, equipment)
    const pin = rest.join('.')
    if (home)
      mateHalves(b, { half: plug }, { half: home, ...(pin !== '' && home.pins.has(pin) ? { pin } : {}) })
  }
}

function freeHalf(b: GraphBuilder, type: string, connector: string): DraftHalf | undefined {
  return b.halves.find(
    (half) => half.unit?.equipment.id === type && half.id === connector && isFree({ half }),
  )
}

function madeHalf(
  b: GraphBuilder,
  type: string,
  connector: string,
  equipment: EquipmentIndex,
): DraftHalf | undefined {
  const described = equipment.get(type)
  if (!described) return undefined
  const unit: Unit = resolveUnit(b, described.value, described.at, {
    id: freeName(b, type),
    standIn: true,
    at: described.at,
  })
  return b.halfAt.get(`${unit.id}.${connector}`)
}

function freeName(b: GraphBuilder, type: string): string {
  const taken = new Set([...b.units, ...b.looms].map((entry) => entry.id))
  let name = type
  for (let count = 2; taken.has(name); count++) name = `${type}-${count}`
  return name
}
