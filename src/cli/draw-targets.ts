import type { Loom, LoomUse } from '../resolve/loom.ts'

/** One thing to draw: an installation, or one harness as it sits in its loom. */
export interface DrawTarget {
  readonly kind: 'installation' | 'harness'
  readonly id: string
  /** Tells drawings apart where a harness and an installation share a name. */
  readonly name: string
  readonly loom: Loom
  readonly use: LoomUse | undefined
}

/**
 * Every installation, then every harness once, as the pages show them: in the first installation that uses it, else by itself.
 * So a drawing made alone carries the same issue code as the one on its page.
 */
export function drawTargets(looms: readonly { readonly loom: Loom }[]): DrawTarget[] {
  const harnesses = new Map<string, DrawTarget>()
  for (const { loom } of looms)
    for (const use of loom.looms) {
      const { id } = use.harness
      const known = harnesses.get(id)
      if (!known || (known.loom.kind === 'harness' && loom.kind === 'installation'))
        harnesses.set(id, { kind: 'harness', id, name: `harness ${id}`, loom, use })
    }
  const installations = looms
    .filter(({ loom }) => loom.kind === 'installation')
    .map(({ loom }): DrawTarget => {
      return { kind: 'installation', id: loom.id, name: `installation ${loom.id}`, loom, use: undefined }
    })
  return [...installations, ...harnesses.values()]
}
