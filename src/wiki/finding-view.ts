import type { Finding, Level, NotChecked } from '../base/finding.ts'
import type { Loom } from '../resolve/loom.ts'
import { addressIn } from './address-in.ts'
import { anchor } from './anchor.ts'
import { linkTo, type Site } from './page.ts'
import type { Job } from './site-input.ts'
import type { Target } from './site-map.ts'

export const LEVEL_WORDS: Readonly<Record<Level, string>> = { stop: 'Stop', warning: 'Warning', note: 'Note' }
/** A shape beside the word, so that levels differ on a black-and-white print. */
export const LEVEL_MARKS: Readonly<Record<Level, string>> = { stop: '■', warning: '▲', note: '●' }

interface LinkView {
  readonly text: string
  readonly href: string
}

/** A finding as the templates see it. */
export interface FindingView {
  readonly id: string
  /** The number that marks it on the page's drawing. */
  readonly number: number
  readonly level: Level
  readonly levelWord: string
  readonly levelMark: string
  readonly rule: string
  readonly ruleHref: string
  readonly what: string
  readonly why: string
  readonly fix: string
  readonly assumed: readonly string[]
  readonly notes: readonly string[]
  /** The thing at fault, and the others that matter. */
  readonly subject: LinkView
  readonly marks: readonly LinkView[]
  /** File, line and column to edit; empty where it is not known. */
  readonly written: string
}

/** The nearest shown thing of an address: the pin, else its connector, else its loom. */
export function placeNear(site: Site, loom: Loom, address: string): Target | undefined {
  const parts = address.split('.')
  for (let length = parts.length; length > 0; length--) {
    const target = site.map.place(loom, parts.slice(0, length).join('.'))
    if (target) return target
  }
  return undefined
}

/** Prepares findings of one job for a page. `number` counts on from the ones the page already shows. */
export function findingViews(
  site: Site,
  path: string,
  job: Pick<Job, 'loom' | 'findings'>,
  number = 0,
): FindingView[] {
  return job.findings.map((finding, index) => view(site, path, job.loom, finding, number + index + 1))
}

function view(site: Site, path: string, loom: Loom, finding: Finding, number: number): FindingView {
  const address = addressIn(loom, finding.subject)
  const own = placeNear(site, loom, address) ?? firstPlace(site, loom, finding.marks) ?? pageOf(site, loom)
  const where = site.input.showPlace?.(finding.at) ?? ''
  const noteText = (text: string, at: Finding['at'] | undefined) => {
    const place = at === undefined ? '' : (site.input.showPlace?.(at) ?? '')
    return place === '' ? text : `${text} (${place})`
  }
  return {
    id: anchor('finding', String(number)),
    number,
    level: finding.level,
    levelWord: LEVEL_WORDS[finding.level],
    levelMark: LEVEL_MARKS[finding.level],
    rule: finding.rule,
    ruleHref: linkTo(path, site.map.rule(finding.rule)),
    what: finding.what,
    why: finding.why,
    fix: finding.fix,
    assumed: finding.assumed,
    notes: finding.notes.map((note) => noteText(note.text, note.at)),
    subject: { text: address === '' ? loom.id : address, href: linkTo(path, own) },
    marks: finding.marks
      .filter((mark) => mark !== address)
      .slice(0, MOST_MARKS)
      .map((mark) => ({ text: mark, href: linkTo(path, placeNear(site, loom, mark)) })),
    written: where,
  }
}

/** A list longer than this is a whole connector, which the subject already links to. */
const MOST_MARKS = 12

const firstPlace = (site: Site, loom: Loom, marks: readonly string[]): Target | undefined =>
  marks.map((mark) => placeNear(site, loom, mark)).find((target) => target !== undefined)

/** The page of a loom itself. */
export function pageOf(site: Site, loom: Loom): Target | undefined {
  const path = loom.kind === 'installation' ? site.map.installation(loom.id) : site.map.harness(loom.id)
  return path === undefined ? undefined : { path }
}

/** Where a finding is told in full: on the page of its job, by its place in the job's list. */
export function findingHref(site: Site, path: string, loom: Loom, index: number): string {
  const page = pageOf(site, loom)
  return linkTo(path, page && { ...page, anchor: anchor('finding', String(index + 1)) })
}

export interface CountsView {
  readonly stop: number
  readonly warning: number
  readonly note: number
  readonly notChecked: number
  /** `2 stops, 5 warnings, 1 note, 3 not checked`. */
  readonly text: string
  readonly worst: string
}

const plural = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`

export function countsOf(findings: readonly Finding[], notChecked: readonly NotChecked[]): CountsView {
  const count = (level: Level) => findings.filter((finding) => finding.level === level).length
  const [stop, warning, note] = [count('stop'), count('warning'), count('note')]
  return {
    stop,
    warning,
    note,
    notChecked: notChecked.length,
    text: `${plural(stop, 'stop')}, ${plural(warning, 'warning')}, ${plural(note, 'note')}, ${notChecked.length} not checked`,
    worst: stop > 0 ? 'stop' : warning > 0 ? 'warning' : note > 0 ? 'note' : 'clean',
  }
}

/** What could not be judged, grouped by rule, since one missing fact often silences a whole rule. */
export function notCheckedViews(site: Site, path: string, job: Pick<Job, 'loom' | 'notChecked'>) {
  const byRule = new Map<string, { text: string; needs: string; href: string }[]>()
  for (const { rule, subject, needs } of job.notChecked) {
    const address = addressIn(job.loom, subject)
    const target = placeNear(site, job.loom, address)
    byRule.set(rule, [...(byRule.get(rule) ?? []), { text: address, needs, href: linkTo(path, target) }])
  }
  return [...byRule].map(([rule, items]) => ({
    rule,
    ruleHref: linkTo(path, site.map.rule(rule)),
    items,
    count: items.length,
  }))
}
