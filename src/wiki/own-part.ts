import { addressIn } from './address-in.ts'
import type { HarnessEntry } from './harness-entries.ts'
import type { Job } from './site-input.ts'

/** Findings and gaps of a job that are about this harness. */
export function ownPart({ job, use }: HarnessEntry): Job {
  const { loom } = job
  if (loom.kind === 'harness') return job
  const mine = (subject: string) => {
    const address = addressIn(loom, subject)
    return address === use.id || address.startsWith(`${use.id}.`)
  }
  return {
    ...job,
    findings: job.findings.filter((finding) => mine(finding.subject) || finding.marks.some(mine)),
    notChecked: job.notChecked.filter((one) => mine(one.subject)),
  }
}
