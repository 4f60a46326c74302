import { formatLength } from '../../base/format-quantity.ts'
import type { Conductor, Loom, LoomUse } from '../../resolve/loom.ts'
import { cutToleranceMm } from '../../solve/formulas/cut-tolerance.ts'
import type { LaidBranch, Lay } from '../../solve/lay.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf, unknown } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (length: '0.88 m' | '1.0 m') =>
  wired({
    units: { box: { pins: { '1': { name: 'A' } } }, panel: { pins: { '1': { name: 'A' } } } },
    runs: [['box.1', 'panel.1', { length }]],
    harness: {
      branches: [
        { from: 'P1', to: 'B1', length: '500 mm' },
        { from: 'B1', to: 'P2', length: '400 mm' },
      ],
    },
  })

/** How often an end may be cut off and made off again before the wire is too short: FAA AC 43.13-1B ¶11-118, from memory. */
const REMAKES = 2
const ENDS = 2

/** Wire used up by one new crimp where the shop has not said: strip length and barrel of a common contact (common practice). */
const usedUpMm = (loom: Loom): number => loom.settings.stated.remake ?? 20

const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0)

interface Reach {
  readonly wire: Conductor
  readonly lengthMm: number
  readonly wayMm: number
  readonly travelMm: number
  readonly slackMm: number
  readonly way: readonly LaidBranch[]
}

/** Lengths add up in tenths of millimetres, so a hair of rounding is no shortage. */
const HAIR_MM = 0.5

function report({ wire, lengthMm, wayMm, travelMm, slackMm, way }: Reach): Outcome | undefined {
  const wantMm = wayMm + travelMm + slackMm
  if (lengthMm >= wantMm - HAIR_MM) return undefined
  const bareMm = wayMm + travelMm
  const short = lengthMm < bareMm - HAIR_MM
  const name = wire.cable?.id ?? wire.id
  const cutMm = Math.ceil(wantMm / 10) * 10
  const steps = way.map(({ source }) => formatLength(source.length)).join(' + ')
  const travel = travelMm > 0 ? ` + ${formatLength(travelMm)} for the movement` : ''
  return found({
    subject: wire.cable?.address ?? wire.address,
    level: short ? 'stop' : 'warning',
    what: short
      ? `${name} is ${formatLength(lengthMm)} and its way is ${formatLength(bareMm)}: it does not reach, by ${formatLength(bareMm - lengthMm)}`
      : `${name} is ${formatLength(lengthMm)} on a way of ${formatLength(bareMm)}: ${formatLength(lengthMm - bareMm)} of slack (wanted ${formatLength(slackMm)})`,
    why: `${steps}${travel} = ${formatLength(bareMm)}; ${REMAKES} new crimps at each of ${ENDS} ends use up ${formatLength(slackMm)}.`,
    fix: `Cut ${name} to ${formatLength(cutMm)} (+${cutToleranceMm(cutMm)} −0 mm).`,
    facts: {
      length: { value: lengthMm, unit: 'mm' },
      way: { value: bareMm, unit: 'mm' },
      wanted: { value: wantMm, unit: 'mm' },
    },
    at: wire.cable?.at ?? wire.at,
    cause: `reach:${wire.cable?.address ?? wire.address}`,
    marks: [wire.address],
  })
}

/** Wires one by one, a cable by the longest way any of its cores has. */
function* reaches(loom: Loom, use: LoomUse, lay: Lay, missing: string[]): Iterable<Reach> {
  const slackMm = ENDS * REMAKES * usedUpMm(loom)
  const longest = new Map<string, Reach>()
  for (const wire of loom.conductors) {
    if (wire.loom !== use || wire.kind === 'shield') continue
    const way = lay.way(wire)
    if (!way || way.length === 0) continue
    if (wire.lengthMm === undefined) {
      missing.push(wire.cable?.id ?? wire.id)
      continue
    }
    const key = wire.cable?.address ?? wire.address
    const wayMm = sum(way.map(({ source }) => source.length))
    const travelMm = sum(way.map(({ source }) => source.flex?.travel ?? 0))
    const known = longest.get(key)
    if (!known || known.wayMm + known.travelMm < wayMm + travelMm)
      longest.set(key, { wire, lengthMm: wire.lengthMm, wayMm, travelMm, slackMm, way })
  }
  yield* longest.values()
}

export const lengthReaches: Rule = {
  id: 'length-reaches',
  title: 'Wires are long enough for their way',
  family: 'routing',
  level: 'stop',
  covers: ['E4'],
  reason:
    'A wire cut to the way it takes on paper does not reach once it lies in corners, and one that just reaches cannot be made off again when its first crimp fails.',
  remedy: 'Length of the way, movement of doors and mounts, and two new crimps at each end.',
  needs: '"branches" of the harness and the length of each wire; "travel" where a door or a mount moves it',
  sources: [
    'FAA AC 43.13-1B ¶11-118, from memory',
    'IPC/WHMA-A-620 length table for the tolerance, as quoted by cable makers',
  ],
  examples: { trips: example('0.88 m'), passes: example('1.0 m') },
  *check({ loom, paths }) {
    for (const use of loom.looms) {
      const lay = paths.lay(use)
      if (!lay) {
        if (loom.kind === 'installation' && (loom.setting === 'vehicle' || loom.setting === 'boat'))
          yield unknown(use.id, `needs the branches of ${use.harness.id}: how it lies`, use.at)
        continue
      }
      const missing: string[] = []
      for (const reach of reaches(loom, use, lay, missing)) {
        const outcome = report(reach)
        if (outcome) yield outcome
      }
      if (missing.length > 0)
        yield unknown(use.id, `needs the length of ${listOf([...new Set(missing)])}`, use.at)
    }
  },
}
