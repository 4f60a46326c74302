import { adiabaticSeconds } from '../../solve/formulas/adiabatic-withstand.ts'
import { conductorsOf, type FarEndShort } from '../../solve/simulate/far-end-shorts.ts'

/** Whether the thinnest conductor bears the fault until the fuse has surely opened. */
export function survivesShort({ links, faultAmps, opens }: FarEndShort): boolean {
  const areas = conductorsOf(links).flatMap(({ size }) => (size ? [size.areaMm2] : []))
  const thinnest = Math.min(...areas)
  return areas.length > 0 && opens.maxS <= adiabaticSeconds(thinnest, faultAmps, 'pvc')
}
