import { COLOURS, parseColour } from '../../base/colour.ts'
import { quote } from '../../base/quote.ts'
import type { Conductor } from '../../resolve/loom.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { count, found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (id: string) =>
  wired({
    units: { supply: cell({ maxAmps: '2 A' }), lamp: load('1 A') },
    components: [{ id: 'F1', kind: 'fuse', rating: '2 A' }],
    runs: [
      ['supply.1', 'F1.in', { id: 'A01', length: '0.1 m', colour: 'RD' }],
      ['F1.out', 'lamp.1', { id, colour: 'RD' }],
      ['lamp.2', 'supply.2', { id: 'A03', colour: 'BK' }],
    ],
  })

const WORDS: ReadonlySet<string> = new Set(Object.values(COLOURS).map(({ word }) => word))

/** "RD", "red", "red-blue", "RDBU2": nothing that a grey print or a colour-blind eye can tell apart. */
export function isOnlyColour(text: string): boolean {
  const bare = text.trim().replace(/[\s_-]*\d*$/, '')
  if (bare === '') return false
  if (parseColour(bare.toUpperCase()).ok) return true
  return bare
    .toLowerCase()
    .split(/[\s_/-]+/)
    .every((word) => WORDS.has(word))
}

/** A core that has no number of its own carries that of its cable, which is a mark. */
const isNumbered = ({ kind, id, cable }: Conductor): boolean =>
  kind === 'shield' || (cable !== undefined && id.includes(cable.id)) || !isOnlyColour(id)

export const colourNotOnlyMark: Rule = {
  id: 'colour-not-only-mark',
  title: 'A wire has a number beside its colour',
  family: 'papers',
  level: 'warning',
  covers: ['X3'],
  reason:
    'One man in twelve mixes red with green, sodium light makes brown of both, and a black-and-white print of the drawing has no colours at all. A wire whose only name is its colour is then any of them.',
  remedy: 'Give it a number and print that at both ends; the colour stands beside it.',
  needs: 'the wire numbers',
  sources: ['AV label standard F501.01, as reported', 'common practice'],
  examples: { trips: example('red'), passes: example('A02') },
  *check({ loom }) {
    for (const wire of loom.conductors) {
      if (isNumbered(wire)) continue
      const alike = loom.conductors.filter((one) => one !== wire && wire.colour && one.colour === wire.colour)
      yield found({
        subject: wire.address,
        what: `The wire ${quote(wire.id)} has no mark but a colour`,
        why: `On a grey print it is one of ${count(loom.conductors.length, 'conductor')}; its colour is on ${alike.length === 0 ? 'no' : alike.length} other${alike.length > 1 ? 's' : ''}.`,
        fix: 'Number it, such as “A02”; drawings, labels and lists then print the number with the colour beside it.',
        facts: { wire: { value: wire.id }, alike: { value: alike.length } },
        at: wire.at,
        marks: [wire.address],
      })
    }
  },
}
