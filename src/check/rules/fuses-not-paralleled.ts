import { formatAmps } from '../../base/format-quantity.ts'
import type { Link } from '../../resolve/loom.ts'
import { fuseRating } from '../../solve/fuse-rating.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found, listOf } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (second: boolean) =>
  wired({
    units: { supply: cell(), lamp: load('2 A') },
    components: [
      { id: 'F1', kind: 'fuse', rating: '5 A' },
      ...(second ? [{ id: 'F2', kind: 'fuse' as const, rating: '5 A' as const }] : []),
    ],
    splices: second ? ['SP1', 'SP2'] : [],
    runs: second
      ? [
          ['supply.1', 'SP1', { size: '2.5 mm²', length: '0.1 m' }],
          ['SP1', 'F1.in', { size: '2.5 mm²', length: '0.1 m' }],
          ['SP1', 'F2.in', { size: '2.5 mm²', length: '0.1 m' }],
          ['F1.out', 'SP2', { size: '2.5 mm²' }],
          ['F2.out', 'SP2', { size: '2.5 mm²' }],
          ['SP2', 'lamp.1', { size: '2.5 mm²' }],
          ['lamp.2', 'supply.2', { size: '2.5 mm²' }],
        ]
      : [
          ['supply.1', 'F1.in', { size: '2.5 mm²', length: '0.1 m' }],
          ['F1.out', 'lamp.1', { size: '2.5 mm²' }],
          ['lamp.2', 'supply.2', { size: '2.5 mm²' }],
        ],
  })

export const fusesNotParalleled: Rule = {
  id: 'fuses-not-paralleled',
  title: 'Two fuses are never put side by side for a larger rating',
  family: 'power',
  level: 'stop',
  covers: ['W5'],
  reason:
    'Two fuses in parallel do not share the current evenly, and a fault may find the sum of both ratings. When one has gone nobody sees it, and the other goes under load.',
  remedy: 'Fit one fuse of the right rating, with wire to match.',
  needs: 'the fuses and what they are wired to',
  sources: ['FCS 1362:2010 §4.6.3'],
  examples: { trips: example(true), passes: example(false) },
  *check({ loom }) {
    const byNets = new Map<string, Link[]>()
    for (const link of loom.links) {
      if (link.kind !== 'fuse') continue
      const nets = [loom.netOf[link.a.index] ?? -1, loom.netOf[link.b.index] ?? -1].sort((a, b) => a - b)
      if (nets[0] === nets[1]) continue
      const key = nets.join(' ')
      byNets.set(key, [...(byNets.get(key) ?? []), link])
    }
    for (const links of byNets.values()) {
      const fuses = links.flatMap(({ component }) => (component ? [component] : []))
      const last = fuses.at(-1)
      if (fuses.length < 2 || !last) continue
      const sum = fuses.reduce((all, fuse) => all + (fuseRating(fuse) ?? 0), 0)
      yield found({
        subject: last.address,
        what: `${listOf(fuses.map((fuse) => fuse.id))} lie side by side between the same two points`,
        why: `A short has to blow all of them: up to ${formatAmps(sum)} may flow for good in a wire meant for one.`,
        fix: 'Keep one fuse, rated for the load and the wire, and take the others out.',
        facts: { fuses: { value: fuses.length }, sum: { value: sum, unit: 'A' } },
        at: last.at,
        notes: fuses.slice(0, -1).map((fuse) => ({ text: `beside ${fuse.id}`, at: fuse.at })),
        marks: fuses.map((fuse) => fuse.address),
      })
    }
  },
}
