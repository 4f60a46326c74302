import type { Finding } from '../base/finding.ts'
import {
  bringsStop,
  broughtFindings,
  type Changes,
  type FindingMatch,
  type GoneBecause,
  type Move,
  type NetChange,
  type SubjectChange,
  type ThingChange,
  type ThingKind,
  type ValueChange,
} from './changes.ts'
import { LISTED } from './field-values.ts'

const KIND_WORDS: Readonly<Record<ThingKind, string>> = {
  conductor: 'Conductor',
  shield: 'Shield',
  cable: 'Cable',
  connector: 'Connector',
  splice: 'Splice',
  component: 'Part',
  pin: 'Pin',
  unit: 'Unit',
  loom: 'Loom',
  mate: 'Joint',
  state: 'Operating state',
  zone: 'Zone',
  branch: 'Branch',
  passage: 'Passage',
  field: '',
}

const OF_WORDS: Readonly<Record<SubjectChange['of'], string>> = {
  harness: 'Harness',
  installation: 'Installation',
  equipment: 'Equipment',
  part: 'Catalogue part',
  policy: 'Shop policy',
  procedure: 'Procedure',
}

function moveWords({ from, to }: Move): string {
  if (to === undefined) return `is no longer landed at ${from}, it is cut back`
  if (from === undefined) return `is landed at ${to}, where it was cut back`
  return `moves from ${from} to ${to}`
}

function valueWords({ words, before, after }: ValueChange): string {
  if (after === LISTED) return `${words} is added`
  if (before === LISTED) return `${words} is removed`
  if (before === undefined) return `${words} now stated: ${after}`
  if (after === undefined) return `${words} no longer stated, was ${before}`
  return `${words} changes from ${before} to ${after}`
}

/** A text that a person ended with a full stop must not get a second one. */
const ended = (text: string): string => (text.endsWith('.') ? text : `${text}.`)
const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** One change in one plain sentence, such as “Conductor A21 moves from P2-14 to P2-15.” */
export function thingSentence(thing: ThingChange): string {
  const { change, kind, id, was, facts, moves, values } = thing
  const word = KIND_WORDS[kind]
  if (kind === 'field') return ended(upper(values.map(valueWords).join('; ')))
  if (kind === 'mate')
    return change === 'added'
      ? `${id.replace(' with ', ' is now mated with ')}.`
      : `${id.replace(' with ', ' is no longer mated with ')}.`
  if (change !== 'altered') return ended(`${word} ${id} is ${change}${facts ? `: ${facts}` : ''}`)
  const clauses = [...(was === undefined ? [] : [`is renamed ${id}`]), ...moves.map(moveWords)]
  const named = `${word} ${was ?? id}`
  if (values.length === 0) return `${named} ${listed(clauses)}.`
  const told = values.map(valueWords).join('; ')
  return ended(clauses.length === 0 ? `${named}: ${told}` : `${named} ${listed(clauses)}; ${told}`)
}

function listed(clauses: readonly string[]): string {
  const last = clauses.at(-1) ?? ''
  return clauses.length < 2 ? last : `${clauses.slice(0, -1).join(', ')} and ${last}`
}

/** `Harness pickup-head, Council pickup, remote control head` */
export function subjectHeading({ of, id, was, title, change, facts }: SubjectChange): string {
  const named = of === 'policy' ? OF_WORDS.policy : `${OF_WORDS[of]} ${was ?? id}`
  const renamed = was === undefined ? '' : `, now ${id}`
  if (change !== 'altered')
    return `${named} is ${change}${facts && facts !== id ? `: ${title === facts ? facts : `${title}, ${facts}`}` : ''}`
  return title === id || of === 'policy' ? named + renamed : `${named}${renamed}, ${title}`
}

/** A change of nets in one sentence. */
export function netSentence({ change, job, before, after, parts }: NetChange): string {
  const ends = listed(parts)
  if (change === 'split')
    return `${job}: net ${before[0]} is parted into ${after.length}: ${ends} are no longer joined.`
  return `${job}: nets ${listed(before)} become one, ${after[0]}: ${ends} are now joined.`
}

