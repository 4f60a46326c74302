import { fileURLToPath } from 'node:url'
import type { Finding } from '../../src/base/finding.ts'
import { type CheckResult, checkShop } from '../../src/check/check.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { readShop } from '../../src/read/read-shop.ts'
import type { Loom } from '../../src/resolve/loom.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'
import type { Solution } from '../../src/solve/solution.ts'
import { solve } from '../../src/solve/solve.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))

/** The shop in `harnesses/`, read as the command reads it. */
export const source = await readShop('harnesses', root)
export const description = describeShop(source.documents, source.procedures)
export const resolved = resolveShop(description.shop)

export interface Job {
  readonly loom: Loom
  readonly solution: Solution
  readonly result: CheckResult
}

const jobs = new Map<string, Job>(
  resolved.looms.map((loom) => {
    const solution = solve(loom)
    return [loom.id, { loom, solution, result: checkShop({ looms: [{ loom, solution }] }) }]
  }),
)

export function job(id: string): Job {
  const found = jobs.get(id)
  if (!found) throw new Error(`no job ${id}; there are ${[...jobs.keys()].join(', ')}`)
  return found
}

export const jobIds = [...jobs.keys()]

/** Shown or held back as a consequence: found is found. */
export const allFindings = ({ result }: Job): readonly Finding[] => [...result.findings, ...result.heldBack]

/** What a finding says and the figures it carries, as one text to search. */
export const words = ({ what, why, fix, facts }: Finding): string =>
  [what, why, fix, ...Object.values(facts).map(({ value, unit }) => `${value} ${unit ?? ''}`)].join('\n')
