import type { Harness } from '../describe/harness.ts'
import type { LoomUse } from '../resolve/loom.ts'
import type { Job } from './site-input.ts'

/** A harness with the job its papers are made from: an installation that uses it, else its own. */
export interface HarnessEntry {
  readonly harness: Harness
  readonly job: Job
  readonly use: LoomUse
}

/** Every harness of a shop, once. */
export function harnessEntries(jobs: readonly Job[]): HarnessEntry[] {
  const found = new Map<string, HarnessEntry>()
  for (const job of jobs) {
    for (const use of job.loom.looms) {
      // A drawing shows the harness in its place, so the first installation speaks for it.
      const known = found.get(use.harness.id)
      if (!known || (known.job.loom.kind === 'harness' && job.loom.kind === 'installation'))
        found.set(use.harness.id, { harness: use.harness, job, use })
    }
  }
  return [...found.values()]
}
