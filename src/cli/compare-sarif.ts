import type { Finding, NotChecked } from '../base/finding.ts'
import type { Locate, Pointer } from '../base/place.ts'
import type { Changes } from '../compare/changes.ts'
import { printJsonText } from '../report/json.ts'
import { ruleList } from '../report/rule-list.ts'
import { sarifLog } from '../report/sarif.ts'
import { onChangedLine } from './changed-line.ts'
import type { ReadSide } from './compare-sides.ts'
import { packageVersion } from './package-file.ts'

/** The state of a result against the baseline, in SARIF's words (OASIS SARIF 2.1.0, 3.27.24). */
type BaselineState = 'new' | 'updated' | 'absent'

interface Result {
  readonly finding: Finding
  readonly state: BaselineState
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
