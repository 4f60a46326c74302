import { naturalOrder } from '../base/natural-order.ts'
import type { SubjectChange, ThingChange } from '../compare/changes.ts'
import type { Block, Conductor, EndRef, SheetModel, StripBlock, StripRow } from '../draw/sheet-model.ts'

/** How a conductor is drawn on an overlay: by its line and by a word, never by colour alone. */
export type Mark = 'new' | 'moved' | 'changed' | 'was'

const WORD: Readonly<Record<Mark, string>> = {
  new: 'NEW',
  moved: 'MOVED',
  changed: 'CHANGED',
  was: 'REMOVED',
}

export interface Overlay {
  readonly model: SheetModel
  /** Marks by the id a conductor has on the drawing. */
  readonly marks: ReadonlyMap<string, Mark>
}

/** The new address of something on the old drawing. */
export type AddressNow = (address: string) => string

const isWire = ({ kind }: ThingChange): boolean => kind === 'conductor' || kind === 'shield'

function markOf({ change, moves, values }: ThingChange): Mark {
  if (change === 'added') return 'new'
  if (moves.length > 0) return 'moved'
  return values.length > 0 ? 'changed' : 'moved'
}

/** Marks of the conductors that are there now, by address. */
function marksNow(things: readonly ThingChange[]): Map<string, Mark> {
  const marks = new Map<string, Mark>()
  for (const thing of things) {
    const address = thing.addresses.at(-1)
    const renamedOnly = thing.change === 'altered' && thing.moves.length === 0 && thing.values.length === 0
    if (isWire(thing) && thing.change !== 'removed' && address !== undefined && !renamedOnly)
      marks.set(address, markOf(thing))
  }
  return marks
}

/** The old run of what was taken out or moved, as a conductor of its own on the new drawing. */
function ghosts(before: SheetModel, things: readonly ThingChange[], now: AddressNow): Conductor[] {
  const old = new Map(before.conductors.map((conductor) => [conductor.id, conductor]))
  const mapped = (end: EndRef): EndRef => ({ ...end, block: now(end.block) })
  return things.filter(isWire).flatMap((thing): Conductor[] => {
    const gone = thing.change === 'removed'
    if (!gone && thing.moves.length === 0) return []
    const conductor = old.get(thing.addresses[0] ?? '')
    if (!conductor?.from || !conductor.to) return []
    const label = `${conductor.label ?? conductor.id} ${gone ? 'REMOVED' : 'WAS HERE'}`
    return [
      {
        ...conductor,
        id: `was ${conductor.id}`,
        label,
        from: mapped(conductor.from),
        to: mapped(conductor.to),
      },
    ]
  })
}

const rowsOf = (block: Block): readonly StripRow[] =>
  block.kind === 'strip' ? block.sections.flatMap(({ rows }) => rows) : []

/** As on the face: by number, the shell last. */
const byPin = (a: StripRow, b: StripRow): number =>
  Number(a.pin === 'shell') - Number(b.pin === 'shell') || naturalOrder(a.pin, b.pin)

/** The strip with a row for each pin an old conductor was on. */
function withRows(block: StripBlock, wanted: ReadonlySet<string>, old: Block | undefined): StripBlock {
  const have = new Set(rowsOf(block).map(({ key }) => key))
  const rows = rowsOf(old ?? block).filter(({ key }) => wanted.has(key) && !have.has(key))
  const [first, ...rest] = block.sections
  if (!first || rows.length === 0) return block
  const back = new Set(rows.map(({ pin }) => pin))
  const idle = first.idle
    ?.map((one) => ({ ...one, pins: one.pins.filter((pin) => !back.has(pin)) }))
    .filter(({ pins }) => pins.length > 0)
  return {
    ...block,
    sections: [{ ...first, rows: [...first.rows, ...rows].sort(byPin), ...(idle ? { idle } : {}) }, ...rest],
  }
}

/** Blocks of the new drawing with what the old runs need, and those that only the old drawing had. */
function mergeBlocks(
  before: SheetModel,
  after: SheetModel,
  old: readonly Conductor[],
  things: readonly ThingChange[],
  now: AddressNow,
): Block[] {
  const wanted = new Map<string, Set<string>>()
  for (const { from, to } of old)
    for (const end of [from, to])
      if (end) wanted.set(end.block, (wanted.get(end.block) ?? new Set()).add(end.pin))
  const oldBlocks = new Map(before.blocks.map((block) => [now(block.id), block]))
  const words = new Map<string, string>()
  for (const thing of things)
    if (!isWire(thing) && thing.change !== 'removed')
      words.set(thing.addresses.at(-1) ?? '', thing.change === 'added' ? 'NEW' : 'CHANGED')
  const titled = <T extends Block>(block: T, word: string | undefined): T =>
    word === undefined ? block : { ...block, title: `${block.title} ${word}` }
  const present = after.blocks.map((block): Block => {
    const rows = wanted.get(block.id)
    const full = block.kind === 'strip' && rows ? withRows(block, rows, oldBlocks.get(block.id)) : block
    return titled(full, words.get(block.id))
  })
  const known = new Set(after.blocks.map(({ id }) => id))
  const gone = [...oldBlocks].flatMap(([id, block]) =>
    !known.has(id) && wanted.has(id) ? [titled({ ...block, id } as Block, 'REMOVED')] : [],
  )
  return [...present, ...gone]
}

/** Old and new wiring on one drawing: what is new or moved stands out, and what was there before stays as a broken line. */
export function overlaySheet(
  before: SheetModel,
  after: SheetModel,
  subject: SubjectChange,
  now: AddressNow,
): Overlay {
  const current = marksNow(subject.things)
  const old = ghosts(before, subject.things, now)
  const tagged = <T extends { readonly id: string; readonly label?: string }>(one: T): T => {
    const mark = current.get(one.id)
    return mark === undefined ? one : { ...one, label: `${one.label ?? one.id} ${WORD[mark]}` }
  }
  const marks = new Map<string, Mark>([...current, ...old.map(({ id }) => [id, 'was'] as const)])
  return {
    marks,
    model: {
      ...after,
      titleBlock: { ...after.titleBlock, documentType: 'Comparison, old over new' },
      blocks: mergeBlocks(before, after, old, subject.things, now),
      conductors: [...after.conductors.map(tagged), ...old],
      trunks: after.trunks.map((trunk) => ({ ...trunk, shields: trunk.shields.map(tagged) })),
      notes: ['Broken lines: as it was. Heavy lines: new, moved or changed, with the word at the line.'],
    },
  }
}
