import { formatOhms } from '../base/format-quantity.ts'
import type { Loom, LoomUse, Terminal } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'
import { type Bench, onTheBench, type Piece, type Way, waysFrom, wayText } from './bench.ts'
import { type Edge, effectiveOhms } from './effective-ohms.ts'
import { BOTH_VIEWS, sheetHead } from './head.ts'
import { pinName } from './names.ts'
import { probesOf } from './probe-points.ts'
import { loneSteps } from './ring-out-lone.ts'
import { openSteps } from './ring-out-opens.ts'
import { pairSteps } from './ring-out-pairs.ts'
import { partSteps } from './ring-out-parts.ts'
import { type Step, stepRows } from './ring-out-step.ts'
import type { Column, Section, Sheet } from './sheet.ts'

const COLUMNS: readonly Column[] = [
  { key: 'step', heading: 'Step', use: 'number' },
  { key: 'a', heading: 'Probe A', lead: true },
  { key: 'b', heading: 'Probe B', lead: true },
  { key: 'through', heading: 'What' },
  { key: 'expect', heading: 'Expect' },
  { key: 'nominal', heading: 'Worked out' },
  { key: 'reading', heading: 'Reading', use: 'fill' },
  { key: 'pass', heading: 'Pass', use: 'tick' },
]

/** A reading may exceed the figure by this share: good-practice line of cable-tester makers. */
const LIMIT_SHARE = 1.2

/**
 * The ring-out of one finished loom, unmated, with its fuses fitted: every wire by its resistance, components, everything
 * that must be open, and the pairs that no meter can prove.
 */
export function ringOut(loom: Loom, use: LoomUse, solution: Solution | undefined): Sheet {
  return {
    id: 'ring-out',
    title: 'Ring-out sheet',
    use: 'Loom unmated, fuses fitted, relays out of their sockets. The person who tests is not the person who made it: the same table drove both.',
    head: sheetHead(loom, use, 'Ring-out sheet', BOTH_VIEWS),
    columns: COLUMNS,
    sections: numbered(ringOutSteps(loom, use, solution)),
    foot: [
      `Limit: ${LIMIT_SHARE} × the worked-out figure, leads zeroed. Below 0.5 Ω a hand meter only says “closed”; use a four-wire meter where a figure matters.`,
      'A passed ring-out proves the loom against this table. It does not prove the table.',
    ],
    fields: [
      'Meter serial',
      'Lead resistance (Ω)',
      'Loom serial',
      'Made by',
      'Tested by (not the maker)',
      'Date',
    ],
  }
}

/** The steps of a ring-out in order, under their headings. Headings without steps are left out. */
export function ringOutSteps(loom: Loom, use: LoomUse, solution: Solution | undefined): StepGroup[] {
  const bench = onTheBench(loom, use)
  const closed = closedSteps(bench, solution)
  const parts = partSteps(loom, bench)
  const opens = openSteps(loom, bench)
  const lone = loneSteps(loom, bench, [...closed, ...parts, ...opens])
  return [
    section('continuity', 'Continuity', 'Zero the leads first. Walk round one plug, then the next.', closed),
    section('continuity', 'Parts in the run', 'Both ways where the sheet says so.', parts),
    section(
      'open',
      'Must be open',
      'Each reads above 1 MΩ. Clip on to probe A and touch the others in turn.',
      [...opens, ...lone],
    ),
    section(
      'look',
      'Pairs and screens: look',
      'DC will not show a split pair: compare the colours pair by pair at both ends, or use a pair tester.',
      pairSteps(loom, use),
    ),
  ].filter((one) => one.steps.length > 0)
}

export interface StepGroup {
  /** What it proves: that metal is joined, that it is not, or what no meter shows. */
  readonly proves: 'continuity' | 'open' | 'look'
  readonly title: string
  readonly note: string
  readonly steps: readonly Step[]
}

const section = (
  proves: StepGroup['proves'],
  title: string,
  note: string,
  steps: readonly Step[],
): StepGroup => ({ proves, title, note, steps })

function numbered(drafts: readonly StepGroup[]): Section[] {
  const steps = drafts.map((draft) => draft.steps)
  return drafts.map(({ title, note }, index) => {
    const before = steps.slice(0, index).reduce((sum, list) => sum + list.length, 0)
    return { title, note, rows: stepRows(steps[index] ?? [], before + 1) }
  })
}

/** One step for each probe point beyond the first of its piece, walking round the halves in order. */
function closedSteps(bench: Bench, solution: Solution | undefined): Step[] {
  return bench.pieces.flatMap((piece) => {
    const probes = probesOf(piece)
    const [first] = probes
    if (!first || probes.length < 2) return []
    const ways = waysFrom(piece, first, solution)
    const edges = pieceEdges(piece, solution)
    return probes.slice(1).map((to) => closedStep(first, to, ways.get(to.index), piece, edges))
  })
}

/** The piece as resistances; undefined when one is missing. */
function pieceEdges(piece: Piece, solution: Solution | undefined): Edge[] | undefined {
  const edges = piece.links.map((link) => ({
    a: link.a.index,
    b: link.b.index,
    ohms: solution?.linkOhms[link.index]?.ohms ?? link.ohms,
  }))
  return edges.every((edge): edge is Edge => edge.ohms !== undefined) ? edges : undefined
}

function closedStep(
  from: Terminal,
  to: Terminal,
  way: Way | undefined,
  piece: Piece,
  edges: Edge[] | undefined,
): Step {
  // A piece with as many links as terminals has two ways round somewhere; the meter then reads less than one way's sum.
  const looped = piece.links.length >= piece.terminals.length
  const ohms = looped && edges ? effectiveOhms(edges, from.index, to.index) : way?.ohms
  const polarity = speakerNote(from, to)
  return {
    a: pinName(from),
    b: pinName(to),
    address: to.address,
    through: `${way ? wayText(way) : ''}${looped ? ' (and a second way: test each wire before they are joined)' : ''}`,
    expect: `${ohms === undefined ? 'closed' : `at most ${formatOhms(ohms * LIMIT_SHARE)}`}${polarity}`,
    nominal: ohms === undefined ? 'length or size missing' : formatOhms(ohms),
    attention: ohms === undefined,
    probes: { a: [from], b: [to] },
    ...(ohms === undefined ? {} : { limit: { maxOhms: ohms * LIMIT_SHARE } }),
  }
}

function speakerNote(...ends: readonly Terminal[]): string {
  const legs = ends.flatMap(({ does }) =>
    (does.kind === 'audio-out' || does.kind === 'audio-in') && does.level === 'speaker' && does.leg
      ? [does.leg]
      : [],
  )
  const [leg] = legs
  if (leg === undefined || leg === 'single') return ''
  return legs.every((one) => one === leg)
    ? `; speaker ${leg === 'hot' ? '+' : '−'}`
    : '; POLARITY: hot meets cold here'
}