export const LEVEL_NAME = { stop: 'STOP', warning: 'WARNING', note: 'NOTE' } as const

/** A finding in one line: level, rule, what, where. */
export const findingLine = ({ level, rule, what, subject }: Finding): string =>
  `${LEVEL_NAME[level]} ${rule}: ${what} (${subject})`

const GONE: Readonly<Record<GoneBecause, string>> = {
  cured: 'cured',
  accepted: 'accepted in the policy, not cured',
  'switched-off': 'its rule is switched off, not cured',
  'told-under-another': 'now a consequence told under another finding',
  'job-removed': 'its job is removed',
  'not-checked': 'can no longer be checked for want of a fact',
}

export const goneWords = (because: GoneBecause): string => GONE[because]

/** What of a finding is different, with its figures: `dropVolts 0.42 V → 0.61 V`. */
export function trendWords({ before, after, figures }: FindingMatch): string {
  const level =
    before.level === after.level ? [] : [`${LEVEL_NAME[before.level]} → ${LEVEL_NAME[after.level]}`]
  return [
    ...level,
    ...figures.map(({ name, before: was, after: is }) => `${spaced(name)} ${was} → ${is}`),
  ].join(', ')
}

/** `dropVolts` as people read it: `drop volts`. */
const spaced = (name: string): string => name.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase()

const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`

function levelCounts(findings: readonly Finding[]): string[] {
  return (['stop', 'warning', 'note'] as const).flatMap((level) => {
    const n = findings.filter((finding) => finding.level === level).length
    return n === 0 ? [] : [count(n, level)]
  })
}

/** Whether the change may be built, in one sentence. */
export function verdict(changes: Changes): string {
  const brought = broughtFindings(changes)
  if (bringsStop(changes)) {
    const stops = levelCounts(brought.filter(({ level }) => level === 'stop'))
    return `This change brings ${stops.join('')}: do not build it.`
  }
  if (brought.length > 0) return `This change brings ${listed(levelCounts(brought))}, and no new stop.`
  return 'This change brings no new finding.'
}

/** What the change is in one line: how much of what. */
export function headline(changes: Changes): string {
  const things = changes.subjects.flatMap((subject) => subject.things)
  const wires = things.filter(({ kind }) => kind === 'conductor' || kind === 'shield')
  const tally = (what: string, n: number) => (n === 0 ? [] : [`${n} ${what}`])
  const moved = wires.filter(({ moves }) => moves.length > 0).length
  const conductors = [
    ...tally('moved', moved),
    ...tally('added', wires.filter(({ change }) => change === 'added').length),
    ...tally('removed', wires.filter(({ change }) => change === 'removed').length),
    ...tally(
      'changed',
      wires.filter(
        ({ change, moves, values }) => change === 'altered' && moves.length === 0 && values.length > 0,
      ).length,
    ),
    ...tally(
      'renamed',
      wires.filter(({ was, moves, values }) => was !== undefined && moves.length === 0 && values.length === 0)
        .length,
    ),
  ]
  const others =
    things.length - wires.length + changes.subjects.filter(({ change }) => change !== 'altered').length
  const gone = changes.findings.gone.filter(({ because }) => because === 'cured').length
  const parts = [
    ...(conductors.length > 0 ? [`conductors: ${conductors.join(', ')}`] : []),
    ...(others > 0 ? [count(others, 'other change')] : []),
    ...(changes.nets.length > 0
      ? [count(changes.nets.length, 'net parted or joined', 'nets parted or joined')]
      : []),
    ...(gone > 0 ? [count(gone, 'finding cured', 'findings cured')] : []),
  ]
  return parts.length === 0 ? 'Nothing changed in meaning.' : `${upper(parts.join('; '))}.`
}

/** Every change of the description as sentences, subject by subject. */
export function subjectSentences(subject: SubjectChange): string[] {
  return [...subject.things.map(thingSentence), ...(subject.remark === undefined ? [] : [subject.remark])]
}
