import type { RootContent } from 'mdast'
import type { Procedure } from '../describe/shop.ts'
import type { Loom } from '../resolve/loom.ts'
import { proceduresOf } from './check-citations.ts'
import { expandTree, type Href } from './expand-tree.ts'
import type { Facts } from './facts.ts'
import { type PhaseId, phaseNamed } from './phases.ts'
import { type ProcedureTree, plainText, readProcedure } from './procedure-tree.ts'

/** A piece of a shop's own procedure and the phase it belongs to. */
export interface ShopSteps {
  readonly file: string
  readonly title: string
  readonly phase: PhaseId
  readonly content: readonly RootContent[]
}

/**
 * The shop's own steps of a loom, each put where it belongs: a heading that names a phase ("## Route", "# Grounds") opens it;
 * what stands before the first such heading goes to the phase named by `at:` in the front matter, else to the beginning.
 * A title in the front matter (`title:`) or the first other heading names the piece.
 */
export function shopSteps(facts: Facts, procedures: readonly Procedure[], href?: Href): ShopSteps[] {
  return proceduresOf(facts.loom, procedures).flatMap(({ procedure, scope }) => {
    const read = readProcedure(procedure)
    const tree = expandTree(read.tree, scope ? { ...facts, scope } : facts, href)
    return splitByPhase({ ...read, tree })
  })
}

function splitByPhase({ file, tree, matter }: ProcedureTree): ShopSteps[] {
  const named = matter.get('title')
  let phase = phaseNamed(matter.get('at') ?? '') ?? 'prepare'
  let title = named
  let content: RootContent[] = []
  const pieces: ShopSteps[] = []
  const close = () => {
    if (content.length > 0) pieces.push({ file, title: title ?? baseName(file), phase, content })
    content = []
  }
  for (const node of tree.children) {
    const next = node.type === 'heading' ? phaseNamed(plainText(node)) : undefined
    if (next !== undefined) {
      close()
      phase = next
      continue
    }
    if (node.type === 'heading' && title === undefined && content.length === 0 && node.depth === 1) {
      title = plainText(node)
      continue
    }
    content.push(node)
  }
  close()
  return pieces
}

const baseName = (file: string): string => (file.split('/').at(-1) ?? file).replace(/\.md$/i, '')

/** Whether a loom has any procedure of its own. */
export const hasProcedures = (loom: Loom, procedures: readonly Procedure[]): boolean =>
  proceduresOf(loom, procedures).length > 0
