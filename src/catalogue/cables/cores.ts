import type { Colour } from '../../base/colour.ts'
import type { CablePartInput } from '../part-kinds.ts'

export type CoreInput = CablePartInput['cores'][number]
export type CoreSize = CoreInput['size']
export type ShieldInput = NonNullable<CablePartInput['shields']>[number]

/** Cores of one size; colours go by position, and a core past the end of the list has none. */
export function coresOf(names: readonly string[], size: CoreSize, colours: readonly Colour[]): CoreInput[] {
  return names.map((name, index) => {
    const colour = colours[index]
    return colour ? { name, size, colour } : { name, size }
  })
}

/** Cores taken two by two as twisted pairs `pair1`, `pair2` … */
export function pairedCores(
  names: readonly string[],
  size: CoreSize,
  colours: readonly Colour[],
): CoreInput[] {
  return coresOf(names, size, colours).map((core, index) => ({
    ...core,
    pair: `pair${Math.floor(index / 2) + 1}`,
  }))
}
