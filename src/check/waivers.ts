import type { Finding } from '../base/finding.ts'
import { matchCode } from '../base/hash.ts'
import type { Pointer } from '../base/place.ts'
import { below } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import type { Policy } from '../describe/policy.ts'

export type Waiver = NonNullable<Policy['waivers']>[number]

/** A finding that somebody has accepted in writing, and how. */
export interface Waived {
  readonly finding: Finding
  readonly waiver: Waiver
}

export interface WaiverResult {
  readonly findings: readonly Finding[]
  readonly waived: readonly Waived[]
  /** Indexes of the waivers that matched something, whether or not they still hold. */
  readonly used: ReadonlySet<number>
}

/** Match code of the facts behind a finding: when a figure changes the code does, and a waiver given for the old figure ends. */
export function factsCode(finding: Finding): string {
  const facts = Object.entries(finding.facts)
    .map(([name, fact]) => [name, fact.value, fact.unit ?? ''])
    .sort((a, b) => (String(a[0]) < String(b[0]) ? -1 : 1))
  return matchCode(JSON.stringify([finding.rule, facts]))
}

const matches = (waiver: Waiver, finding: Finding): boolean =>
  waiver.rule === finding.rule && waiver.at === finding.subject

/** Takes accepted findings out. One whose facts have changed since stays, and says that its acceptance has ended. */
export function applyWaivers(findings: readonly Finding[], waivers: readonly Waiver[]): WaiverResult {
  const used = new Set<number>()
  const waived: Waived[] = []
  const left: Finding[] = []
  for (const finding of findings) {
    const index = waivers.findIndex((waiver) => matches(waiver, finding))
    const waiver = waivers[index]
    if (!waiver) {
      left.push(finding)
      continue
    }
    used.add(index)
    const code = factsCode(finding)
    if (waiver.facts === undefined || waiver.facts === code) waived.push({ finding, waiver })
    else left.push({ ...finding, notes: [...finding.notes, { text: endedWaiver(waiver, code) }] })
  }
  return { findings: left, waived, used }
}

const endedWaiver = (waiver: Waiver, code: string): string =>
  `accepted by ${waiver.by} on ${waiver.date} for other figures (match code ${waiver.facts}, now ${code}); look again`

/** A waiver without the code of its facts would hold whatever the figures become. */
export function endlessWaivers(
  waived: readonly Waived[],
  waivers: readonly Waiver[],
  policyAt: Pointer,
): Finding[] {
  return waivers.flatMap((waiver, index): Finding[] => {
    if (waiver.facts !== undefined) return []
    const codes = [
      ...new Set(waived.filter((one) => one.waiver === waiver).map(({ finding }) => factsCode(finding))),
    ]
    const [code] = codes
    if (code === undefined) return []
    return [
      {
        rule: 'waiver-endless',
        level: 'note',
        subject: `policy.waivers.${index + 1}`,
        what: `The waiver of ${quote(waiver.rule)} at ${quote(waiver.at)} never ends: it names no match code`,
        why: `${waiver.by} accepted the figures of ${waiver.date}; without their code whatever they become is accepted too.`,
        fix: `Look once more, and add facts: "${code}" to it.`,
        assumed: [],
        facts: { rule: { value: waiver.rule }, at: { value: waiver.at }, code: { value: code } },
        at: below(policyAt, 'waivers', index),
        notes: [],
        marks: [],
      },
    ]
  })
}

/** A waiver that matches nothing guards nothing: the fault is mended, or the address is misspelt. */
export function staleWaivers(
  waivers: readonly Waiver[],
  used: ReadonlySet<number>,
  policyAt: Pointer,
): Finding[] {
  return waivers.flatMap((waiver, index): Finding[] =>
    used.has(index)
      ? []
      : [
          {
            rule: 'waiver-stale',
            level: 'warning',
            subject: `policy.waivers.${index + 1}`,
            what: `The waiver of ${quote(waiver.rule)} at ${quote(waiver.at)} matches no finding`,
            why: 'A waiver left behind would silently accept the same fault when it comes back.',
            fix: 'Delete it, or copy rule and address from the finding it was meant for.',
            assumed: [],
            facts: { rule: { value: waiver.rule }, at: { value: waiver.at } },
            at: below(policyAt, 'waivers', index),
            notes: [],
            marks: [],
          },
        ],
  )
}
