import type { Loom } from '../resolve/loom.ts'
import type { Hazard } from './cautions.ts'

/** From this supply voltage on, equipment for 12 V is at risk. */
const HIGH_SUPPLY_VOLTS = 20
/** Extra-low voltage ends here (IEC 61140). */
const ELV_VOLTS = 50

/** The hazards a job touches, from what its equipment says, what its pins do and where it is. */
export function hazardsOf(loom: Loom): ReadonlySet<Hazard> {
  const hazards = new Set<Hazard>(loom.units.flatMap((unit) => unit.equipment.cautions ?? []))
  const does = loom.terminals.map((terminal) => terminal.does)
  const roles = new Set(loom.units.map((unit) => unit.equipment.role))
  const add = (hazard: Hazard, when: boolean) => {
    if (when) hazards.add(hazard)
  }
  add(
    'battery',
    roles.has('battery') || does.some((one) => one.kind === 'supply-out' && one.battery === true),
  )
  add(
    'rf',
    does.some((one) => one.kind === 'rf'),
  )
  add(
    'hearing',
    does.some((one) => 'level' in one && (one.level === 'headphone' || one.level === 'speaker')),
  )
  add('24-volt', (loom.supplyVolts ?? 0) >= HIGH_SUPPLY_VOLTS && loom.setting === 'vehicle')
  add(
    'mains',
    does.some((one) => one.kind === 'supply-out' && (one.volts?.max ?? 0) > ELV_VOLTS),
  )
  add('airbag', loom.setting === 'vehicle')
  add('road', loom.setting === 'vehicle')
  add('boat', loom.setting === 'boat')
  add('drilling', loom.setting === 'vehicle' || loom.setting === 'boat')
  add('heights', roles.has('antenna'))
  return hazards
}
