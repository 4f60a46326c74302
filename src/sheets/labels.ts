import { colourLabel } from '../base/colour.ts'
import { formatAmps } from '../base/format-quantity.ts'
import { outsideMm } from '../check/queries/outside-mm.ts'
import type { CableUse, Conductor, Loom, LoomUse } from '../resolve/loom.ts'
import { heatShrinkFor } from '../solve/formulas/heat-shrink.ts'
import { labelLengthMm, sleeveLines, TEXT_MM } from '../solve/formulas/label-size.ts'
import { halfLabel, type LabelText, wireLabel } from './label-text.ts'
import { matchCodeOf } from './match-code.ts'

/** How a label holds: round a wire, folded over it, shrunk on it, or flat on something. */
export type LabelKind = 'plate' | 'flag' | 'wrap' | 'heat-shrink'

/** One text to be printed and put on one place. */
export interface Label {
  readonly id: string
  readonly address: string
  readonly text: LabelText
  readonly where: string
  readonly kind: LabelKind
  /** Kind with what there is to know: `heat-shrink 3.2 mm, 2:1`. */
  readonly kindText: string
  readonly reads: string
  readonly band: string
  /** A flag is read from both sides, so it is printed twice and stuck back to back. */
  readonly copies: number
  readonly widthMm: number
  readonly heightMm: number
  /** What has to be put right before it is printed; empty when nothing. */
  readonly problems: readonly string[]
}

/** Most characters on a line when the shop states none. */
const LONGEST = 24
/** Height of a line of text, with its gap, over the height of its capitals. */
export const LINE = 1.5

type Draft = Omit<Label, 'copies' | 'widthMm' | 'heightMm' | 'problems' | 'kindText'> & {
  readonly kindText?: string
  /** Lines that fit around it; any number when left out. */
  readonly lines?: number
}

/** Labels of one loom: its own plate, each connector, each fuse, both ends of every cable and wire. */
export function labelsOf(loom: Loom, use: LoomUse): Label[] {
  const drafts = [
    loomPlate(loom, use),
    ...halfLabels(use),
    ...fuseLabels(loom, use),
    ...cableLabels(use),
    ...wireLabels(loom, use),
  ]
  const clashes = clashesOf(drafts)
  const longest = loom.settings.stated.labels?.longest ?? LONGEST
  return drafts.map((draft) => finished(draft, clashes.get(draft) ?? [], longest))
}

function finished({ lines: room, ...draft }: Draft, same: readonly string[], longest: number): Label {
  const { line1, line2 } = draft.text
  const head = draft.kind === 'heat-shrink' ? `${draft.id} ${line1}` : line1
  const lines = draft.kind === 'heat-shrink' ? [head] : [line1, line2]
  // A plate takes as many lines as it needs; what goes round a wire is read along one.
  const long = draft.kind === 'plate' ? [] : lines.filter((line) => lengthOf(line) > longest)
  const widest = Math.max(...lines.map(lengthOf), lengthOf(draft.id) + 5)
  const flat = draft.kind === 'wrap' || draft.kind === 'heat-shrink'
  return {
    ...draft,
    kindText: draft.kindText ?? (flat ? `${draft.kind}, laminated` : draft.kind),
    copies: draft.kind === 'flag' ? 2 : 1,
    widthMm: Math.ceil(labelLengthMm(widest)),
    heightMm: TEXT_MM,
    problems: [
      ...(same.length > 0 ? [`NOT UNIQUE: same words as ${same.join(', ')}`] : []),
      ...long.map((line) => `TOO LONG: ${lengthOf(line)} characters where ${longest} fit`),
      ...(room === 0 ? [`TOO NARROW: no ${TEXT_MM} mm text fits around it, use a wrap`] : []),
    ],
  }
}

/** Characters as a reader counts them: an accent set upon a letter is none of its own. */
const lengthOf = (text: string): number => [...text.replace(/\p{M}/gu, '')].length

const asRead = (text: string): string => text.trim().toLowerCase().replace(/\s+/g, ' ')

/**
 * The others that say the same, by label. Things that are plugged in are told apart by their words alone; wires carry their
 * number and both ends, so only the whole text counts, and only between different wires.
 */
