import type { Installation } from '../../describe/installation.ts'
import type { Link, Loom, Terminal } from '../../resolve/loom.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (structure: 'metal' | 'non-conductive') =>
  wired({
    units: {
      supply: cell(),
      lamp: load('2 A'),
      body: {
        role: 'chassis',
        pins: { '1': { kind: 'chassis' }, '2': { kind: 'chassis' } },
        joins: [{ pins: ['J.1', 'J.2'] }],
      },
    },
    components: [{ id: 'F1', kind: 'fuse', rating: '5 A' }],
    runs: [
      ['supply.1', 'F1.in', { size: '2.5 mm²', length: '0.1 m' }],
      ['F1.out', 'lamp.1', { size: '2.5 mm²' }],
      ['lamp.2', 'body.1', { size: '2.5 mm²' }],
      ['body.2', 'supply.2', { size: '2.5 mm²' }],
    ],
    place: { structure },
  })

const isBody = (terminal: Terminal): boolean =>
  terminal.on === 'equipment' && terminal.does.kind === 'chassis'

/** Where a return leaves the wires and goes through body metal. */
function throughBody(links: readonly Link[]): Link | undefined {
  return links.find(({ kind, a, b }) => (kind === 'join' || kind === 'bond') && isBody(a) && isBody(b))
}

function noReturnZone(loom: Loom, { half }: Terminal): string | undefined {
  const zone = half?.zone ?? half?.unit?.zone
  if (zone === undefined || loom.kind !== 'installation') return undefined
  const described = (loom.source as Installation).zones?.find((entry) => entry.id === zone)
  return described?.bodyReturn === false ? zone : undefined
}

export const bodyReturnAbsent: Rule = {
  id: 'body-return-absent',
  title: 'Body metal is a return only where it is one',
  family: 'power',
  level: 'stop',
  covers: ['W12'],
  reason:
    'A plastic hull, a door, a lid or a trailer has no lasting metal path to the battery. The current goes through hinges, bearings or screens instead, until something burns or stops.',
  remedy: 'Run a return wire of the size of the feed.',
  needs: 'structure of the installation, and "bodyReturn" of zones such as doors and trailers',
  sources: ['van body-equipment manual §4.1.5, as reported', 'common practice'],
  examples: { trips: example('non-conductive'), passes: example('metal') },
  *check({ loom, solution, paths }) {
    const told = new Set<Terminal>()
    for (const state of solution.states)
      for (const { terminal, source, back } of state.loads) {
        if (!back || told.has(terminal)) continue
        const path = paths.supply.returnPath(terminal, source)
        const body = path && throughBody(path.links)
        if (!body) continue
        const zone =
          noReturnZone(loom, terminal) ?? [body.a, body.b].map((pin) => noReturnZone(loom, pin)).find(Boolean)
        if (loom.structure !== 'non-conductive' && zone === undefined) continue
        told.add(terminal)
        yield found({
          subject: terminal.address,
          what: `The return of ${terminal.address} goes through body metal that is no return${zone === undefined ? '' : ` (zone ${zone})`}`,
          why: `From ${body.a.address} to ${body.b.address} there is no wire, and ${zone === undefined ? 'the structure does not conduct' : 'that metal moves or ends'}.`,
          fix: `Run a wire from ${back.address} back to ${source.address.split('.')[0]}, as thick as the feed.`,
          facts: { load: { value: terminal.address } },
          at: terminal.at,
          marks: [terminal.address, back.address, body.a.address, body.b.address],
        })
      }
  },
}
