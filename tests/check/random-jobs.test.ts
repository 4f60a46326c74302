import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { Finding } from '../../src/base/finding.ts'
import { checkLoom } from '../../src/check/check.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'
import { solve } from '../../src/solve/solve.ts'
import { shopOf } from '../resolve/shop-of.ts'
import { describeJob, randomJob } from '../solve/random-job.ts'

const SETTINGS = ['vehicle', 'boat', 'building', 'bench'] as const

const texts = ({ what, why, fix, assumed }: Finding) => [what, why, fix, ...assumed].join('\n')

it('judges supply jobs of any shape without breaking down, in whole sentences', () => {
  fc.assert(
    fc.property(randomJob, fc.constantFrom(...SETTINGS), (job, setting) => {
      const content = describeJob(job)
      const installation = {
        id: 'place',
        title: 'Place',
        setting,
        units: (content.equipment ?? []).map(({ id }) => ({ id, of: id })),
        looms: (content.harnesses ?? []).map(({ id }) => ({ id, of: id })),
      }
      for (const shop of [content, { ...content, installations: [installation] }])
        for (const loom of resolveShop(shopOf(shop)).looms) {
          const { findings, heldBack, notChecked } = checkLoom(loom, solve(loom))
          for (const finding of [...findings, ...heldBack]) {
            expect(finding.rule).not.toBe('rule-failed')
            expect(texts(finding)).not.toMatch(/undefined|NaN|Infinity|∞|\[object/)
          }
          for (const { needs } of notChecked) expect(needs).not.toMatch(/undefined|NaN/)
        }
    }),
    { numRuns: 30 },
  )
})