function clashesOf(labels: readonly Draft[]): Map<Draft, string[]> {
  const isWire = ({ kind }: Draft) => kind === 'wrap' || kind === 'heat-shrink'
  const keyOf = (label: Draft): string => {
    const words = asRead(isWire(label) ? label.text.text : label.text.line1)
    return words === '' ? '' : `${isWire(label)} ${words}`
  }
  const groups = new Map<string, Draft[]>()
  for (const label of labels) groups.set(keyOf(label), [...(groups.get(keyOf(label)) ?? []), label])
  groups.delete('')
  const clashes = new Map<Draft, string[]>()
  for (const group of groups.values())
    for (const label of group) {
      const others = group.filter((other) => other.address !== label.address)
      if (others.length > 0) clashes.set(label, [...new Set(others.map(({ id }) => id))])
    }
  return clashes
}

/** The plate of the loom itself: which harness, which issue. */
function loomPlate(loom: Loom, use: LoomUse): Draft {
  const { harness } = use
  const line2 = `match ${matchCodeOf(loom, use)}`
  const issue = `rev ${harness.revision ?? '-'}, ${line2}`
  return {
    id: harness.id,
    address: use.id,
    text: { line1: harness.title, line2, text: `${harness.id} | ${harness.title} | ${issue}` },
    where: 'on the trunk, where it is seen when fitted',
    kind: 'plate',
    reads: 'along the trunk',
    band: '',
  }
}

function halfLabels(use: LoomUse): Draft[] {
  return use.halves.map((half) => ({
    id: half.id,
    address: half.address,
    text: halfLabel(half),
    where: 'on the cable, 50 mm behind the plug',
    kind: 'flag',
    reads: 'from the plug outward',
    band: '',
  }))
}

function fuseLabels(loom: Loom, use: LoomUse): Draft[] {
  const fuses = loom.components.filter(
    (component) => component.loom === use && component.source.kind === 'fuse',
  )
  return fuses.map((fuse) => {
    const rating = fuse.source.kind === 'fuse' ? (fuse.source.rating ?? fuse.fusePart?.rating) : undefined
    const line1 = fuse.source.title ?? 'fuse'
    const line2 = rating === undefined ? 'rating not stated' : `${formatAmps(rating)} only`
    return {
      id: fuse.id,
      address: fuse.address,
      text: { line1, line2, text: `${fuse.id} | ${line1} | ${line2}` },
      where: 'on the holder, seen with the cover on',
      kind: 'plate',
      reads: 'upright',
      band: '',
    }
  })
}

function cableLabels(use: LoomUse): Draft[] {
  return use.cables.flatMap((cable) => (['from', 'to'] as const).map((side) => cableEnd(cable, side)))
}

function cableEnd(cable: CableUse, side: 'from' | 'to'): Draft {
  const ends = cable.conductors.map((conductor) => conductor[side]).filter((end) => end !== undefined)
  const names = [...new Set(ends.map((end) => end.half?.id ?? end.component?.id ?? end.name))].join(', ')
  const line1 = cable.source.label ?? ''
  const line2 = `at ${names || 'the cut end'}`
  return {
    id: cable.id,
    address: cable.address,
    text: { line1, line2, text: [cable.id, line1, line2].filter((part) => part !== '').join(' | ') },
    where: `end ${side === 'from' ? 'A' : 'B'}, 25 mm from the jacket’s end`,
    kind: 'flag',
    reads: 'from the plug outward',
    band: '',
  }
}

function wireLabels(loom: Loom, use: LoomUse): Draft[] {
  const wires = loom.conductors.filter((conductor) => conductor.loom === use && conductor.kind === 'wire')
  const sleeved = loom.settings.stated.labels?.wires === 'heat-shrink'
  return wires.flatMap((wire) =>
    (['from', 'to'] as const).map((side) => ({
      id: wire.id,
      address: wire.address,
      text: wireLabel(loom, wire, side),
      where: `end ${side === 'from' ? 'A' : 'B'}, 25 mm from the contact`,
      ...(sleeved ? sleeveOf(wire) : { kind: 'wrap' as const }),
      reads: 'from the contact outward',
      band: wire.colour ? colourLabel(wire.colour) : '',
    })),
  )
}

/** The sleeve that slides over the wire and grips it; printed flat, it is half its circumference high. */
function sleeveOf(wire: Conductor): Pick<Draft, 'kind' | 'kindText' | 'lines'> {
  const kind = 'heat-shrink'
  const od = outsideMm(wire)
  const sleeve = od === undefined ? undefined : heatShrinkFor(od, od)
  if (!sleeve) return { kind, kindText: `${kind}, size by the wire, on before the contact` }
  const lines = sleeveLines(sleeve.suppliedMm)
  return {
    kind,
    kindText: `${kind} ${sleeve.suppliedMm} mm, ${sleeve.ratio}:1, on before the contact`,
    lines,
  }
}
