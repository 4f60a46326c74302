import type { Finding, Level, NotChecked } from '../base/finding.ts'
import { naturalOrder } from '../base/natural-order.ts'
import type { PutQuestion } from '../check/check.ts'
import type { Waived } from '../check/waivers.ts'
import type { TrialSet } from '../check/what-if/trial.ts'

/** The trials of one installation. */
export interface WhatIfReport {
  readonly job: string
  readonly sets: readonly TrialSet[]
}

/** Everything one check found, could not judge and was told to accept: what every printer takes. */
export interface CheckReport {
  readonly findings: readonly Finding[]
  readonly notChecked: readonly NotChecked[]
  readonly waived: readonly Waived[]
  /** What a person is asked, with the answers there are. */
  readonly questions?: readonly PutQuestion[]
  /** What the simulations came to, where they were asked for. */
  readonly whatIf?: readonly WhatIfReport[]
  /** Counts of everything found, where lesser findings were left out of `findings`. */
  readonly found?: LevelCounts
}

/** What a printer may say about a rule without knowing its code. */
export interface RuleInfo {
  readonly id: string
  readonly title: string
  readonly level: Level
  readonly reason: string
  readonly remedy: string
  readonly sources: readonly string[]
  /** Faults of the catalogue it finds. */
  readonly covers?: readonly string[]
  /** The question it puts to a person, where only a look can tell. */
  readonly asks?: string
}

/** How many findings there are of each level. */
export type LevelCounts = Readonly<Record<Level, number>>

export const LEVELS: readonly Level[] = ['stop', 'warning', 'note']

/** How a level is written for people: the word carries it, never a colour alone. */
export const LEVEL_WORD: Readonly<Record<Level, string>> = { stop: 'STOP', warning: 'WARNING', note: 'NOTE' }

/** Whether `level` is at least as bad as `least`. */
export function atLeast(level: Level, least: Level): boolean {
  return LEVELS.indexOf(level) <= LEVELS.indexOf(least)
}

export function countLevels(findings: readonly Finding[]): LevelCounts {
  const counts = { stop: 0, warning: 0, note: 0 }
  for (const finding of findings) counts[finding.level] += 1
  return counts
}

/** Questions nobody has answered, or not with all that was asked. */
export const openQuestions = ({ questions = [] }: CheckReport): readonly PutQuestion[] =>
  questions.filter(({ state }) => state === 'open')

/** Counts of everything that was found, shown or not. */
export function foundIn(report: CheckReport): LevelCounts {
  return report.found ?? countLevels(report.findings)
}

/**
 * The same report with only the findings at least as bad as `least`. The counts stay those of everything found, and what was
 * not checked is never dropped, so that a short report cannot pass for a clean one.
 */
export function onlyFrom(report: CheckReport, least: Level): CheckReport {
  const findings = report.findings.filter((finding) => atLeast(finding.level, least))
  return { ...report, findings, found: foundIn(report) }
}

/** The findings of one installation or loom, worst first. */
export interface JobGroup {
  /** Its name: what stands before the slash of an address; empty for findings about the description itself. */
  readonly job: string
  readonly findings: readonly Finding[]
  readonly counts: LevelCounts
}

function jobOf(subject: string): string {
  const slash = subject.indexOf('/')
  return slash > 0 ? subject.slice(0, slash) : ''
}

/** A person works on one job at a time, so findings are split by job; the job with the worst findings comes first. */
export function groupByJob(findings: readonly Finding[]): JobGroup[] {
  const byJob = new Map<string, Finding[]>()
  for (const finding of findings) {
    const job = jobOf(finding.subject)
    const list = byJob.get(job)
    if (list) list.push(finding)
    else byJob.set(job, [finding])
  }
  const jobs = [...byJob].map(([job, own]) => ({ job, findings: own, counts: countLevels(own) }))
  return jobs.sort(
    (a, b) =>
      b.counts.stop - a.counts.stop || b.counts.warning - a.counts.warning || naturalOrder(a.job, b.job),
  )
}

/** What was not checked for want of one fact, by rule and fact, with every subject it was wanted for. */
export interface NeedGroup {
  readonly rule: string
  readonly needs: string
  readonly subjects: readonly string[]
}

export function groupNeeds(notChecked: readonly NotChecked[]): NeedGroup[] {
  const byNeed = new Map<string, { rule: string; needs: string; subjects: Set<string> }>()
  for (const { rule, needs, subject } of notChecked) {
    const key = `${rule}\n${needs}`
    const group = byNeed.get(key) ?? { rule, needs, subjects: new Set<string>() }
    group.subjects.add(subject)
    byNeed.set(key, group)
  }
  return [...byNeed.values()].map(({ subjects, ...rest }) => ({
    ...rest,
    subjects: [...subjects].sort(naturalOrder),
  }))
}
