import { visit } from 'unist-util-visit'
import type { Finding } from '../base/finding.ts'
import { quote } from '../base/quote.ts'
import { findProcedures } from '../describe/find-procedures.ts'
import type { Procedure } from '../describe/shop.ts'
import type { Loom, LoomUse } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'
import { type Citation, parseCitation } from './citation.ts'
import { expandCitation } from './expand-citation.ts'
import type { Facts } from './facts.ts'
import { markdownPointer } from './markdown-pointer.ts'
import { type ProcedureTree, readProcedure } from './procedure-tree.ts'

/** A procedure that belongs to a loom, and the harness it was written for. */
export interface OwnProcedure {
  readonly procedure: Procedure
  readonly scope: LoomUse | undefined
}

/** The procedures an installation and its harnesses name, in that order, each once for each loom it was written for. */
export function proceduresOf(loom: Loom, procedures: readonly Procedure[]): OwnProcedure[] {
  const [lone] = loom.kind === 'harness' ? loom.looms : []
  const named = (names: readonly string[] | undefined, scope: LoomUse | undefined): OwnProcedure[] =>
    (names ?? []).flatMap((name) => {
      const [procedure] = findProcedures(procedures, name)
      return procedure ? [{ procedure, scope }] : []
    })
  const own = lone ? [] : named(loom.source.procedures, undefined)
  return [...own, ...loom.looms.flatMap((use) => named(use.harness.procedures, use))]
}

/** The citations of a procedure with their places. */
export function citationsOf(read: ProcedureTree): { citation: Citation; line: number; column: number }[] {
  const all: { citation: Citation; line: number; column: number }[] = []
  visit(read.tree, (node) => {
    if (node.type !== 'link' && node.type !== 'definition') return
    const citation = parseCitation(node.url)
    const start = node.position?.start
    if (citation && start) all.push({ citation, line: start.line, column: start.column })
  })
  return all
}

/**
 * Every citation in the procedures of a loom that leads nowhere or to more than one thing, at its line and column in the
 * Markdown file. `known` adds the findings and rules that `finding:` citations are held against.
 */
export function checkCitations(
  loom: Loom,
  solution: Solution | undefined,
  procedures: readonly Procedure[],
  known: Pick<Facts, 'findings' | 'ruleIds'> = {},
): Finding[] {
  const stale = new Map<string, Finding>()
  for (const { procedure, scope } of proceduresOf(loom, procedures)) {
    const facts: Facts = { loom, solution, ...known, ...(scope ? { scope } : {}) }
    for (const { citation, line, column } of citationsOf(readProcedure(procedure))) {
      const expansion = expandCitation(facts, citation)
      // A harness used twice is read twice; its citation is still one thing to mend.
      const key = `${procedure.file} ${line} ${column}`
      if (!expansion.ok && !stale.has(key))
        stale.set(key, finding(loom, procedure.file, citation, expansion, line, column))
    }
  }
  return [...stale.values()]
}

function finding(
  loom: Loom,
  file: string,
  citation: Citation,
  { problem, fix }: { readonly problem: string; readonly fix: string },
  line: number,
  column: number,
): Finding {
  return {
    rule: 'stale-citation',
    level: 'warning',
    subject: `${loom.id}/${file}#${citation.url}`,
    what: `${quote(citation.url)} in ${file}: ${problem}`,
    why: 'A procedure that cites what is no longer there sends the fitter to the wrong pin; the printed guide shows the gap.',
    fix,
    assumed: [],
    facts: { citation: { value: citation.url } },
    at: markdownPointer(file, line, column),
    notes: [],
    marks: [],
  }
}
