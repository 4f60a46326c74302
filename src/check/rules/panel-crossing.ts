import { formatLength } from '../../base/format-quantity.ts'
import type { Loom, LoomUse } from '../../resolve/loom.ts'
import type { LaidBranch, Lay } from '../../solve/lay.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { type Zone, zoneOfHalf, zonesOf } from '../queries/zones.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (kind: 'hole' | 'grommet') =>
  wired({
    units: {
      horn: { pins: { '1': { name: 'A' } }, zone: 'bonnet' },
      panel: { pins: { '1': { name: 'A' } }, zone: 'cabin' },
    },
    runs: [['horn.1', 'panel.1', { length: '1.1 m' }]],
    harness: {
      branches: [
        {
          from: 'P1',
          to: 'P2',
          length: '900 mm',
          marks: [{ kind, at: '300 mm', sealed: true }],
          supportEvery: '200 mm',
        },
      ],
    },
    place: { setting: 'vehicle', zones: [{ id: 'bonnet', wet: true }, { id: 'cabin' }] },
  })

type Mark = NonNullable<LaidBranch['source']['marks']>[number]

const CROSSINGS: ReadonlySet<Mark['kind']> = new Set(['hole', 'grommet', 'gland'])

const crossingsOf = ({ source }: LaidBranch): readonly Mark[] =>
  (source.marks ?? []).filter(({ kind }) => CROSSINGS.has(kind))

/** Zones of everything fixed on one side of a branch, as far as the next crossing. */
function zonesBeyond(lay: Lay, branch: LaidBranch, side: string): ReadonlySet<string> {
  const zones = new Set<string>()
  const seen = new Set<LaidBranch>([branch])
  const places = [side]
  for (const place of places) {
    const half = lay.use.halves.find(({ id }) => id === place)
    const zone = half ? zoneOfHalf(half) : lay.use.harness.components?.find(({ id }) => id === place)?.zone
    if (zone !== undefined) zones.add(zone)
    for (const next of lay.at(place)) {
      if (seen.has(next)) continue
      seen.add(next)
      if (crossingsOf(next).length > 0) continue
      if (next.source.zone !== undefined) zones.add(next.source.zone)
      places.push(next.source.from === place ? next.source.to : next.source.from)
    }
  }
  return zones
}

const wetOf = (ids: Iterable<string>, zones: ReadonlyMap<string, Zone>): readonly string[] =>
  [...ids].filter((id) => zones.get(id)?.wet)

function bareHole(branch: LaidBranch, mark: Mark): Outcome {
  return found({
    subject: branch.address,
    what: `${branch.address} goes through a bare hole at ${formatLength(mark.at)}${mark.note ? ` (${mark.note})` : ''}`,
    why: `${branch.conductors.length} conductors lie on a cut edge of sheet metal: it works through the insulation, and the first feed it reaches is shorted to the body.`,
    fix: 'Fit a grommet or a gland that suits the hole, and close what stays open.',
    facts: { at: { value: mark.at, unit: 'mm' }, conductors: { value: branch.conductors.length } },
    at: branch.at,
    marks: branch.conductors.map(({ address }) => address),
  })
}

function openHole(branch: LaidBranch, mark: Mark, wet: readonly string[]): Outcome {
  return found({
    subject: branch.address,
    level: 'warning',
    what: `The ${mark.kind} at ${formatLength(mark.at)} of ${branch.address} is open beside ${listOf(wet)}, which is wet`,
    why: `${branch.conductors.length} conductors lead water through what is left of the hole to the plugs on the dry side.`,
    fix: 'Close the rest of the hole with sealant or a split grommet, and say so ("sealed").',
    facts: { at: { value: mark.at, unit: 'mm' }, zone: { value: wet.join(' ') } },
    at: branch.at,
    marks: branch.conductors.map(({ address }) => address),
  })
}

function judge(
  lay: Lay,
  branch: LaidBranch,
  mark: Mark,
  zones: ReadonlyMap<string, Zone>,
): Outcome | undefined {
  if (mark.kind === 'hole') return bareHole(branch, mark)
  if (mark.sealed) return undefined
  const { from, to } = branch.source
  const wet = wetOf([...zonesBeyond(lay, branch, from), ...zonesBeyond(lay, branch, to)], zones)
  if (wet.length === 0) return undefined
  if (mark.sealed === false) return openHole(branch, mark, wet)
  return unknown(
    branch.address,
    `needs whether the ${mark.kind} at ${formatLength(mark.at)} of ${branch.address} is sealed`,
    branch.at,
  )
}

/** Conductors between a wet and a dry zone on whose way no panel is crossed: there must be one, or the zones are wrong. */
function uncrossed(
  loom: Loom,
  use: LoomUse,
  lay: Lay | undefined,
  zones: ReadonlyMap<string, Zone>,
): readonly string[] {
  const pairs = new Set<string>()
  for (const conductor of loom.conductors) {
    if (conductor.loom !== use) continue
    const [a, b] = [conductor.from, conductor.to].map((end) => end?.half && zoneOfHalf(end.half))
    const [one, two] = [
      a === undefined ? undefined : zones.get(a),
      b === undefined ? undefined : zones.get(b),
    ]
    if (!one || !two || (one.wet ?? false) === (two.wet ?? false)) continue
    const way = lay?.way(conductor)
    if (way?.some((branch) => crossingsOf(branch).length > 0)) continue
    pairs.add([a, b].sort().join(' and '))
  }
  return [...pairs]
}

export const panelCrossing: Rule = {
  id: 'panel-crossing',
  title: 'Panels are crossed in a grommet or gland, and closed',
  family: 'routing',
  level: 'stop',
  covers: ['E1'],
  reason:
    'Sheet metal cuts through insulation in a season, and the first wire it reaches is often the unfused one. An open hole lets in water and fumes besides.',
  remedy: 'A grommet or gland that fits both hole and bundle, with the rest of the hole sealed.',
  needs: 'grommets, glands and bare holes as marks of branches, with "sealed"; zones of the connectors',
  sources: ['FCS 1362:2010 §4.3.1.1', 'vehicle-maker mobile-radio installation guidelines, 1998'],
  examples: { trips: example('hole'), passes: example('grommet') },
  *check({ loom, paths }) {
    const zones = zonesOf(loom)
    for (const use of loom.looms) {
      const lay = paths.lay(use)
      for (const branch of lay?.branches ?? [])
        for (const mark of crossingsOf(branch)) {
          const outcome = lay && judge(lay, branch, mark, zones)
          if (outcome) yield outcome
        }
      const open = uncrossed(loom, use, lay, zones)
      if (open.length > 0)
        yield unknown(use.id, `needs where ${use.id} crosses a panel between ${listOf(open)}`, use.at)
    }
  },
}
