import type { Level } from '../../base/finding.ts'
import { formatAmps, formatTimes } from '../../base/format-quantity.ts'
import type { ComponentUse, Link, Loom } from '../../resolve/loom.ts'
import { fuseRating } from '../../solve/fuse-rating.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (maxAmps: '5 A' | '15 A') =>
  wired({
    units: { supply: cell(), lamp: load('3 A') },
    components: [
      { id: 'F1', kind: 'fuse', rating: '10 A' },
      {
        id: 'S1',
        kind: 'switch',
        maxAmps,
        closed: ['standby', 'receive', 'transmit'],
      },
    ],
    runs: [
      ['supply.1', 'F1.in', { size: '2.5 mm²', length: '0.1 m' }],
      ['F1.out', 'S1.1', { size: '2.5 mm²' }],
      ['S1.2', 'lamp.1', { size: '2.5 mm²' }],
      ['lamp.2', 'supply.2', { size: '2.5 mm²' }],
    ],
  })

/** Share of its rating above which a contact is judged by its load. */
const BUSY = 0.5

interface Weak {
  readonly address: string
  readonly words: string
  readonly amps: number
  readonly level: Level
}

/** The rating of what a link goes through, where one is stated. */
function rated({ kind, component, a, b }: Link): Omit<Weak, 'level'> | undefined {
  const source = component?.source
  if (component && (source?.kind === 'switch' || source?.kind === 'relay') && source.maxAmps !== undefined)
    return { address: component.address, words: `${source.kind} ${component.id}`, amps: source.maxAmps }
  if (kind !== 'mate') return undefined
  const pin = a.half?.family?.amps !== undefined ? a : b
  const amps = pin.half?.family?.amps
  return amps === undefined ? undefined : { address: pin.address, words: `contact ${pin.address}`, amps }
}

const weakHolder = (fuse: ComponentUse, rating: number): Weak | undefined => {
  const holder = fuse.source.kind === 'fuse' ? fuse.source.holderAmps : undefined
  return holder === undefined || holder >= rating
    ? undefined
    : { address: fuse.address, words: `holder of ${fuse.id}`, amps: holder, level: 'stop' }
}

function tell(loom: Loom, fuse: ComponentUse, rating: number, weak: Weak): Outcome {
  return found({
    subject: weak.address,
    level: weak.level,
    what: `The ${weak.words} is rated ${formatAmps(weak.amps)} and stands behind ${fuse.id} of ${formatAmps(rating)}`,
    why: `The fuse lets ${formatAmps(rating)} flow for good, ${formatTimes(rating / weak.amps, 1)} times what that part bears.`,
    fix: `Use a part for ${formatAmps(rating)} or more, or a fuse of ${formatAmps(weak.amps)} or less if the load allows it.`,
    facts: { rating: { value: weak.amps, unit: 'A' }, fuse: { value: rating, unit: 'A' } },
    at: loom.terminalAt.get(weak.address)?.at ?? fuse.at,
    notes: [{ text: 'the fuse before it', at: fuse.at }],
    marks: [weak.address, fuse.address],
  })
}

export const partsOutlastFuse: Rule = {
  id: 'parts-outlast-fuse',
  title: 'Holders, switches, relays and contacts bear what their fuse lets through',
  family: 'power',
  level: 'stop',
  covers: ['W8'],
  reason:
    'A fuse protects only what bears its rating. A switch or contact rated below it burns or welds under an overload that the fuse never notices.',
  remedy: 'Choose a part rated for the fuse, or a smaller fuse.',
  needs: 'the ratings of fuses, holders, switches, relays and connector families',
  sources: ['common practice'],
  examples: { trips: example('5 A'), passes: example('15 A') },
  *check({ loom, paths, solution }) {
    const told = new Set<string>()
    for (const load of loom.terminals) {
      if (load.on !== 'equipment' || load.does.kind !== 'supply-in') continue
      for (const { links } of paths.supply.supplies(load)) {
        let fuse: ComponentUse | undefined
        for (const link of links) {
          if (link.kind === 'fuse') fuse = link.component
          const rating = fuse && fuseRating(fuse)
          if (!fuse || rating === undefined) continue
          const part = link.kind === 'fuse' ? undefined : rated(link)
          // A contact that works hard is judged by its load.
          const amps = solution.worstLinkAmps.get(link)?.amps ?? 0
          if (part && link.kind === 'mate' && amps > part.amps * BUSY) continue
          // Behind a larger fuse a contact is at risk only in a fault.
          const weak =
            link.kind === 'fuse'
              ? weakHolder(fuse, rating)
              : part && part.amps < rating
                ? { ...part, level: link.kind === 'mate' ? ('note' as const) : ('stop' as const) }
                : undefined
          if (!weak || told.has(weak.address)) continue
          told.add(weak.address)
          yield tell(loom, fuse, rating, weak)
        }
      }
    }
  },
}
