import { type CheckOptions, type CheckResult, checkLoom, checkShop } from '../../src/check/check.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { describeShop } from '../../src/describe/validate.ts'
import type { Loom } from '../../src/resolve/loom.ts'
import { standardCatalogue } from '../../src/resolve/part-index.ts'
import { type ResolvedShop, resolveShop } from '../../src/resolve/resolve.ts'
import { solve } from '../../src/solve/solve.ts'

const standard = standardCatalogue()

/** A description as a resolved shop; throws when it does not fit the schema, since then the test is wrong. */
export function resolveDocument(data: DocumentInput): ResolvedShop {
  const described = describeShop([{ name: 'test.json', data }])
  if (described.findings.length > 0)
    throw new Error(described.findings.map((finding) => finding.what).join('\n'))
  return resolveShop(described.shop, { standard })
}

export function onlyLoom(data: DocumentInput): Loom {
  const { looms } = resolveDocument(data)
  if (looms.length !== 1 || !looms[0]) throw new Error(`expected one loom, got ${looms.length}`)
  return looms[0]
}

/** Everything from data to findings for a description with one loom. */
export function checkDocument(data: DocumentInput, options: CheckOptions = {}): CheckResult {
  const loom = onlyLoom(data)
  return checkLoom(loom, solve(loom), options)
}

/** The same for a shop with several. */
export function checkDocuments(data: DocumentInput, options: CheckOptions = {}): CheckResult {
  const { looms, findings } = resolveDocument(data)
  return checkShop({ looms: looms.map((loom) => ({ loom, solution: solve(loom) })), findings }, options)
}
