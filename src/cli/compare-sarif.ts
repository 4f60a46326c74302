import type { Finding, NotChecked } from '../base/finding.ts'
import type { Locate, Pointer } from '../base/place.ts'
import type { Changes, ThingChange } from '../compare/changes.ts'
import { thingSentence } from '../compare/sentences.ts'
import { printJsonText } from '../report/json.ts'
import { ruleList } from '../report/rule-list.ts'
import { sarifLog } from '../report/sarif.ts'
import type { ReadSide } from './compare-sides.ts'
import { packageVersion } from './package-file.ts'

/** The state of a result against the baseline, in SARIF's words (OASIS SARIF 2.1.0, 3.27.24). */
type BaselineState = 'new' | 'updated' | 'absent'

interface Result {
  readonly finding: Finding
  readonly state: BaselineState
}

/** The change that a finding is most likely about: one of the same thing, else one on it or around it, else one of its loom. */
function causeOf({ subject, marks }: Finding, things: readonly ThingChange[]): ThingChange | undefined {
  const places = [subject.slice(subject.indexOf('/') + 1), ...marks]
  const placed = things.filter(
    ({ at, change, physical }) => at !== undefined && change !== 'removed' && physical,
  )
  const loomOf = (address: string) => address.split('.')[0]
  const ways: readonly ((address: string, place: string) => boolean)[] = [
    (address, place) => place === address,
    (address, place) => place.startsWith(`${address}.`) || address.startsWith(`${place}.`),
    (address, place) => loomOf(place) === loomOf(address),
  ]
  for (const isNear of ways) {
    const found = placed.find(({ addresses }) =>
      addresses.some((address) => places.some((place) => isNear(address, place))),
    )
    if (found) return found
  }
  return placed.length === 1 ? placed[0] : undefined
}

/**
 * Puts a new finding on the line that was changed, since code hosts show annotations on changed lines only. Where the finding
 * itself would have stood becomes a note of its own.
 */
function onChangedLine(finding: Finding, things: readonly ThingChange[]): Finding {
  const cause = causeOf(finding, things)
  if (!cause?.at) return finding
  return {
    ...finding,
    at: cause.at,
    notes: [
      { text: `The change here: ${thingSentence(cause)}`, at: cause.at },
      { text: 'What it is about', at: finding.at },
      ...finding.notes,
    ],
  }
}

/** The results that differ from the baseline, each on a line the change touched where there is one. */
export function printComparedSarif(changes: Changes, before: ReadSide, after: ReadSide): string {
  const { appeared, kept, gone, newlyNotChecked } = changes.findings
  const things = changes.subjects.flatMap((subject) => subject.things)
  const results: Result[] = [
    ...appeared.map((finding) => ({ finding: onChangedLine(finding, things), state: 'new' as const })),
    ...kept
      .filter(({ trend }) => trend !== 'same')
      .map((match) => ({ finding: onChangedLine(match.after, things), state: 'updated' as const })),
    ...gone.map(({ finding }) => ({ finding, state: 'absent' as const })),
  ]
  const old = new Set<Pointer>(
    gone.flatMap(({ finding }) => [finding.at, ...finding.notes.flatMap(({ at }) => at ?? [])]),
  )
  const locate: Locate = (pointer) => (old.has(pointer) ? before : after).locate(pointer)
  const notChecked: readonly NotChecked[] = newlyNotChecked
  const log = sarifLog(
    { findings: results.map(({ finding }) => finding), notChecked, waived: [] },
    { locate, toolVersion: packageVersion(), rules: ruleList },
  )
  return printJsonText(withStates(log, results))
}

/** The log gives results in the order of the findings, then what was not checked. */
function withStates(log: Readonly<Record<string, unknown>>, results: readonly Result[]): object {
  const runs = Array.isArray(log.runs) ? log.runs : []
  return {
    ...log,
    runs: runs.map((run: { results: readonly object[] }) => ({
      ...run,
      results: run.results.map((result, i) => ({ ...result, baselineState: results[i]?.state ?? 'new' })),
    })),
  }
}
