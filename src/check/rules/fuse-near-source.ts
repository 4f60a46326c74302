import { formatLength } from '../../base/format-quantity.ts'
import type { Conductor, Link, Loom, Terminal } from '../../resolve/loom.ts'
import { fuseDistanceLimit } from '../../solve/formulas/fuse-distance.ts'
import { type FirstFuse, isBattery } from '../../solve/supply-paths.ts'
import { vehicleExample } from '../examples/vehicle.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { conductorsOf } from '../queries/conductor-words.ts'
import type { Outcome, Rule } from '../rule.ts'

interface Limit {
  readonly mm: number
  readonly source: string
}

/** A core lies in the jacket of its cable; of a wire the description says so. */
const isSheathed = ({ cable, source }: Conductor): boolean =>
  cable !== undefined || ('sheathed' in source && source.sheathed === true)

/** Boats by the letter of the rule, vehicles by the shop's policy; elsewhere there is none. */
function limitFor(loom: Loom, source: Terminal, wires: readonly Conductor[]): Limit | undefined {
  if (loom.setting === 'vehicle') return { mm: loom.settings.fuseWithinMm, source: 'policy fuseWithin' }
  if (loom.setting !== 'boat') return undefined
  const { limitMm, source: said } = fuseDistanceLimit(wires.every(isSheathed), isBattery(source))
  return { mm: limitMm, source: said }
}

/** A source that limits itself to what it states needs no fuse beside it. */
const limitsItself = (source: Terminal): boolean =>
  !isBattery(source) && source.does.kind === 'supply-out' && source.does.maxAmps !== undefined

function judge(loom: Loom, source: Terminal, first: FirstFuse): Outcome | undefined {
  const wires = conductorsOf(first.links)
  const limit = limitFor(loom, source, wires)
  if (!limit || wires.length === 0) return undefined
  const { fuse, lengthMm } = first
  if (lengthMm === undefined) {
    const bare = wires.filter((wire) => wire.lengthMm === undefined)
    return unknown(fuse.address, `needs the length of ${listOf(bare.map(({ id }) => id))}`, bare[0]?.at)
  }
  return lengthMm > limit.mm + 0.5 ? report(loom, source, first, lengthMm, limit) : undefined
}

function report(loom: Loom, source: Terminal, first: FirstFuse, lengthMm: number, limit: Limit): Outcome {
  const { fuse, links } = first
  const wires = conductorsOf(links)
  const sheathed = fuseDistanceLimit(true, isBattery(source)).limitMm
  const bySheath =
    loom.setting === 'boat' && !wires.every(isSheathed) && lengthMm <= sheathed
      ? `, or sheathe ${listOf(wires.map(({ id }) => id))} over its whole length (limit then ${formatLength(sheathed)})`
      : ''
  return found({
    subject: fuse.address,
    what: `${fuse.id} sits ${formatLength(lengthMm)} of wire from ${source.address} (limit ${formatLength(Math.round(limit.mm))})`,
    why: `${wires.map((wire) => `${wire.id} ${formatLength(wire.lengthMm ?? 0)}`).join(' + ')}${
      loom.setting === 'boat' ? (wires.every(isSheathed) ? ', sheathed' : ', not sheathed') : ''
    } (${limit.source}): nothing protects the wire up to the fuse.`,
    fix: `Move ${fuse.id} to within ${formatLength(Math.round(limit.mm))} of ${source.address}${bySheath}.`,
    facts: {
      length: { value: lengthMm, unit: 'mm' },
      limit: { value: limit.mm, unit: 'mm' },
      source: { value: source.address },
    },
    at: wires[0]?.at ?? fuse.at,
    marks: [source.address, ...wires.map(({ address }) => address), ...fuseEnds(links)],
  })
}

const fuseEnds = (links: readonly Link[]): readonly string[] => {
  const last = links.at(-1)
  return last ? [last.a.address, last.b.address] : []
}

export const fuseNearSource: Rule = {
  id: 'fuse-near-source',
  title: 'The fuse sits close to the source',
  family: 'power',
  level: 'stop',
  covers: ['W2'],
  reason:
    'Between the battery and the fuse nothing limits the current. The shorter and the better covered that piece, the smaller the chance that it is the piece that chafes.',
  remedy: 'Move the fuse to the source; on a boat a sheath over the whole piece allows a longer one.',
  needs: 'lengths of the conductors before the fuse, on a boat also whether they are sheathed',
  sources: [
    '33 CFR 183.455(b): 7 in, or 40 in in a sheath',
    'ABYC E-11: 72 in in a sheath from a battery terminal',
    'FCS 1362 UK code of practice §4.6.3; on vehicles the distance is shop policy',
  ],
  examples: { trips: vehicleExample({ toFuse: '1 m' }), passes: vehicleExample() },
  *check({ loom, paths }) {
    for (const source of paths.supply.sources) {
      if (limitsItself(source)) continue
      for (const first of paths.supply.unfused(source).firstFuses) {
        const outcome = judge(loom, source, first)
        if (outcome) yield outcome
      }
    }
  },
}
