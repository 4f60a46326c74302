import { formatLength, significant } from '../../base/format-quantity.ts'
import { bothSizes } from '../../base/wire-size.ts'
import type { Conductor } from '../../resolve/loom.ts'
import type { LaidBranch } from '../../solve/lay.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf, unknown } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (strands: number) =>
  wired({
    units: { switch: { pins: { '1': { name: 'A' } } }, lamp: { pins: { '1': { name: 'A' } } } },
    parts: [
      { kind: 'wire', id: 'door-wire', title: 'Example wire', size: '0.75 mm²', od: '1.9 mm', strands },
    ],
    runs: [['switch.1', 'lamp.1', { size: '0.75 mm²', part: 'door-wire', length: '1.2 m' }]],
    harness: {
      branches: [
        { from: 'P1', to: 'B1', length: '400 mm', flex: { across: 'hinge', loop: 'twist', travel: '60 mm' } },
        { from: 'B1', to: 'P2', length: '500 mm' },
      ],
    },
  })

/** Thickest strand of a flexible conductor by area up to, in mm²: IEC 60228 table 3, class 5. */
const CLASS_5: readonly (readonly [upToMm2: number, strandMm: number])[] = [
  [1, 0.21],
  [2.5, 0.26],
  [6, 0.31],
  [50, 0.41],
]
/** Strands are made to 0.01 mm and areas are nominal. */
const SLACK = 1.1

interface Strand {
  readonly wire: Conductor
  readonly strands: number
  readonly mm: number
  readonly limitMm: number
}

function strandOf(wire: Conductor): Strand | undefined {
  const strands = (wire.wirePart ?? wire.cable?.part)?.strands
  const area = wire.size?.areaMm2
  const limit = CLASS_5.find(([upTo]) => area !== undefined && area <= upTo * 1.02)
  if (strands === undefined || area === undefined || !limit) return undefined
  return { wire, strands, mm: Math.sqrt((4 * area) / (Math.PI * strands)), limitMm: limit[1] }
}

/** "across the hinge of door.B1-P2" */
const where = ({ source, address }: LaidBranch): string => `across the ${source.flex?.across} in ${address}`

function loopOf(branch: LaidBranch): Outcome | undefined {
  const { flex } = branch.source
  if (!flex) return undefined
  if (flex.loop === undefined)
    return unknown(
      branch.address,
      `needs how the loom takes the movement ${where(branch)} (flex.loop)`,
      branch.at,
    )
  if (flex.loop === 'twist' || (flex.loop === 'bend' && flex.across === 'slide')) return undefined
  const none = flex.loop === 'none'
  return found({
    subject: branch.address,
    what: `The loom is ${none ? 'stretched' : 'bent'} ${where(branch)}`,
    why: none
      ? `0 mm of loop${flex.travel ? ` for a movement of ${formatLength(flex.travel)}` : ''}: each opening pulls on the strands and on the first plug.`
      : 'Bending works one spot of every strand to and fro until it breaks; twisted along the hinge the same movement is spread over its whole length.',
    fix:
      flex.across === 'hinge'
        ? 'Lay it along the hinge line, so that it twists, and fix it on both sides.'
        : 'Leave a hanging loop that rolls, and fix it on both sides.',
    facts: { loop: { value: flex.loop }, across: { value: flex.across } },
    at: branch.at,
    marks: branch.conductors.map(({ address }) => address),
  })
}

function coarse(branch: LaidBranch, { wire, strands, mm, limitMm }: Strand): Outcome {
  const size = wire.size ? bothSizes(wire.size) : ''
  return found({
    subject: wire.address,
    what: `${wire.id} is ${strands === 1 ? 'solid' : `of ${strands} strands`} and moves ${where(branch)}`,
    why: `${size} in ${strands} ${strands === 1 ? 'strand is' : 'strands are'} ${significant(mm, 2)} mm thick each; a flexible conductor has ${limitMm} mm at most (IEC 60228 class 5).`,
    fix: `Use fine-stranded wire for ${wire.id}, ${Math.ceil((strands * mm ** 2) / limitMm ** 2)} strands or more.`,
    facts: {
      strand: { value: mm, unit: 'mm' },
      limit: { value: limitMm, unit: 'mm' },
      strands: { value: strands },
    },
    at: wire.at,
    marks: [wire.address],
  })
}

function* strandsOf(branch: LaidBranch): Iterable<Outcome> {
  const wires = branch.conductors.filter(({ kind }) => kind !== 'shield')
  const silent = wires.filter((wire) => !strandOf(wire))
  for (const wire of wires) {
    const strand = strandOf(wire)
    if (strand && (strand.strands === 1 || strand.mm > strand.limitMm * SLACK)) yield coarse(branch, strand)
  }
  if (silent.length > 0)
    yield unknown(
      branch.address,
      `needs the strands of ${listOf([...new Set(silent.map(({ cable, id }) => cable?.id ?? id))])}, which move ${where(branch)}`,
      branch.at,
    )
}

export const flexLoop: Rule = {
  id: 'flex-loop',
  title: 'Where a loom moves it has a loop and fine strands',
  family: 'routing',
  level: 'warning',
  covers: ['E10'],
  reason:
    'A door is opened a hundred thousand times. Coarse strands break one by one at the spot that bends, and the wire still rings out until the last.',
  remedy: 'Fine strands, and a loop that twists along the hinge.',
  needs: '"flex" of branches across hinges and slides, and "strands" of what runs there',
  sources: ['FAA AC 43.13-1B ¶11-115', 'IEC 60228 table 3 for strands, from memory'],
  examples: { trips: example(7), passes: example(24) },
  *check({ loom, paths }) {
    for (const use of loom.looms)
      for (const branch of paths.lay(use)?.branches ?? []) {
        if (!branch.source.flex) continue
        const outcome = loopOf(branch)
        if (outcome) yield outcome
        yield* strandsOf(branch)
      }
  },
}
