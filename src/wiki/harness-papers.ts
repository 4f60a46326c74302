import { papersOf, pinoutsOf } from '../sheets/papers.ts'
import { type PinoutContext, pinoutContext } from '../sheets/pinout-table.ts'
import type { Sheet } from '../sheets/sheet.ts'
import type { HarnessEntry } from './harness-entries.ts'

/** Every paper of one harness, and what its pinout tables share. */
export interface HarnessPapers {
  readonly sheets: readonly Sheet[]
  readonly context: PinoutContext
}

/** Makes the papers of each harness the first time they are asked for: its page links to them, and they have pages of their own. */
export function rememberPapers(
  changeSheets: ReadonlyMap<string, Sheet> = new Map(),
): (entry: HarnessEntry) => HarnessPapers {
  const made = new Map<HarnessEntry, HarnessPapers>()
  return (entry) => {
    const known = made.get(entry)
    if (known) return known
    const { job, use } = entry
    const context = pinoutContext(job.loom)
    const change = changeSheets.get(entry.harness.id)
    const sheets = [
      ...papersOf(job.loom, use, job.solution),
      ...(change ? [change] : []),
      ...pinoutsOf(job.loom, use, context),
    ]
    const papers = { sheets, context }
    made.set(entry, papers)
    return papers
  }
}
