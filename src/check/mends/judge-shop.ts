import type { Finding, NotChecked } from '../../base/finding.ts'
import type { Pointer } from '../../base/place.ts'
import type { Procedure } from '../../describe/shop.ts'
import { describeShop, type RawDocument } from '../../describe/validate.ts'
import type { Loom } from '../../resolve/loom.ts'
import { standardCatalogue } from '../../resolve/part-index.ts'
import { indexShop, resolveHarness, resolveInstallation, type ShopIndex } from '../../resolve/resolve.ts'
import { makePaths } from '../../solve/paths.ts'
import type { Solution } from '../../solve/solution.ts'
import { solve } from '../../solve/solve.ts'
import { checkLoom } from '../check.ts'
import type { RuleContext } from '../rule.ts'

/** One loom with everything that is said of it, consequences of other findings included. */
export interface JudgedLoom {
  readonly id: string
  readonly context: RuleContext
  readonly findings: readonly Finding[]
  readonly notChecked: readonly NotChecked[]
}

export interface JudgedShop {
  readonly looms: readonly JudgedLoom[]
  /** Of shape and of names: what no loom carries. */
  readonly shopFindings: readonly Finding[]
  /** Pointers of findings as the documents have them. */
  readonly written: (pointer: Pointer) => Pointer
}

/** Judges documents; with names of harnesses, only the looms they are part of. */
export type JudgeShop = (documents: readonly RawDocument[], harnesses?: ReadonlySet<string>) => JudgedShop

export interface JudgeOptions {
  readonly procedures?: readonly Procedure[]
  /** Findings that other stages make of a loom, such as figures cited in a procedure that are no longer true. */
  readonly also?: (loom: Loom, solution: Solution) => readonly Finding[]
}

function loomsOf(index: ShopIndex, harnesses: ReadonlySet<string> | undefined): readonly Loom[] {
  const installations = [...index.installations.values()]
  const usedBy = (used: readonly { readonly of: string }[] | undefined): boolean =>
    harnesses === undefined || (used ?? []).some(({ of }) => harnesses.has(of))
  const used = new Set(installations.flatMap(({ value }) => value.looms?.map(({ of }) => of) ?? []))
  const alone = [...index.harnesses.keys()].filter(
    (id) => !used.has(id) && (harnesses === undefined || harnesses.has(id)),
  )
  return [
    ...installations
      .filter(({ value }) => usedBy(value.looms))
      .map((entry) => resolveInstallation(index, entry)),
    ...alone.flatMap((id) => resolveHarness(index, id) ?? []),
  ]
}

/** A way to judge one shop again and again with changed documents. */
export function shopJudge({ procedures = [], also }: JudgeOptions = {}): JudgeShop {
  const standard = standardCatalogue()
  return (documents, harnesses) => {
    const { shop, findings, written } = describeShop(documents, procedures)
    const index = indexShop(shop, { standard })
    const policy = shop.policy
    const looms = loomsOf(index, harnesses).map((loom): JudgedLoom => {
      const solution = solve(loom)
      const result = checkLoom(loom, solution, policy ? { policy } : {})
      return {
        id: `${loom.kind} ${loom.id}`,
        context: { loom, solution, paths: makePaths(loom) },
        findings: [...result.findings, ...result.heldBack, ...(also?.(loom, solution) ?? [])],
        notChecked: result.notChecked,
      }
    })
    return { looms, shopFindings: [...findings, ...index.findings], written }
  }
}
