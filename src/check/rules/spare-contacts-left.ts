import type { DocumentInput } from '../../describe/document.ts'
import type { Half, Loom } from '../../resolve/loom.ts'
import { rowHousing, socket, unitOf } from '../examples/parts.ts'
import { count, found, listOf } from '../outcome.ts'
import { landings } from '../queries/landings.ts'
import type { Rule } from '../rule.ts'

const names = (howMany: number) => Array.from({ length: howMany }, (_, index) => `${index + 1}`)
const row = (howMany: number) => Object.fromEntries(names(howMany).map((pin) => [pin, { name: `S${pin}` }]))

/** Two looms that meet at a plug of ten ways, so many of them used. */
const example = (used: number): DocumentInput => ({
  loomwright: 1,
  parts: [rowHousing(10)],
  equipment: [
    unitOf('box', socket('J1', 'row-10', row(used))),
    unitOf('panel', socket('J2', 'row-10', row(used))),
  ],
  harnesses: [lead('lead', 'P1', 'box.J1', 'pin', used), lead('tail', 'P2', 'panel.J2', 'socket', used)],
  installations: [
    {
      id: 'job',
      title: 'Example job',
      units: [
        { id: 'box', of: 'box' },
        { id: 'panel', of: 'panel' },
      ],
      looms: [
        { id: 'lead', of: 'lead' },
        { id: 'tail', of: 'tail' },
      ],
      mates: [['lead.X1', 'tail.X1']],
    },
  ],
})

function lead(id: string, plug: string, fits: string, half: 'pin' | 'socket', used: number) {
  return {
    id,
    title: `Example ${id}`,
    connectors: [
      { id: plug, family: 'row-10', half: 'pin' as const, fits },
      { id: 'X1', family: 'row-10', half },
    ],
    wires: names(used).map((pin) => ({
      id: `${id === 'lead' ? 'A' : 'B'}${pin}`,
      from: `${plug}.${pin}`,
      to: `X1.${pin}`,
      size: '0.5 mm²' as const,
      length: '1 m' as const,
    })),
  }
}

/** In a smaller plug there is no room for spares, and the next size up is the answer when one is needed (common practice). */
const FROM_WAYS = 8

/** FAA AC 43.13-1B ¶11-234. */
const sparesFor = (ways: number): number => (ways <= 25 ? 2 : 4)

/** Joints whose size the loom maker chooses: those between two looms. Equipment fixes all others. */
const isOwnChoice = ({ side, mates, family }: Half): boolean =>
  side === 'harness' &&
  family !== undefined &&
  ['housing', 'circular', 'dsub'].includes(family.style) &&
  mates.some((mate) => mate.side === 'harness')

const pinsOf = (half: Half) => [...half.pins.values()].filter(({ name }) => name !== 'shell')

function* chosenHalves(loom: Loom): Iterable<Half> {
  const told = new Set<Half>()
  for (const half of loom.halves) {
    if (!isOwnChoice(half) || told.has(half) || pinsOf(half).length < FROM_WAYS) continue
    for (const mate of half.mates) told.add(mate)
    yield half
  }
}

export const spareContactsLeft: Rule = {
  id: 'spare-contacts-left',
  title: 'A plug between two looms has contacts to spare',
  family: 'pins',
  level: 'note',
  covers: ['P13'],
  reason:
    'The next accessory needs two wires through the same bulkhead. Without a free contact somebody drills a second hole or doubles up a crimp.',
  remedy: 'The next size of plug, with the outer cavities left free.',
  needs: 'the family of plugs that join two looms',
  sources: ['FAA AC 43.13-1B ¶11-234'],
  examples: { trips: example(9), passes: example(8) },
  *check({ loom }) {
    const wired = landings(loom)
    for (const half of chosenHalves(loom)) {
      const pins = pinsOf(half)
      const free = pins.filter((pin) => !wired.has(pin)).map(({ name }) => name)
      const wanted = sparesFor(pins.length)
      if (free.length >= wanted) continue
      yield found({
        subject: half.address,
        what: `${half.address} has ${count(free.length, 'contact')} to spare of ${pins.length} (usual ${wanted})`,
        why: `${pins.length - free.length} of ${pins.length} ways are wired${free.length > 0 ? `, free: ${listOf(free)}` : ''}; ${wanted} free are usual ${pins.length <= 25 ? 'up to 25 ways' : 'from 26 ways'}.`,
        fix: 'Take the next size of plug and leave the outer cavities free, plugged where it is sealed.',
        facts: { free: { value: free.length }, wanted: { value: wanted }, ways: { value: pins.length } },
        at: half.at,
        marks: [half.address],
      })
    }
  },
}
