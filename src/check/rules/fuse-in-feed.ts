import { formatAmps, formatVolts } from '../../base/format-quantity.ts'
import type { Conductor, Loom, Terminal } from '../../resolve/loom.ts'
import { isBattery } from '../../solve/supply-paths.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf } from '../outcome.ts'
import { ampacityOf } from '../queries/ampacity-of.ts'
import { pinWords } from '../queries/pin-words.ts'
import { circuitOf, onlySignals, straySupply } from '../queries/stray-supply.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (fused: boolean) =>
  exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf(
        'panel',
        socket('J1', 'row-2', {
          '1': { kind: 'supply-out', port: 'out', volts: '12..14.4 V', feed: 'permanent' },
          '2': { kind: 'return', port: 'out' },
        }),
      ),
      unitOf(
        'lamp',
        socket('J2', 'row-2', {
          '1': { kind: 'supply-in', port: 'dc', volts: '9..16 V', amps: '1 A' },
          '2': { kind: 'return', port: 'dc' },
        }),
      ),
    ],
    harness: {
      bundled: 2,
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'panel.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'lamp.J2' },
      ],
      ...(fused ? { components: [{ id: 'F1', kind: 'fuse', rating: '3 A' }] } : {}),
      wires: [
        ...(fused
          ? ([
              { id: 'A01', from: 'P1.1', to: 'F1.in', size: '1 mm²', length: '0.1 m' },
              { id: 'A03', from: 'F1.out', to: 'P2.1', size: '1 mm²', length: '2 m' },
            ] as const)
          : ([{ id: 'A01', from: 'P1.1', to: 'P2.1', size: '1 mm²', length: '2 m' }] as const)),
        { id: 'A02', from: 'P2.2', to: 'P1.2', size: '1 mm²', length: '2 m' },
      ],
    },
  })

/** A branch that leaves a source and never meets a fuse, by the conductor it leaves with. */
interface Branch {
  readonly source: Terminal
  readonly first: Conductor
  readonly conductors: readonly Conductor[]
}

function unfusedBranches({ paths }: RuleContext): readonly Branch[] {
  return paths.supply.sources.flatMap((source) => {
    const { dead } = paths.supply.unfused(source)
    const tree = paths.supply.tree(source)
    const byFirst = new Map<Conductor, Conductor[]>()
    for (const conductor of dead) {
      const { from, to } = conductor
      if (!from || !to) continue
      const far = tree.rank(from) > tree.rank(to) ? from : to
      const first = tree.pathTo(far)?.find((link) => link.conductor)?.conductor ?? conductor
      byFirst.set(first, [...(byFirst.get(first) ?? []), conductor])
    }
    return [...byFirst].map(([first, conductors]) => ({ source, first, conductors }))
  })
}

/** Most the source can deliver, where it limits that itself; a battery does not, whatever its pin says. */
const ownLimit = (source: Terminal): number | undefined =>
  source.does.kind === 'supply-out' && !isBattery(source) ? source.does.maxAmps : undefined

/** Whether every conductor bears for good what the source can give. */
function bears(loom: Loom, conductors: readonly Conductor[], amps: number): boolean {
  return conductors.every((conductor) => {
    const rating = ampacityOf(loom, conductor)
    return rating === undefined || rating.amps >= amps
  })
}

function report({ loom, paths }: RuleContext, { source, first, conductors }: Branch): Outcome | undefined {
  const limit = ownLimit(source)
  if (limit !== undefined && bears(loom, conductors, limit)) return undefined
  const reached = conductors
    .flatMap(({ from, to }) => [from, to])
    .flatMap((end) => (end ? [end, ...paths.nets.matesOf(end)] : []))
    .filter((pin) => pin.on === 'equipment' && pin !== source)
  const volts = source.does.kind === 'supply-out' ? source.does.volts?.max : undefined
  const strong =
    isBattery(source) ||
    (source.does.kind === 'supply-out' && source.does.feed === 'permanent') ||
    limit !== undefined
  const ids = [...new Set(conductors.map(({ id }) => id))]
  const circuit = onlySignals(reached) ? circuitOf(loom, source) : undefined
  const thin = conductors.map((each) => ampacityOf(loom, each)?.amps ?? Number.POSITIVE_INFINITY)
  const least = Math.min(...thin)
  return found({
    subject: first.address,
    level: strong ? 'stop' : 'warning',
    what: `No fuse in ${listOf(ids)} from ${pinWords(source)}`,
    why: `${volts === undefined ? 'The supply' : formatVolts(volts)} reaches ${listOf([...new Set(reached.map((pin) => pin.address))], 4) || 'the far end'} with no fuse on the way; ${
      limit === undefined
        ? 'nothing says how much the source can deliver into a short'
        : `the source delivers ${formatAmps(limit)} and the thinnest conductor bears ${formatAmps(least)}`
    }.`,
    fix: `Put a fuse in ${first.id} at ${source.address}${Number.isFinite(least) ? `, at most ${formatAmps(Math.floor(least))}` : ''}${
      isBattery(source) ? '' : ', or state what the source is limited to'
    }.`,
    facts: {
      source: { value: source.address },
      conductors: { value: ids.length },
      ...(volts === undefined ? {} : { volts: { value: volts, unit: 'V' } }),
      ...(limit === undefined ? {} : { sourceLimit: { value: limit, unit: 'A' } }),
    },
    at: first.at,
    ...(circuit ? { cause: straySupply(source, circuit) } : {}),
    marks: [source.address, ...conductors.map(({ address }) => address)],
  })
}

export const fuseInFeed: Rule = {
  id: 'fuse-in-feed',
  title: 'Every conductor on a supply has a fuse before it',
  family: 'power',
  level: 'stop',
  covers: ['W1'],
  reason:
    'A battery gives hundreds of amperes into a chafed wire. Without a fuse at the source the wire is the fuse, and it burns along its whole length.',
  remedy: 'Put a fuse at the source end of the branch, small enough for its thinnest conductor.',
  needs: 'which pins are supplies, the fuses, and what an output that limits itself can deliver',
  sources: ['FCS 1362 UK code of practice §4.6.3', 'common practice'],
  examples: { trips: example(false), passes: example(true) },
  *check(context) {
    for (const branch of unfusedBranches(context)) {
      const outcome = report(context, branch)
      if (outcome) yield outcome
    }
  },
}
