import { parseQuantity } from '../../base/quantity.ts'
import type { Conductor } from '../../resolve/loom.ts'

/** Diameter over the insulation of a wire or of a cable's core in mm, from its part; undefined where the part does not say. */
export function outsideMm(wire: Conductor): number | undefined {
  if (wire.cable) return wire.cable.part?.coreOd
  const part = wire.wirePart
  if (!part) return undefined
  if (part.od !== undefined) return part.od
  const label = wire.size?.label
  const text = label !== undefined && part.ods && Object.hasOwn(part.ods, label) ? part.ods[label] : undefined
  const read = text === undefined ? undefined : parseQuantity(text, 'length')
  return read?.ok ? read.value : undefined
}
