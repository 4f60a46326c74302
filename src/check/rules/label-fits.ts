import { formatLength } from '../../base/format-quantity.ts'
import type { Pointer } from '../../base/place.ts'
import { below } from '../../base/place.ts'
import { quote } from '../../base/quote.ts'
import { cellOf, type LabelStock } from '../../describe/label-stock.ts'
import type { PolicyInput } from '../../describe/policy.ts'
import type { Conductor, Loom, LoomUse } from '../../resolve/loom.ts'
import { heatShrinkFor } from '../../solve/formulas/heat-shrink.ts'
import { labelLengthMm, sleeveLines, TEXT_MM, wrapHeightMm } from '../../solve/formulas/label-size.ts'
import { wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import { outsideMm } from '../queries/outside-mm.ts'
import type { Outcome, Rule } from '../rule.ts'

const labels: NonNullable<PolicyInput['labels']> = {
  longest: 20,
  stock: [{ id: 'wrap-a4', paper: 'a4', rows: 20, columns: 4, top: '13 mm', left: '8 mm' }],
}

const example = (label: string) => ({
  ...wired({
    units: {
      desk: { pins: { '1': { kind: 'signal-return' as const } } },
      radio: { pins: { '1': { kind: 'signal-return' as const } } },
    },
    parts: [{ kind: 'wire', id: 'hook-up', title: 'Example wire', size: '0.5 mm²', od: '1.6 mm' }],
    runs: [['desk.1', 'radio.1', { part: 'hook-up', label }]],
  }),
  policy: { labels },
})

/** Characters a wrap takes on a line when the shop states none. */
const USUAL_LONGEST = 24

/** Characters as a reader counts them: an accent set upon a letter is none of its own. */
const lengthOf = (text: string): number => [...text.replace(/\p{M}/gu, '')].length

interface Marked {
  readonly address: string
  readonly label: string
  readonly at: Pointer
  readonly wire?: Conductor
}

function* labelled(loom: Loom, use: LoomUse): Iterable<Marked> {
  for (const { source, address, at } of use.halves)
    if ('label' in source && source.label !== undefined) yield { address, label: source.label, at }
  for (const { source, address, at } of use.cables)
    if (source.label !== undefined) yield { address, label: source.label, at }
  for (const wire of loom.conductors)
    if (wire.loom === use && 'label' in wire.source && wire.source.label !== undefined)
      yield { address: wire.address, label: wire.source.label, at: wire.at, wire }
}

function tooLong({ settings }: Loom, { address, label, at }: Marked): Outcome | undefined {
  const stated = settings.stated.labels?.longest
  const limit = stated ?? USUAL_LONGEST
  const characters = lengthOf(label)
  if (characters <= limit) return undefined
  return found({
    subject: address,
    ...(stated === undefined ? { level: 'note' as const } : {}),
    what: `The label of ${address} has ${characters} characters and ${limit} fit on a line: ${quote(label)}`,
    why: `Text of ${formatLength(TEXT_MM)} takes ${formatLength(labelLengthMm(characters))}: it is printed smaller than anybody reads, or cut off, and a label cut short says something else.`,
    fix: `Say it in ${limit} characters: drop what the number says already.`,
    assumed: stated === undefined ? [`${USUAL_LONGEST} characters, since the shop states none`] : [],
    facts: { characters: { value: characters }, limit: { value: limit } },
    at: below(at, 'label'),
    marks: [address],
  })
}

/** What keeps a wrap from a wire on every stock the shop has, told of the one that comes nearest. */
function noWrap(
  { address, label, at }: Marked,
  odMm: number,
  stocks: readonly LabelStock[],
): Outcome | undefined {
  const [wantWide, wantHigh] = [labelLengthMm(lengthOf(label)), wrapHeightMm(odMm)]
  const cells = stocks.map((stock) => ({ stock, ...cellOf(stock) }))
  if (cells.some(({ widthMm, heightMm }) => widthMm >= wantWide && heightMm >= wantHigh)) return undefined
  const [best] = cells.sort((a, b) => b.widthMm * b.heightMm - a.widthMm * a.heightMm)
  if (!best) return undefined
  return found({
    subject: address,
    what: `No label sheet of the shop goes round ${address} with its text: ${formatLength(wantWide)} × ${formatLength(wantHigh)} are needed, ${quote(best.stock.id)} has ${formatLength(best.widthMm)} × ${formatLength(best.heightMm)}`,
    why: `${quote(label)} is ${formatLength(wantWide)} long in text of ${formatLength(TEXT_MM)}; once round ${formatLength(odMm)} with an overlap that holds is ${formatLength(wantHigh)}.`,
    fix: 'Use a larger label, a flag, or fewer words.',
    facts: {
      width: { value: wantWide, unit: 'mm' },
      height: { value: wantHigh, unit: 'mm' },
      diameter: { value: odMm, unit: 'mm' },
    },
    at: below(at, 'label'),
    marks: [address],
  })
}

function noSleeve({ address, at }: Marked, odMm: number): Outcome | undefined {
  const sleeve = heatShrinkFor(odMm, odMm)
  if (!sleeve || sleeveLines(sleeve.suppliedMm) > 0) return undefined
  return found({
    subject: address,
    what: `A sleeve for ${address} of ${formatLength(odMm)} is too narrow for text of ${formatLength(TEXT_MM)}`,
    why: `${formatLength(sleeve.suppliedMm)} lies ${formatLength((Math.PI * sleeve.suppliedMm) / 2)} wide when flat.`,
    fix: 'Use a wrap or a flag on this wire.',
    facts: { diameter: { value: odMm, unit: 'mm' }, sleeve: { value: sleeve.suppliedMm, unit: 'mm' } },
    at: below(at, 'label'),
    marks: [address],
  })
}

function* judge(loom: Loom, marked: Marked): Iterable<Outcome> {
  const long = tooLong(loom, marked)
  if (long) yield long
  const odMm = marked.wire && outsideMm(marked.wire)
  if (long || odMm === undefined) return
  const { wires, stock } = loom.settings.stated.labels ?? {}
  const outcome = wires === 'heat-shrink' ? noSleeve(marked, odMm) : stock && noWrap(marked, odMm, stock)
  if (outcome) yield outcome
}

export const labelFits: Rule = {
  id: 'label-fits',
  title: 'The words of a label fit on it',
  family: 'papers',
  level: 'warning',
  covers: ['X2'],
  reason:
    'A label whose words do not fit is printed too small to read, or cut short at the word that mattered. On a thin wire there is little room, and a label too small for a thick one comes off.',
  remedy: 'Shorter words: the number is on the label anyway. Or a larger label, or a flag.',
  needs:
    'label texts; policy "labels" for the sheets and the longest line; diameters of the wires for wraps and sleeves',
  sources: [
    'AV label standard F501.01, as reported',
    'common practice: capitals of 2.5 mm, a quarter turn of overlap',
  ],
  examples: { trips: example('RECEIVE AUDIO TO RECORDER'), passes: example('RX TO RECORDER') },
  *check({ loom }) {
    const taken = new Set<string>()
    for (const use of loom.looms) {
      if (taken.has(use.harness.id)) continue
      taken.add(use.harness.id)
      for (const marked of labelled(loom, use)) yield* judge(loom, marked)
    }
  },
}
