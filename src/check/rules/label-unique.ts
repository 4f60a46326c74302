import type { Pointer } from '../../base/place.ts'
import { below } from '../../base/place.ts'
import { quote } from '../../base/quote.ts'
import type { Loom } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (second: string) =>
  exampleLead({
    parts: [rowHousing(4)],
    equipment: [
      unitOf(
        'station',
        socket('J1', 'row-4', { '1': { kind: 'signal-return' } }),
        socket('J2', 'row-4', { '1': { kind: 'signal-return' } }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'station.J1', label: 'COM A' },
        { id: 'P2', family: 'row-4', half: 'pin', fits: 'station.J2', label: second },
      ],
      wires: [{ id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.22 mm²' }],
    },
  })

interface Labelled {
  readonly address: string
  readonly label: string
  readonly at: Pointer
}

/** Labels of one kind within one harness: a plug and its own cable may say the same, two plugs may not. */
function* labels(loom: Loom): Iterable<readonly Labelled[]> {
  const taken = new Set<string>()
  for (const use of loom.looms) {
    if (taken.has(use.harness.id)) continue
    taken.add(use.harness.id)
    yield use.halves.flatMap(({ source, address, at }) =>
      'label' in source && source.label !== undefined ? [{ address, label: source.label, at }] : [],
    )
    yield use.cables.flatMap(({ source: { label }, address, at }) =>
      label === undefined ? [] : [{ address, label, at }],
    )
    yield loom.conductors.flatMap((wire) => {
      const label = wire.loom === use && 'label' in wire.source ? wire.source.label : undefined
      return label === undefined ? [] : [{ address: wire.address, label, at: wire.at }]
    })
  }
}

/** How a label reads at arm's length: case and spacing do not tell two apart. */
const asRead = (label: string): string => label.trim().toUpperCase().replace(/\s+/g, ' ')

export const labelUnique: Rule = {
  id: 'label-unique',
  title: 'No two labels read the same',
  family: 'papers',
  level: 'warning',
  covers: ['X2'],
  reason:
    'Whoever opens the panel in five years has the labels and nothing else. Two tails that read alike are plugged the wrong way round sooner or later.',
  remedy: 'Say on each label where it goes, at both ends.',
  needs: 'the label texts',
  sources: ['AV label standard F501.01, as reported', 'common practice'],
  examples: { trips: example('com  a'), passes: example('COM B') },
  *check({ loom }) {
    for (const group of labels(loom)) {
      const first = new Map<string, Labelled>()
      for (const entry of group) {
        const text = asRead(entry.label)
        const other = first.get(text)
        if (text === '' || !other) {
          first.set(text, entry)
          continue
        }
        yield found({
          subject: entry.address,
          what: `${other.address} and ${entry.address} are both labelled ${quote(entry.label)}`,
          why: 'Read at the panel the two cannot be told apart.',
          fix: 'Add where each one goes to its label.',
          facts: { label: { value: text }, other: { value: other.address } },
          at: below(entry.at, 'label'),
          notes: [{ text: `the first ${quote(other.label)}`, at: below(other.at, 'label') }],
          marks: [entry.address, other.address],
        })
      }
    }
  },
}
