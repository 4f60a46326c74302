import { formatCelsius } from '../../base/format-quantity.ts'
import type { Conductor, Loom, LoomUse } from '../../resolve/loom.ts'
import { classFor } from '../../solve/formulas/temperature-class.ts'
import type { LaidBranch } from '../../solve/lay.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { type Zone, zoneOfHalf, zonesOf, zonesTouched } from '../queries/zones.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (rated: '80 °C' | '125 °C') =>
  wired({
    units: {
      sender: { pins: { '1': { name: 'S' } }, zone: 'engine' },
      gauge: { pins: { '1': { name: 'S' } }, zone: 'dash' },
    },
    parts: [
      { kind: 'wire', id: 'hook-up', title: 'Example wire', size: '0.5 mm²', od: '1.6 mm', class: rated },
    ],
    runs: [['sender.1', 'gauge.1', { part: 'hook-up' }]],
    place: {
      zones: [
        { id: 'engine', hottest: '105 °C' },
        { id: 'dash', hottest: '60 °C' },
      ],
    },
  })

const partOf = ({ wirePart, cable }: Conductor) => wirePart ?? cable?.part

interface Hot {
  readonly zone: string
  readonly celsius: number
}

/** The hottest of some zones that say how hot they get. */
function hottestOf(ids: Iterable<string>, zones: ReadonlyMap<string, Zone>): Hot | undefined {
  let hot: Hot | undefined
  for (const id of ids) {
    const celsius = zones.get(id)?.hottest
    if (celsius !== undefined && (!hot || celsius > hot.celsius)) hot = { zone: id, celsius }
  }
  return hot
}

/** Zones a branch is known to lie in: its own, and that of a connector or part it ends at. */
function zonesOfBranch(use: LoomUse, { source }: LaidBranch): readonly string[] {
  if (source.zone !== undefined) return [source.zone]
  return [source.from, source.to].flatMap((place) => {
    const half = use.halves.find(({ id }) => id === place)
    const zone = half ? zoneOfHalf(half) : use.harness.components?.find(({ id }) => id === place)?.zone
    return zone === undefined ? [] : [zone]
  })
}

const advice = (celsius: number): string => {
  const fit = classFor(celsius)
  return fit
    ? `class ${fit.letter} (${formatCelsius(fit.celsius)}, ISO 6722-1)`
    : `${formatCelsius(celsius)} or more`
}

interface Group {
  readonly hot: Hot
  readonly rated: number
  readonly title: string
  readonly first: Conductor
  readonly wires: Conductor[]
}

function tooHot({ hot, rated, title, first, wires }: Group): Outcome {
  const names = [...new Set(wires.map(({ cable, id }) => cable?.id ?? id))]
  return found({
    subject: first.cable?.address ?? first.address,
    what: `${listOf(names)} ${names.length === 1 ? 'is' : 'are'} rated for ${formatCelsius(rated)} and ${names.length === 1 ? 'goes' : 'go'} through ${hot.zone}, which gets ${formatCelsius(hot.celsius)} hot`,
    why: `${title}: ${formatCelsius(hot.celsius)} − ${formatCelsius(rated)} = ${formatCelsius(hot.celsius - rated)} too hot before it carries any current. Soft insulation flows away from edges and ties, and hard one cracks.`,
    fix: `Use wire of ${advice(hot.celsius)}, or lead it round ${hot.zone}.`,
    facts: {
      rated: { value: rated, unit: '°C' },
      hottest: { value: hot.celsius, unit: '°C' },
      zone: { value: hot.zone },
    },
    at: first.cable?.at ?? first.at,
    marks: wires.map(({ address }) => address),
  })
}

