import { formatLength } from '../../base/format-quantity.ts'
import type { Conductor, Loom } from '../../resolve/loom.ts'
import type { Lay } from '../../solve/lay.ts'
import { wired } from '../examples/wired.ts'
import { found, unknown } from '../outcome.ts'
import { type Stretch, tellsSupports, unsupportedStretches } from '../queries/unsupported-stretches.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (second: '500 mm' | '450 mm') =>
  wired({
    units: { box: { pins: { '1': { name: 'A' } } }, panel: { pins: { '1': { name: 'A' } } } },
    runs: [['box.1', 'panel.1', { length: '0.8 m' }]],
    harness: {
      branches: [
        {
          from: 'P1',
          to: 'P2',
          length: '700 mm',
          marks: [
            { kind: 'clip', at: '225 mm' },
            { kind: 'clip', at: second },
          ],
        },
      ],
    },
    place: { setting: 'vehicle' },
  })

interface Limit {
  readonly mm: number
  readonly from: string
}

/** Longest stretch between holds, by setting; undefined where no rule of the trade is known. */
function limitFor(loom: Loom, unfused: boolean): Limit | undefined {
  const { supports } = loom.settings.stated
  if (supports !== undefined) return { mm: supports, from: 'the policy of the shop' }
  if (loom.setting === 'vehicle') return { mm: 250, from: 'vehicle makers’ body-equipment manuals' }
  if (loom.setting !== 'boat') return undefined
  return unfused ? { mm: 300, from: 'ISO 10133 §7.3, battery cables' } : { mm: 450, from: 'ISO 10133 §7.4' }
}

/** Conductors that carry a battery with no fuse before them: what they chafe on burns. */
function unfusedOf({ paths }: RuleContext): ReadonlySet<Conductor> {
  const batteries = paths.supply.sources.filter(({ does }) => does.kind === 'supply-out' && does.battery)
  return new Set(batteries.flatMap((source) => [...paths.supply.unfused(source).conductors]))
}

function report(lay: Lay, stretch: Stretch, limit: Limit): Outcome {
  const [a, b] = stretch.ends
  const [branch] = stretch.branches
  const more = Math.ceil(stretch.lengthMm / limit.mm) - 1
  return found({
    subject: branch?.address ?? lay.use.id,
    what: `${formatLength(stretch.lengthMm)} of ${lay.use.id} hang free between ${a} and ${b} (limit ${formatLength(limit.mm)})`,
    why: `${stretch.branches.map(({ source }) => `${source.from}-${source.to}`).join(', ')}: nothing holds the loom there. ${formatLength(limit.mm)} is from ${limit.from}.`,
    fix: `Add ${more} ${more === 1 ? 'clip or tie' : 'clips or ties'}, or say how far apart they are (supportEvery).`,
    facts: { stretch: { value: stretch.lengthMm, unit: 'mm' }, limit: { value: limit.mm, unit: 'mm' } },
    at: branch?.at ?? lay.use.at,
    cause: `supports:${lay.use.id}`,
    marks: stretch.branches.flatMap(({ conductors }) => conductors.map(({ address }) => address)),
  })
}

export const supportSpacing: Rule = {
  id: 'support-spacing',
  title: 'A loom is held often enough',
  family: 'routing',
  level: 'warning',
  covers: ['E2'],
  reason:
    'A loom that hangs swings, rubs through on the first edge it finds, and pulls on its plugs. The short is years away and nobody remembers the missing clip.',
  remedy: 'A clip or a tie in between.',
  needs: '"branches" of the harness with their ties and clips as marks or as "supportEvery"',
  sources: [
    'van body-equipment manual §4.1.4, as reported: 150 to 250 mm',
    'ISO 10133 §7.3–7.4, from memory: 450 mm, battery cables 300 mm',
    'FAA AC 43.13-1B ¶11-96: 24 in aircraft',
  ],
  examples: { trips: example('500 mm'), passes: example('450 mm') },
  *check(context) {
    const { loom, paths } = context
    if (!limitFor(loom, false)) return
    const unfused = loom.setting === 'boat' ? unfusedOf(context) : new Set<Conductor>()
    for (const use of loom.looms) {
      const lay = paths.lay(use)
      if (!lay) continue
      if (!tellsSupports(lay)) {
        yield unknown(use.id, `needs the ties and clips of ${use.harness.id} (marks or supportEvery)`, use.at)
        continue
      }
      for (const stretch of unsupportedStretches(lay)) {
        const bare = stretch.branches.some(({ conductors }) => conductors.some((each) => unfused.has(each)))
        const limit = limitFor(loom, bare)
        if (limit && stretch.lengthMm > limit.mm * 1.001) yield report(lay, stretch, limit)
      }
    }
  },
}
