import { standardParts } from '../catalogue/standard-parts.ts'
import { type Part, part } from '../describe/part.ts'
import type { Shop } from '../describe/shop.ts'
import type { PartIndex } from './loom.ts'
import type { Report } from './problem.ts'

/** The standard catalogue, read through the same schema as a shop's own parts. Throws only if the catalogue itself is broken. */
export function parseStandardParts(): readonly Part[] {
  return standardParts().map((entry) => part.parse(entry))
}

type ByKind = { [K in Part['kind']]: Map<string, Extract<Part, { kind: K }>> }

function emptyIndex(): ByKind {
  return {
    connector: new Map(),
    contact: new Map(),
    seal: new Map(),
    wire: new Map(),
    cable: new Map(),
    fuse: new Map(),
  }
}

const mapOf = (index: ByKind, kind: Part['kind']): Map<string, Part> => index[kind] as Map<string, Part>

/**
 * A shop's parts by id over the standard ones. A shop's own record of a part wins over the standard one, since it is
 * the one somebody measured or ordered by; that is allowed and said in a note, so that it never happens by accident.
 * Of two shop parts with one id the first counts.
 */
export function partIndex(shop: Shop, standard: readonly Part[], report?: Report): PartIndex {
  const index = emptyIndex()
  for (const entry of standard) mapOf(index, entry.kind).set(entry.id, entry)
  const own = emptyIndex()
  for (const { value, at } of shop.parts) {
    const mine = mapOf(own, value.kind)
    if (mine.has(value.id)) {
      report?.({
        rule: 'duplicate-name',
        subject: `parts/${value.id}`,
        level: 'stop',
        what: `Two ${value.kind} parts are called ${value.id}; the first counts`,
        fix: 'Rename one of them, or delete it.',
        at: { doc: at.doc, path: [...at.path, 'id'] },
      })
      continue
    }
    if (mapOf(index, value.kind).has(value.id))
      report?.({
        rule: 'duplicate-name',
        subject: `parts/${value.id}`,
        level: 'note',
        what: `The shop's own ${value.kind} ${value.id} takes the place of the standard part of that name`,
        fix: 'Nothing, if that is meant; else give the shop part a name of its own.',
        at: { doc: at.doc, path: [...at.path, 'id'] },
      })
    mine.set(value.id, value)
  }
  for (const kind of Object.keys(own) as Part['kind'][])
    for (const [id, value] of mapOf(own, kind)) mapOf(index, kind).set(id, value)
  return {
    connectors: index.connector,
    contacts: index.contact,
    seals: index.seal,
    wires: index.wire,
    cables: index.cable,
    fuses: index.fuse,
  }
}