function* conductors({ loom, paths }: RuleContext, zones: ReadonlyMap<string, Zone>): Iterable<Outcome> {
  const groups = new Map<string, Group>()
  const silent = new Map<string, Set<string>>()
  for (const wire of loom.conductors) {
    const way = paths.lay(wire.loom)?.way(wire) ?? []
    const passed = way.flatMap(({ source }) => (source.zone === undefined ? [] : [source.zone]))
    const hot = hottestOf([...zonesTouched(wire), ...passed], zones)
    const part = partOf(wire)
    // At the temperature of a living room nothing needs a class.
    if (!hot || hot.celsius <= ROOM_CELSIUS) continue
    if (!part || part.class === undefined) {
      const name = part?.id ?? wire.cable?.source.part ?? wire.id
      silent.set(hot.zone, (silent.get(hot.zone) ?? new Set()).add(name))
    } else if (part.class < hot.celsius) {
      const key = `${wire.loom.id} ${part.id} ${hot.zone}`
      const group = groups.get(key) ?? { hot, rated: part.class, title: part.title, first: wire, wires: [] }
      groups.set(key, group)
      group.wires.push(wire)
    }
  }
  for (const group of groups.values()) yield tooHot(group)
  for (const [zone, names] of silent)
    yield unknown(loom.id, `needs the temperature class of ${listOf([...names])}, used in ${zone}`, loom.at)
}

const ROOM_CELSIUS = 40

function* sleeves({ loom, paths }: RuleContext, zones: ReadonlyMap<string, Zone>): Iterable<Outcome> {
  for (const use of loom.looms)
    for (const branch of paths.lay(use)?.branches ?? [])
      for (const mark of branch.source.marks ?? []) {
        const hot = hottestOf(zonesOfBranch(use, branch), zones)
        if (!hot || mark.class === undefined || mark.class >= hot.celsius) continue
        yield found({
          subject: branch.address,
          what: `The ${mark.kind} on ${branch.address} is rated for ${formatCelsius(mark.class)} and lies in ${hot.zone}, which gets ${formatCelsius(hot.celsius)} hot`,
          why: `${formatCelsius(hot.celsius)} − ${formatCelsius(mark.class)} = ${formatCelsius(hot.celsius - mark.class)} too hot: it melts on or falls off, and what it protected lies bare.`,
          fix: `Use a ${mark.kind} for ${formatCelsius(classFor(hot.celsius)?.celsius ?? hot.celsius)}.`,
          facts: {
            rated: { value: mark.class, unit: '°C' },
            hottest: { value: hot.celsius, unit: '°C' },
            at: { value: mark.at, unit: 'mm' },
          },
          at: branch.at,
          marks: branch.conductors.map(({ address }) => address),
        })
      }
}

/** Zones with something of the loom in them that do not say how hot they get. */
function* silentZones(loom: Loom, zones: ReadonlyMap<string, Zone>): Iterable<Outcome> {
  if (loom.setting !== 'vehicle' && loom.setting !== 'boat') return
  const used = new Set(loom.conductors.flatMap(zonesTouched))
  const silent = [...used].filter((id) => zones.has(id) && zones.get(id)?.hottest === undefined)
  if (silent.length > 0)
    yield unknown(loom.id, `needs how hot it gets in ${listOf(silent)} (hottest)`, loom.at)
}

export const temperatureClass: Rule = {
  id: 'temperature-class',
  title: 'Insulation and sleeves stand the heat of their place',
  family: 'routing',
  level: 'stop',
  covers: ['E6'],
  reason:
    'Insulation rated below the air around it softens, flows away where a tie presses, and leaves bare copper under the bonnet.',
  remedy: 'Wire and sleeve of the next class, or a cooler way.',
  needs: '"hottest" of zones, "class" of wires, cables, and of sleeves and ties',
  sources: [
    'ISO 6722-1 and ISO 19642-1: classes A 85, B 100, C 125, D 150 °C, from memory',
    'vehicle converter quality bulletin E1111: 125 °C sleeve under the bonnet',
  ],
  examples: { trips: example('80 °C'), passes: example('125 °C') },
  *check(context) {
    const zones = zonesOf(context.loom)
    if (zones.size === 0) return
    yield* conductors(context, zones)
    yield* sleeves(context, zones)
    yield* silentZones(context.loom, zones)
  },
}
