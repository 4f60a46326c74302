import type { Block, EndRef, SheetModel, StripBlock } from './sheet-model.ts'
import type { PinsElsewhere } from './strip-shape.ts'

/** One sheet's share of a model. */
export interface SheetPart {
  readonly model: SheetModel
  /** By block: pins that are drawn on other sheets. */
  readonly elsewhere: ReadonlyMap<string, readonly PinsElsewhere[]>
}

const pinKey = (block: string, pin: string): string => JSON.stringify([block, pin])

/** Sheets by pin and by block; sheets count from 1. */
interface Whereabouts {
  readonly pins: ReadonlyMap<string, readonly number[]>
  readonly blocks: ReadonlyMap<string, readonly number[]>
}

function whereabouts(model: SheetModel, sheets: readonly (readonly number[])[]): Whereabouts {
  const pins = new Map<string, Set<number>>()
  const blocks = new Map<string, Set<number>>()
  const add = (map: Map<string, Set<number>>, key: string, sheet: number) => {
    const set = map.get(key) ?? new Set<number>()
    map.set(key, set.add(sheet))
  }
  const sheetOf = new Map<string, number>()
  const note = (end: EndRef | undefined, sheet: number) => {
    if (!end) return
    add(pins, pinKey(end.block, end.pin), sheet)
    add(blocks, end.block, sheet)
  }
  for (const [s, indexes] of sheets.entries())
    for (const i of indexes) {
      const conductor = model.conductors[i]
      if (conductor) sheetOf.set(conductor.id, s + 1)
      note(conductor?.from, s + 1)
      note(conductor?.to, s + 1)
    }
  for (const trunk of model.trunks) {
    const sheet = sheetOf.get(trunk.conductors[0] ?? '') ?? 1
    for (const shield of trunk.shields) for (const end of [shield.from, shield.to]) note(end, sheet)
  }
  const lists = (map: ReadonlyMap<string, ReadonlySet<number>>) =>
    new Map([...map].map(([key, set]) => [key, [...set].sort((a, b) => a - b)] as const))
  return { pins: lists(pins), blocks: lists(blocks) }
}

function pinsElsewhere(block: StripBlock, sheet: number, where: Whereabouts): PinsElsewhere[] {
  return block.sections.flatMap((section) => {
    const bySheet = new Map<number, string[]>()
    for (const row of section.rows)
      for (const other of where.pins.get(pinKey(block.id, row.key)) ?? [])
        if (other !== sheet) bySheet.set(other, [...(bySheet.get(other) ?? []), row.pin])
    return [...bySheet]
      .sort((a, b) => a[0] - b[0])
      .map(([other, pins]) => ({ section: section.id, sheet: other, pins }))
  })
}

function blockOnSheet(block: Block, sheet: number, where: Whereabouts, home: boolean): Block {
  const others = (where.blocks.get(block.id) ?? []).filter((other) => other !== sheet)
  if (block.kind !== 'strip')
    return others.length === 0
      ? block
      : { ...block, title: `${block.title} (also sheet ${others.join(', ')})` }
  const sections = block.sections.map((section) => ({
    ...section,
    idle: home ? (section.idle ?? []) : [],
    rows: section.rows.filter((row) => {
      const at = where.pins.get(pinKey(block.id, row.key))
      return at === undefined ? home : at.includes(sheet)
    }),
  }))
  const shown = sections.filter((s) => s.rows.length > 0 || s.idle.length > 0)
  // A jump list needs its section even where none of its pins is drawn here.
  return { ...block, sections: shown.length > 0 ? shown : sections.slice(0, 1) }
}

/** Cuts a model into sheets. Every block stands on each sheet that has one of its conductors, with those pins only. */
export function makeParts(model: SheetModel, sheets: readonly (readonly number[])[]): SheetPart[] {
  const where = whereabouts(model, sheets)
  const homeOf = (block: Block) => where.blocks.get(block.id)?.[0] ?? 1
  return sheets.map((indexes, s): SheetPart => {
    const sheet = s + 1
    const conductors = indexes.flatMap((i) => model.conductors[i] ?? [])
    const ids = new Set(conductors.map((conductor) => conductor.id))
    const trunks = model.trunks.filter((t) =>
      t.conductors.length === 0 ? sheet === 1 : t.conductors.some((id) => ids.has(id)),
    )
    const here = model.blocks.filter(
      (block) => where.blocks.get(block.id)?.includes(sheet) ?? homeOf(block) === sheet,
    )
    const blocks = here.map((block) => blockOnSheet(block, sheet, where, homeOf(block) === sheet))
    const shownSections = new Map(
      blocks.flatMap((b) =>
        b.kind === 'strip' ? [[b.id, new Set(b.sections.map((x) => x.id))] as const] : [],
      ),
    )
    const elsewhere = new Map(
      here.flatMap((block) =>
        block.kind === 'strip'
          ? [
              [
                block.id,
                pinsElsewhere(block, sheet, where).filter((p) => shownSections.get(block.id)?.has(p.section)),
              ] as const,
            ]
          : [],
      ),
    )
    return { model: { ...model, blocks, conductors, trunks }, elsewhere }
  })
}
