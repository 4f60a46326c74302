import type { Conductor, Terminal } from '../../resolve/loom.ts'
import { type Tree, throughSupply, walk } from '../../solve/reach.ts'
import { returnPin } from '../../solve/return-pin.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (own: boolean) =>
  wired({
    units: { station: cell({ maxAmps: '0.1 A' }), pack: load('0.05 A') as ReturnType<typeof load> },
    cables: [
      {
        id: 'W1',
        part: 'screened-2x2x0.22',
        length: '2 m',
        spareCores: 'cut-off',
        cores: [
          { core: '1a', from: 'station.1', to: 'pack.1' },
          ...(own ? [{ core: '1b', from: 'station.2', to: 'pack.2' }] : []),
        ],
        shields: own
          ? [{ shield: 'screen', from: 'station.shell' }]
          : [{ shield: 'screen', from: 'station.2', to: 'pack.2', bothEnds: 'carries the return' }],
      },
    ],
  })

const declared = ({ source }: Conductor): boolean => 'returns' in source && source.returns === true

export const screenSoleReturn: Rule = {
  id: 'screen-sole-return',
  title: 'A screen is not the only return of a supply',
  family: 'grounding',
  level: 'stop',
  covers: ['G5'],
  reason:
    'When the braid frays the load loses its return and looks for another: through the signal, or not at all. The supply current also puts its hum on the screen.',
  remedy: 'Use a core for the return, and leave the screen to the field.',
  needs: 'where screens land; "returns" on a screen that carries a supply on purpose, as on a party line',
  sources: ['common practice'],
  examples: { trips: example(false), passes: example(true) },
  *check({ loom, solution, paths }) {
    const trees = new Map<Terminal, Tree>()
    const told = new Set<string>()
    for (const state of solution.states)
      for (const { terminal, back, source, amps } of state.loads) {
        const home = returnPin(source)
        if (!back || !home || amps <= 0) continue
        const tree =
          trees.get(home) ??
          walk(loom, home, (link, from) => link.conductor?.kind !== 'shield' && throughSupply(link, from))
        trees.set(home, tree)
        if (tree.has(back)) continue
        const path = paths.supply.returnPath(terminal, source)
        const screen = path?.links.find(({ conductor }) => conductor?.kind === 'shield')?.conductor
        // The stations of a party line have their common on the screen by custom, unless the shop judges it.
        const shared = loom.settings.partyLineCommon === 'shared'
        if (shared && [terminal, source].every((pin) => pin.half?.unit?.equipment.role === 'intercom'))
          continue
        if (!screen || declared(screen) || told.has(screen.address)) continue
        told.add(screen.address)
        yield found({
          subject: screen.address,
          what: `The screen ${screen.id} is the only return of ${terminal.address}`,
          why: 'With the screen taken out there is no way back to the supply.',
          fix: `Take a core for the return of ${terminal.address}, or say "returns" on the screen if that is meant.`,
          facts: { load: { value: terminal.address } },
          at: screen.at,
          marks: [screen.address, terminal.address],
        })
      }
  },
}
