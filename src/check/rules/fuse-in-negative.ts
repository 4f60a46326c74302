import type { ComponentUse } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found } from '../outcome.ts'
import { fusesOf } from '../queries/protected-conductors.ts'
import type { Rule, RuleContext } from '../rule.ts'

const example = (inNegative: boolean) =>
  exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf(
        'battery',
        socket('J1', 'row-2', {
          '1': { kind: 'supply-out', port: 'b', volts: '12..14.4 V', battery: true, feed: 'permanent' },
          '2': { kind: 'return', port: 'b' },
        }),
      ),
      unitOf(
        'radio',
        socket('J2', 'row-2', {
          '1': { kind: 'supply-in', port: 'dc', volts: '10..16 V', amps: '5 A' },
          '2': { kind: 'return', port: 'dc' },
        }),
      ),
    ],
    harness: {
      bundled: 2,
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'battery.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'radio.J2' },
      ],
      components: [
        { id: 'F1', kind: 'fuse', rating: '10 A' },
        ...(inNegative ? [{ id: 'F2', kind: 'fuse', rating: '10 A' } as const] : []),
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'F1.in', size: '2.5 mm²', length: '0.1 m' },
        { id: 'A02', from: 'F1.out', to: 'P2.1', size: '2.5 mm²', length: '2 m' },
        { id: 'A03', from: 'P2.2', to: inNegative ? 'F2.in' : 'P1.2', size: '2.5 mm²', length: '2 m' },
        ...(inNegative
          ? [{ id: 'A04', from: 'F2.out', to: 'P1.2', size: '2.5 mm²', length: '0.1 m' } as const]
          : []),
      ],
    },
  })

/** In a return: joined to ground, and no source feeds it. */
function isInNegative({ paths }: RuleContext, fuse: ComponentUse): boolean {
  const ends = [...fuse.terminals.values()]
  const fed = paths.supply.sources.some((source) => ends.some((end) => paths.supply.tree(source).has(end)))
  return !fed && ends.some((end) => paths.nets.isGround(paths.nets.net(end)))
}

export const fuseInNegative: Rule = {
  id: 'fuse-in-negative',
  title: 'Fuses in the negative follow the policy of the shop',
  family: 'power',
  level: 'warning',
  covers: ['W20'],
  reason:
    'When a fuse in the negative opens, the set stays live and its current looks for another way home: the braid of the antenna feeder, a screen, a data ground. Guidance differs: the UK code for fire and covert installations says none; one US state asks for one at the battery post; a rule for commercial vessels wants one in each battery conductor.',
  remedy: 'Take it out and let the fuse in the feed protect both legs, or set fuseNegative to "allow".',
  needs: 'the fuses, and which pins are returns; policy fuseNegative',
  sources: [
    'FCS 1362 UK code of practice §4.6.4: none',
    '46 CFR 111.15-25 and a state specification: in each conductor',
  ],
  examples: { trips: example(true), passes: example(false) },
  *check(context) {
    if (context.loom.settings.fuseNegative === 'allow') return
    for (const fuse of fusesOf(context.loom)) {
      if (!isInNegative(context, fuse)) continue
      const ends = [...fuse.terminals.values()]
      const wires = context.loom.conductors.filter(({ from, to }) =>
        ends.some((end) => end === from || end === to),
      )
      yield found({
        subject: fuse.address,
        what: `${fuse.id} sits in a negative conductor`,
        why: `It lies in ${wires.map(({ id }) => id).join(' and ') || 'a return'} and the policy says none: when it opens, the set stays live and its current goes home by a braid or a screen.`,
        fix: `Take ${fuse.id} out and join ${wires.map(({ id }) => id).join(' and ') || 'the return'}; the fuse in the feed protects both legs.`,
        facts: { fuse: { value: fuse.address }, policy: { value: context.loom.settings.fuseNegative } },
        at: fuse.at,
        marks: [...wires.map(({ address }) => address), ...ends.map(({ address }) => address)],
      })
    }
  },
}
