import { LazyMap } from '../base/lazy-map.ts'
import { standardParts } from '../catalogue/standard-parts.ts'
import { type Part, part } from '../describe/part.ts'
import type { Shop } from '../describe/shop.ts'
import type { PartIndex } from './loom.ts'
import type { Report } from './problem.ts'

/** A part of the catalogue that is read through its schema when something asks for it. */
export interface CataloguePart {
  readonly kind: Part['kind']
  readonly id: string
  readonly value: () => Part
}

/**
 * The standard catalogue. A part is read through the same schema as a shop's own when it is first used, since reading all of them
 * takes longer than checking a small lead; that throws only if the catalogue itself is broken.
 */
export function standardCatalogue(): CataloguePart[] {
  return standardParts().map((entry) => ({
    kind: entry.kind,
    id: entry.id,
    value: () => part.parse(entry),
  }))
}

type OwnParts = Record<Part['kind'], Map<string, Part>>

function noParts(): OwnParts {
  return {
    connector: new Map(),
    contact: new Map(),
    seal: new Map(),
    wire: new Map(),
    cable: new Map(),
    fuse: new Map(),
  }
}

/**
 * A shop's parts by id over the standard ones. A shop's own record of a part wins over the standard one, since it is
 * the one somebody measured or ordered by; that is allowed and said in a note, so that it never happens by accident.
 * Of two shop parts with one id the first counts.
 */
export function partIndex(shop: Shop, standard: readonly CataloguePart[], report?: Report): PartIndex {
  const known = new Set(standard.map(({ kind, id }) => `${kind} ${id}`))
  const own = noParts()
  for (const { value, at } of shop.parts) {
    const mine = own[value.kind]
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
    if (known.has(`${value.kind} ${value.id}`))
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
  const all = <K extends Part['kind']>(kind: K) =>
    new LazyMap<Extract<Part, { kind: K }>>([
      ...standard
        .filter((entry) => entry.kind === kind)
        .map(({ id, value }) => [id, () => value() as Extract<Part, { kind: K }>] as const),
      ...[...own[kind]].map(([id, value]) => [id, () => value as Extract<Part, { kind: K }>] as const),
    ])
  return {
    connectors: all('connector'),
    contacts: all('contact'),
    seals: all('seal'),
    wires: all('wire'),
    cables: all('cable'),
    fuses: all('fuse'),
  }
}
