import { formatLength } from '../../base/format-quantity.ts'
import type { HarnessConnector } from '../../describe/harness.ts'
import type { ConnectorFamily } from '../../describe/part.ts'
import type { Half } from '../../resolve/loom.ts'
import type { Lay } from '../../solve/lay.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { type Zone, zoneOfHalf, zonesOf } from '../queries/zones.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (entry: 'above' | 'below') =>
  wired({
    units: {
      box: { pins: { '1': { name: 'A' } }, zone: 'deck' },
      panel: { pins: { '1': { name: 'A' } }, zone: 'cabin' },
    },
    runs: [['box.1', 'panel.1', { size: '1.5 mm²' }]],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'box.J', entry },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'panel.J' },
      ],
    },
    place: { setting: 'boat', zones: [{ id: 'deck', wet: true }, { id: 'cabin' }] },
  })

/** A drop has to fall off before it can climb: so far below the entry (common practice). */
const LOOP_MM = 25

/** Stands a jet of water and more: nothing runs in. IEC 60529. */
const WATERTIGHT = 6

const isWatertight = ({ sealed, ip }: ConnectorFamily): boolean =>
  sealed === true || Number.parseInt(ip?.[3] ?? '0', 10) >= WATERTIGHT

/** Rings and tabs are bare metal, and a watertight plug is closed round its cable: neither is an opening. */
const isOpening = ({ family }: Half): boolean =>
  family !== undefined && !isWatertight(family) && !['ring', 'stud', 'tab', 'wire-end'].includes(family.style)

/** Spray and condensation get wherever it is wet or salty. */
const getsWet = (zone: Zone | undefined): boolean => zone?.wet === true || zone?.salt === true

/** The nearest height on the way to an entry: of a mark on its last branch, or of the connector at that branch's other end. */
function heightBefore(lay: Lay | undefined, half: Half): number | undefined {
  const [last, ...more] = lay?.at(half.id) ?? []
  if (!last || more.length > 0) return undefined
  const { from, to, length, marks } = last.source
  const near = (marks ?? [])
    .flatMap(({ at, height }) =>
      height === undefined ? [] : [{ mm: from === half.id ? at : length - at, height }],
    )
    .sort((a, b) => a.mm - b.mm)[0]
  if (near) return near.height
  const other = from === half.id ? to : from
  return lay?.use.harness.connectors.find(({ id }) => id === other)?.height
}

function runsIn(half: Half, zone: string, how: string, figures: Readonly<Record<string, number>>): Outcome {
  return found({
    subject: half.address,
    what: `Water runs along the loom into ${half.address}: ${how}`,
    why: `${zone} gets wet, and with no point at least ${LOOP_MM} mm below the entry every drop on the jacket ends inside.`,
    fix: `Enter from below, or hang a loop at least ${LOOP_MM} mm lower than the entry before it.`,
    facts: {
      zone: { value: zone },
      ...Object.fromEntries(Object.entries(figures).map(([name, value]) => [name, { value, unit: 'mm' }])),
    },
    at: half.at,
    marks: [half.address],
  })
}

/** A finding, `false` where it is dry by its shape, or undefined where the shape is not known. */
function judge(half: Half, zone: string, before: number | undefined): Outcome | false | undefined {
  const { entry, height } = half.source as HarnessConnector
  if (entry === 'below') return false
  if (entry === 'above') return runsIn(half, zone, 'it comes from above', { loop: 0 })
  if (height === undefined || before === undefined) return undefined
  if (before <= height - LOOP_MM) return false
  const how = `it comes from ${formatLength(before)} to an entry at ${formatLength(height)}`
  return runsIn(half, zone, how, { before, entry: height })
}

export const dripLoop: Rule = {
  id: 'drip-loop',
  title: 'Looms enter from below where it gets wet',
  family: 'routing',
  level: 'warning',
  covers: ['E3'],
  reason:
    'Water follows a cable. Where the loom comes down into a box it fills the box; where it hangs lower first, the drop falls off there.',
  remedy: 'Enter from below, or hang a loop below the entry.',
  needs: '"entry" of connectors in wet or salty zones, or "height" of the connector and of the way to it',
  sources: ['FAA AC 43.13-1B ¶11-96', 'van body-equipment manual §4.1.7, as reported'],
  examples: { trips: example('above'), passes: example('below') },
  *check({ loom, paths }) {
    const zones = zonesOf(loom)
    for (const use of loom.looms) {
      const silent: Half[] = []
      for (const half of use.halves) {
        const zone = zoneOfHalf(half)
        if (zone === undefined || !getsWet(zones.get(zone)) || !isOpening(half)) continue
        const outcome = judge(half, zone, heightBefore(paths.lay(use), half))
        if (outcome) yield outcome
        else if (outcome === undefined) silent.push(half)
      }
      if (silent.length > 0)
        yield unknown(
          use.id,
          `needs from where the loom comes to ${listOf(silent.map(({ address }) => address))} (entry)`,
          use.at,
        )
    }
  },
}
