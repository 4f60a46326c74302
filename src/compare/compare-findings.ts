import type { Fact, Finding, NotChecked } from '../base/finding.ts'
import { significant } from '../base/format-quantity.ts'
import {
  compareGravity,
  type FigureChange,
  type FindingChanges,
  type FindingMatch,
  type GoneBecause,
} from './changes.ts'
import { pairByKey } from './pair-up.ts'
import type { Revision } from './revision.ts'

/** The new name of an old subject, and whether its job is still there. */
export interface SubjectNames {
  readonly now: (subject: string) => string
  readonly address: (subject: string, address: string) => string
  readonly jobLeft: (subject: string) => boolean
  /** Whether no fact of the description changed: then nothing can have broken either. */
  readonly nothingChanged: boolean
}

/** Figures differ when they differ to a reader: three significant digits. */
function factText({ value, unit }: Fact): string {
  const text = typeof value === 'number' ? significant(value) : String(value)
  return unit === undefined ? text : `${text} ${unit}`
}

function figuresOf(before: Finding, after: Finding): FigureChange[] {
  return Object.entries(after.facts).flatMap(([name, fact]) => {
    const old = before.facts[name]
    // Texts are names of things, which may be another without anything having changed.
    if (!old || typeof fact.value === 'string' || typeof old.value === 'string') return []
    const [was, is] = [factText(old), factText(fact)]
    return was === is ? [] : [{ name, before: was, after: is }]
  })
}

const UPPER = /^(limit|max|allowed|most|rating)/i
const LOWER = /^(min|least|needed)/i

/** How far the figure of a finding is beyond its limit: above 1 is beyond. Undefined where there is no such pair. */
function beyond({ facts }: Finding): number | undefined {
  const numbers = Object.entries(facts).flatMap(([name, { value, unit }]) =>
    typeof value === 'number' && value > 0 ? [{ name, value, unit }] : [],
  )
  const limits = numbers.filter(({ name }) => UPPER.test(name) || LOWER.test(name))
  const figure = numbers.find((one) => !limits.includes(one) && limits.some(({ unit }) => unit === one.unit))
  if (!figure) return undefined
  const ratios = limits
    .filter(({ unit }) => unit === figure.unit)
    .map(({ name, value }) => (UPPER.test(name) ? figure.value / value : value / figure.value))
  return Math.max(...ratios)
}

function trendOf(before: Finding, after: Finding, figures: readonly FigureChange[]): FindingMatch['trend'] {
  const gravity = compareGravity(after.level, before.level)
  if (gravity !== 0) return gravity > 0 ? 'worse' : 'better'
  if (figures.length === 0) return 'same'
  const [was, is] = [beyond(before), beyond(after)]
  if (was === undefined || is === undefined || Math.abs(is - was) < 1e-9) return 'other-figures'
  return is > was ? 'worse' : 'better'
}

function matchOf(before: Finding, after: Finding): FindingMatch {
  const figures = figuresOf(before, after)
  return { before, after, trend: trendOf(before, after, figures), figures }
}

function becauseOf(finding: Finding, after: Revision, names: SubjectNames): GoneBecause {
  const subject = names.now(finding.subject)
  const same = (other: { readonly rule: string; readonly subject: string }) =>
    other.rule === finding.rule && other.subject === subject
  if (after.result.waived.some((one) => same(one.finding))) return 'accepted'
  if (after.shop.policy?.value.rules?.[finding.rule] === 'off') return 'switched-off'
  if (after.result.heldBack.some(same)) return 'told-under-another'
  if (!names.jobLeft(finding.subject)) return 'job-removed'
  if (after.result.notChecked.some(same)) return 'not-checked'
  return 'cured'
}

const SEPARATOR = '\n'

function comparedNeeds(before: readonly NotChecked[], after: readonly NotChecked[], names: SubjectNames) {
  // The sentence of what is missing names things, so a renamed thing must not look like a new gap.
  const paired = pairByKey(
    before.map((one) => ({ one, key: `${one.rule}${SEPARATOR}${names.now(one.subject)}` })),
    after.map((one) => ({ one, key: `${one.rule}${SEPARATOR}${one.subject}` })),
    ({ key }) => key,
  )
  return {
    newlyNotChecked: paired.added.map(({ one }) => one),
    nowChecked: paired.removed.map(({ one }) => one),
  }
}

/** Findings that appeared, went, got worse or better. One is known again by its rule and its subject, through renames. */
export function compareFindings(before: Revision, after: Revision, names: SubjectNames): FindingChanges {
  const key = (rule: string, text: string) => `${rule}${SEPARATOR}${text}`
  const byIdentity = pairByKey(
    before.result.findings,
    after.result.findings,
    ({ rule, subject }) => key(rule, names.now(subject)),
    ({ rule, subject }) => key(rule, subject),
  )
  // A fault between two things is filed under one of them; which one may change with their order.
  const places = (finding: Finding, address: (one: string) => string) =>
    key(finding.rule, [...new Set(finding.marks.map(address))].sort().join(' '))
  const marked = pairByKey(
    byIdentity.removed.filter(({ marks }) => marks.length > 0),
    byIdentity.added.filter(({ marks }) => marks.length > 0),
    (one) => places(one, (address) => names.address(one.subject, address)),
    (one) => places(one, (address) => address),
  )
  const told = new Set(marked.kept.flat())
  const open = (list: readonly Finding[]) => list.filter((one) => !told.has(one))
  // Of several faults with one cause the first is shown; which one that is may change with their order, too.
  const ofOneCause = pairByKey(
    open(byIdentity.removed).filter(({ cause }) => cause !== undefined),
    open(byIdentity.added).filter(({ cause }) => cause !== undefined),
    ({ rule, cause }) => key(rule, cause ?? ''),
  )
  for (const finding of ofOneCause.kept.flat()) told.add(finding)
  // Which of two plugs is called the mirrored one is a matter of order when nothing else tells them apart.
  const job = (subject: string) => subject.split('/')[0] ?? subject
  const ofOneRule = pairByKey(
    names.nothingChanged ? open(byIdentity.removed) : [],
    names.nothingChanged ? open(byIdentity.added) : [],
    ({ rule, subject }) => key(rule, job(names.now(subject))),
    ({ rule, subject }) => key(rule, job(subject)),
  )
  for (const finding of ofOneRule.kept.flat()) told.add(finding)
  // What stood under another finding before is not brought by the change that lays it bare.
  const laidBare = pairByKey(
    before.result.heldBack,
    open(byIdentity.added),
    ({ rule, subject }) => key(rule, names.now(subject)),
    ({ rule, subject }) => key(rule, subject),
  )
  return {
    appeared: laidBare.added,
    gone: open(byIdentity.removed).map((finding) => ({ finding, because: becauseOf(finding, after, names) })),
    kept: [...byIdentity.kept, ...marked.kept, ...ofOneCause.kept, ...ofOneRule.kept, ...laidBare.kept].map(
      ([one, two]) => matchOf(one, two),
    ),
    ...comparedNeeds(before.result.notChecked, after.result.notChecked, names),
  }
}
