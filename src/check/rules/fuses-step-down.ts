import { formatAmps } from '../../base/format-quantity.ts'
import { fuseRating } from '../../solve/fuse-rating.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (branch: '10 A' | '5 A') =>
  wired({
    units: { supply: cell(), lamp: load('2 A') },
    components: [
      { id: 'F1', kind: 'fuse', rating: '10 A' },
      { id: 'F2', kind: 'fuse', rating: branch },
    ],
    runs: [
      ['supply.1', 'F1.in', { size: '2.5 mm²', length: '0.1 m' }],
      ['F1.out', 'F2.in', { size: '2.5 mm²' }],
      ['F2.out', 'lamp.1', { size: '2.5 mm²' }],
      ['lamp.2', 'supply.2', { size: '2.5 mm²' }],
    ],
  })

/** Below this step both fuses may go: common practice for fuses of one kind. */
const LEAST_STEP = 1.6

export const fusesStepDown: Rule = {
  id: 'fuses-step-down',
  title: 'A branch fuse is clearly smaller than the one before it',
  family: 'power',
  level: 'warning',
  covers: ['W6'],
  reason:
    'With two fuses of about one size in a row a fault in one branch may take out the common fuse, and with it everything else.',
  remedy: 'Make the branch fuse smaller, or the common fuse and its wire larger.',
  needs: 'the rating of each fuse',
  sources: ['common practice: a step of 1.6 between fuses of one kind'],
  examples: { trips: example('10 A'), passes: example('5 A') },
  *check({ loom, paths }) {
    const told = new Set<string>()
    for (const terminal of loom.terminals) {
      if (terminal.component?.source.kind !== 'fuse' || terminal.name !== 'in') continue
      const { component } = terminal
      for (const { fuses } of paths.supply.supplies(terminal)) {
        const upper = fuses.findLast((fuse) => fuse !== component)
        const [small, large] = [fuseRating(component), upper && fuseRating(upper)]
        if (!upper || small === undefined || large === undefined || told.has(component.address)) continue
        if (large / small >= LEAST_STEP) continue
        told.add(component.address)
        yield found({
          subject: component.address,
          what: `${component.id} (${formatAmps(small)}) is hardly smaller than ${upper.id} (${formatAmps(large)}) before it`,
          why: `${formatAmps(large)} is ${(large / small).toFixed(1)} times ${formatAmps(small)}; below ${LEAST_STEP} either of them may go first.`,
          fix: `Fit ${formatAmps(large / LEAST_STEP)} or less for ${component.id}, or more than ${formatAmps(small * LEAST_STEP)} for ${upper.id} if its wire allows it.`,
          facts: { fuse: { value: small, unit: 'A' }, before: { value: large, unit: 'A' } },
          at: component.at,
          notes: [{ text: 'the fuse before it', at: upper.at }],
          marks: [component.address, upper.address],
        })
      }
    }
  },
}
