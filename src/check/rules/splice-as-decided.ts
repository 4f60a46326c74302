import { cell, load, wired } from '../examples/wired.ts'
import { count, found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (kind: 'crimp' | 'solder') =>
  wired({
    units: { supply: cell({ maxAmps: '2 A' }), lamp: load('1 A') },
    components: [{ id: 'F1', kind: 'fuse', rating: '2 A' }],
    runs: [
      ['supply.1', 'F1.in', { length: '0.1 m' }],
      ['F1.out', 'SP1'],
      ['SP1', 'lamp.1'],
      ['lamp.2', 'supply.2'],
    ],
    harness: { splices: [{ id: 'SP1', kind }] },
    place: { setting: 'vehicle' },
  })

export const spliceAsDecided: Rule = {
  id: 'splice-as-decided',
  title: 'Splices are made as the shop has decided',
  family: 'crimping',
  level: 'warning',
  covers: ['C10'],
  reason:
    'Solder wicks up the strands and makes them one stiff rod that breaks where it ends; crimped and sleeved they share the bending. Others solder and sleeve every splice and support both sides. Guidance differs, so the policy decides, and one loom is not made in two ways.',
  remedy: 'Crimp and sleeve it, or state "solder-allowed" in the policy with the reason.',
  needs: '"kind" of the splices, and policy "splices"',
  sources: ['FAA AC 43.13-1B ¶11-178', 'NASA-STD-8739.4', 'common practice'],
  examples: { trips: example('solder'), passes: example('crimp') },
  *check({ loom }) {
    if (loom.settings.splices !== 'crimp-only') return
    if (loom.setting !== 'vehicle' && loom.setting !== 'boat') return
    for (const use of loom.looms)
      for (const { id, kind } of use.harness.splices ?? []) {
        if (kind !== 'solder') continue
        const terminal = loom.terminalAt.get(`${use.id}.${id}`)
        const wires = loom.conductors.filter(
          ({ from, to }) => terminal && (from === terminal || to === terminal),
        )
        yield found({
          subject: `${use.id}.${id}`,
          what: `The splice ${id} is soldered, and the shop crimps splices in a ${loom.setting}`,
          why: `${count(wires.length, 'wire')} end${wires.length === 1 ? 's' : ''} in solder there; where the solder stops each bends at one point only.`,
          fix: 'Crimp and sleeve it and hold it on both sides, or allow solder in the policy and say why.',
          facts: { wires: { value: wires.length } },
          at: terminal?.at ?? use.at,
          marks: [`${use.id}.${id}`, ...wires.map(({ address }) => address)],
        })
      }
  },
}
