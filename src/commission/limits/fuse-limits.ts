import { formatAmps } from '../../base/format-quantity.ts'
import type { ComponentUse, Loom } from '../../resolve/loom.ts'
import { figureLimit } from '../figure-limit.ts'
import type { Limits } from '../limit.ts'
import { AMPS } from '../measures.ts'

const ratingOf = (fuse: ComponentUse): number | undefined =>
  fuse.source.kind === 'fuse' ? (fuse.source.rating ?? fuse.fusePart?.rating) : undefined

/** The value printed on each fuse that was fitted. */
export function fuseLimits(loom: Loom): Limits {
  const fuses = loom.components.filter(({ source }) => source.kind === 'fuse')
  return {
    limits: fuses.flatMap((fuse) => {
      const rating = ratingOf(fuse)
      if (rating === undefined) return []
      const name = `${fuse.unit ? `${fuse.unit.id} ` : ''}${fuse.id}`
      return [
        figureLimit({
          id: `${fuse.address}/rating`,
          group: 'supply',
          what: `Fuse ${name}${fuse.source.title ? ` (${fuse.source.title})` : ''}`,
          how: 'Read the value printed on the fuse that is in the holder, and the colour with it.',
          measure: AMPS,
          unit: 'A',
          least: rating,
          most: rating,
          sum: `Drawn with ${formatAmps(rating)}: no other value, neither smaller nor larger.`,
          source: 'description of the fuse',
          rule: 'fuse-protects-wire',
          address: fuse.address,
          level: 'stop',
        }),
      ]
    }),
    missing: fuses
      .filter((fuse) => ratingOf(fuse) === undefined)
      .map((fuse) => ({
        what: 'fuse fitted',
        needs: `the rating of ${fuse.address}`,
        address: fuse.address,
      })),
  }
}
