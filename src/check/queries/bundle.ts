import type { Conductor } from '../../resolve/loom.ts'
import { bundleDiameterMm } from '../../solve/formulas/bundle-diameter.ts'
import { packCircles } from '../../solve/formulas/circle-packing.ts'
import { outsideMm } from './outside-mm.ts'

/** What lies side by side: single wires, and cables each once, however many of its cores are among the conductors. */
export interface Bundle {
  /** Outside diameters in mm, of those that are known. */
  readonly diametersMm: readonly number[]
  /** Wires and cables, by number. */
  readonly names: readonly string[]
  /** Those whose diameter nobody states. */
  readonly unknown: readonly string[]
}

export function bundleOf(conductors: readonly Conductor[]): Bundle {
  const members = new Map<string, { name: string; mm: number | undefined }>()
  for (const conductor of conductors) {
    const { cable } = conductor
    members.set(
      cable?.address ?? conductor.address,
      cable ? { name: cable.id, mm: cable.part?.od } : { name: conductor.id, mm: outsideMm(conductor) },
    )
  }
  const all = [...members.values()]
  return {
    diametersMm: all.flatMap(({ mm }) => (mm === undefined ? [] : [mm])),
    names: all.map(({ name }) => name),
    unknown: all.filter(({ mm }) => mm === undefined).map(({ name }) => name),
  }
}

/** Any circles fit a round of this many times the root of the sum of their squares: two equal ones need 1.41, three 1.24. */
const ALWAYS_FITS = 1.5
/** Beyond this many the packing is no better than the rule of thumb and takes long. */
const PACK_UP_TO = 60

/** Whether a bundle surely goes through a bore; answered without packing anything. */
export function surelyFits(diametersMm: readonly number[], boreMm: number): boolean {
  return boreMm >= ALWAYS_FITS * Math.sqrt(diametersMm.reduce((sum, mm) => sum + mm * mm, 0))
}

/** Diameter of a bundle in mm, by packing its circles; for equal wires the best packing known. */
export function packedMm(diametersMm: readonly number[]): number {
  const known = bundleDiameterMm(diametersMm)
  const [thick, thin] = [Math.max(...diametersMm), Math.min(...diametersMm)]
  if (diametersMm.length > PACK_UP_TO || thick - thin < 1e-6 * thick) return known
  return packCircles(diametersMm).diameterMm
}
