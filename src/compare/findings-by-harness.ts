import type { Finding } from '../base/finding.ts'
import type { Revision } from './revision.ts'

/** Findings by the harnesses they lie on: those whose subject or marks are on it. One that lies on two stands under both. */
export function findingsByHarness(
  { looms }: Revision,
  findings: readonly Finding[],
): ReadonlyMap<string, readonly Finding[]> {
  const found = new Map<string, Finding[]>()
  const uses = new Map(looms.map(({ loom }) => [loom.id, loom.looms] as const))
  for (const finding of findings) {
    const slash = finding.subject.indexOf('/')
    const job = slash < 0 ? finding.subject : finding.subject.slice(0, slash)
    const places = [...(slash < 0 ? [] : [finding.subject.slice(slash + 1)]), ...finding.marks]
    for (const { id, harness } of uses.get(job) ?? []) {
      const isOn = places.some((place) => place === id || place.startsWith(`${id}.`))
      // A lone harness is a job of its own, and all that is found in it is about it.
      if (isOn || job === harness.id) found.set(harness.id, [...(found.get(harness.id) ?? []), finding])
    }
  }
  return found
}
