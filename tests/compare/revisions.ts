import { fileURLToPath } from 'node:url'
import { checkShop } from '../../src/check/check.ts'
import type { Revision } from '../../src/compare/revision.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { readShop } from '../../src/read/read-shop.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'
import { solve } from '../../src/solve/solve.ts'

export type Data = Omit<DocumentInput, 'loomwright'>

/** Everything that comes of one document. */
export function revisionOf(
  documents: readonly { readonly name: string; readonly data: unknown }[],
): Revision {
  const { shop, findings } = describeShop(documents, [])
  const { looms, index } = resolveShop(shop)
  const solved = looms.map((loom) => ({ loom, solution: solve(loom) }))
  const { policy } = shop
  const result = checkShop(
    { looms: solved, findings: [...findings, ...index.findings] },
    policy ? { policy } : {},
  )
  return { shop, looms: solved, result }
}

const demos = fileURLToPath(new URL('../../harnesses', import.meta.url))

/** One of the demo jobs as plain documents, so that a test can change it and read it anew. */
export async function demoDocuments(file: string): Promise<{ name: string; data: Data }[]> {
  const source = await readShop(`${demos}/${file}`, demos)
  if (source.troubles.length > 0) throw new Error(source.troubles.map(({ what }) => what).join('\n'))
  return source.documents.map(({ name, data }) => ({ name, data: structuredClone(data) as Data }))
}

export type Harness = NonNullable<Data['harnesses']>[number]

/** The one of a list with a name. */
export function find<T extends { id: string }>(list: readonly T[] | undefined, id: string): T {
  const found = list?.find((one) => one.id === id)
  if (!found) throw new Error(`there is no ${id}`)
  return found
}

/** Gives a connector another name, everywhere it stands. */
export function renameConnector(harness: Harness, from: string, to: string): void {
  find(harness.connectors, from).id = to
  const end = (text: string) =>
    text === from || text.startsWith(`${from}.`) ? to + text.slice(from.length) : text
  for (const run of [...(harness.wires ?? []), ...(harness.branches ?? [])])
    Object.assign(run, { from: end(run.from), to: end(run.to) })
  for (const { cores, shields } of harness.cables ?? []) {
    for (const core of cores) Object.assign(core, { from: end(core.from), to: end(core.to) })
    for (const shield of shields ?? []) {
      if (shield.from !== undefined) shield.from = end(shield.from)
      if (shield.to !== undefined) shield.to = end(shield.to)
    }
  }
}
