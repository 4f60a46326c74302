import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bundleDiameterMm, bundleRuleMm } from '../../../src/solve/formulas/bundle-diameter.ts'
import { type Packing, packCircles } from '../../../src/solve/formulas/circle-packing.ts'

/** Depth to which the worst two circles overlap, and to which the worst sticks out of the round. */
function faults({ circles, diameterMm }: Packing): { overlap: number; out: number } {
  let overlap = 0
  let out = 0
  circles.forEach((a, i) => {
    out = Math.max(out, Math.hypot(a.xMm, a.yMm) + a.diameterMm / 2 - diameterMm / 2)
    for (const b of circles.slice(i + 1))
      overlap = Math.max(
        overlap,
        (a.diameterMm + b.diameterMm) / 2 - Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm),
      )
  })
  return { overlap, out }
}

describe('circles packed into a round', () => {
  // Graham 1968, Pirl 1969, Melissen 1994, Fodor 1999–2003, Goldberg 1971, Reis 1975: the table behind bundleDiameterMm.
  it.each(Array.from({ length: 30 }, (_, index) => index + 1))(
    '%i equal ones come within 4 %% of the best',
    (count) => {
      const best = bundleDiameterMm(Array(count).fill(1))
      const { diameterMm } = packCircles(Array(count).fill(1))
      expect(diameterMm / best).toBeGreaterThanOrEqual(1 - 1e-4)
      expect(diameterMm / best).toBeLessThan(1.04)
    },
  )

  it('leave room for a third of a third beside two of a half (Descartes: curvatures −1, 2, 2, 3)', () => {
    expect(packCircles([3, 3, 2]).diameterMm).toBeCloseTo(6, 3)
    expect(packCircles([3, 3, 2, 2]).diameterMm).toBeCloseTo(6, 2)
    expect(packCircles([3, 3, 2.2]).diameterMm).toBeGreaterThan(6.01)
  })

  it('never overlap, never stick out, and are the circles that were given', () => {
    const diameters = fc.array(
      fc.integer({ min: 8, max: 80 }).map((tenths) => tenths / 10),
      {
        minLength: 1,
        maxLength: 14,
      },
    )
    fc.assert(
      fc.property(diameters, (list) => {
        const packing = packCircles(list)
        const { overlap, out } = faults(packing)
        expect(overlap).toBeLessThan(1e-6)
        expect(out).toBeLessThan(1e-6)
        expect(packing.circles.map(({ diameterMm }) => diameterMm).sort()).toEqual([...list].sort())
        // Not less than the copper and air of the circles themselves, and a good bundle by the rule of thumb.
        expect(packing.diameterMm).toBeGreaterThanOrEqual(
          Math.sqrt(list.reduce((sum, d) => sum + d * d, 0)) - 1e-9,
        )
        expect(packing.diameterMm).toBeLessThanOrEqual(1.25 * bundleRuleMm(list))
      }),
      { numRuns: 60 },
    )
  })

  it('does not depend on the order', () => {
    expect(packCircles([1, 2, 3, 4]).diameterMm).toBe(packCircles([4, 2, 1, 3]).diameterMm)
    expect(packCircles([]).diameterMm).toBe(0)
  })
})
