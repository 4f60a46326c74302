import type { CableUse } from '../../resolve/loom.ts'
import { wired } from '../examples/wired.ts'
import { count, found, listOf } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (spareCores: 'capped' | undefined) =>
  wired({
    units: { box: { pins: { '1': { name: 'A' } } }, panel: { pins: { '1': { name: 'A' } } } },
    parts: [
      {
        kind: 'cable',
        id: 'control-3',
        title: 'Control cable, 3 cores',
        cores: ['1', '2', '3'].map((name) => ({ name, size: '0.5 mm²' as const })),
      },
    ],
    cables: [
      {
        id: 'W1',
        part: 'control-3',
        length: '2 m',
        cores: [{ core: '1', from: 'box.1', to: 'panel.1' }],
        ...(spareCores ? { spareCores } : {}),
      },
    ],
  })

const isUnfinished = ({ spare, source }: CableUse): boolean =>
  spare.length > 0 && source.spareCores === undefined

export const spareCoresFinished: Rule = {
  id: 'spare-cores-finished',
  title: 'Spare cores are listed and finished',
  family: 'pins',
  level: 'note',
  covers: ['P12'],
  reason:
    'A spare core cut flush touches its neighbours in the hood, and one left long picks up what they carry. The next person wants to know it is there.',
  remedy: 'Cap it and fold it back with a label, or cut it off at both ends; say which.',
  needs: 'the cores of the cable, and "spareCores" of its run',
  sources: ['FCS 1362:2010 §4.5.1.2', 'public fire-apparatus specifications: end caps on unused wires'],
  examples: { trips: example(undefined), passes: example('capped') },
  *check({ loom }) {
    for (const use of loom.looms)
      for (const cable of use.cables) {
        if (!isUnfinished(cable)) continue
        const cores = cable.part?.cores.length ?? 0
        yield found({
          subject: cable.address,
          what: `${cable.id} has ${count(cable.spare.length, 'spare core')} (${listOf(cable.spare)}) and nothing says how ${cable.spare.length === 1 ? 'it is' : 'they are'} finished`,
          why: `${cores} cores, ${cores - cable.spare.length} used: the rest end somewhere in both plugs.`,
          fix: 'State spareCores: "capped", "folded-back" or "cut-off"; a sleeve over the end and a label is the usual way.',
          facts: { spare: { value: cable.spare.join(' ') }, cores: { value: cores } },
          at: cable.at,
          marks: cable.conductors.map(({ address }) => address),
        })
      }
  },
}
