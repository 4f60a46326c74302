import type { Finding } from '../base/finding.ts'
import { type Locate, showPlace } from '../base/place.ts'
import type { Changes } from './changes.ts'
import {
  findingLine,
  goneWords,
  headline,
  netSentence,
  subjectHeading,
  subjectSentences,
  trendWords,
  verdict,
} from './sentences.ts'
import type { TwoPlaces } from './two-places.ts'

/** One heading with its lines. */
export interface OutlineSection {
  readonly title: string
  readonly lines: readonly OutlineLine[]
  /** Things to do, with a box to tick. */
  readonly tasks?: boolean
  /** Findings the change brings. */
  readonly brought?: boolean
}

export interface OutlineLine {
  readonly text: string
  /** What stands below it: why and cure of a finding. */
  readonly more?: readonly string[]
}

/** A comparison as plain text in order of reading, before any printer lays it out. */
export interface Outline {
  readonly verdict: string
  readonly headline: string
  readonly findings: readonly OutlineSection[]
  readonly changes: readonly OutlineSection[]
  readonly rework: readonly OutlineSection[]
}

const plain = (text: string): OutlineLine => ({ text })
const section = (title: string, lines: readonly OutlineLine[], brought = false): OutlineSection[] =>
  lines.length === 0 ? [] : [{ title, lines, brought }]

/** Where a finding is written, as a link that terminals and editors open. */
const place = ({ at }: Finding, locate: Locate | undefined): string[] =>
  locate ? [`At ${showPlace(locate(at))}`] : []

function findingSections({ findings }: Changes, places: TwoPlaces | undefined): OutlineSection[] {
  const trend = (wanted: string) =>
    findings.kept
      .filter((match) => match.trend === wanted)
      .map((match) => ({
        text: findingLine(match.after),
        more: [trendWords(match), ...place(match.after, places?.after)],
      }))
  const needs = (list: Changes['findings']['nowChecked']) =>
    list.map(({ rule, subject, needs: fact }) =>
      plain(`${rule}: needs ${fact.replace(/^needs /, '')} (${subject})`),
    )
  return [
    ...section(
      'New findings',
      findings.appeared.map((one) => ({
        text: findingLine(one),
        more: [...place(one, places?.after), `Why: ${one.why}`, `Fix: ${one.fix}`],
      })),
      true,
    ),
    ...section('Worse than before', trend('worse'), true),
    ...section('Better than before', trend('better')),
    ...section('Other figures', trend('other-figures')),
    ...section(
      'No longer reported',
      findings.gone.map(({ finding, because }) => ({
        text: findingLine(finding),
        more: [goneWords(because), ...place(finding, places?.before)],
      })),
    ),
    ...section('No longer checked, for want of a fact', needs(findings.newlyNotChecked)),
    ...section('No longer open for want of a fact', needs(findings.nowChecked)),
  ]
}

/** The comparison in order of reading: findings first, then what changed, then the work on built looms. With places, findings say where. */
export function outline(changes: Changes, places?: TwoPlaces): Outline {
  return {
    verdict: verdict(changes),
    headline: headline(changes),
    findings: findingSections(changes, places),
    changes: [
      ...changes.subjects.map((subject) => ({
        title: subjectHeading(subject),
        lines: subjectSentences(subject).map(plain),
      })),
      ...section(
        'Nets parted and joined',
        changes.nets.map((net) => plain(netSentence(net))),
      ),
    ],
    rework: changes.rework.map(({ harness, title, steps }) => ({
      title: `Rework of built looms ${harness}, ${title}`,
      lines: steps.map(({ text }) => plain(text)),
      tasks: true,
    })),
  }
}
