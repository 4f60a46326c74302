import { FLAG_ROOM, flagMarks } from './flag-mark.ts'
import { PITCH, TEXT } from './metrics.ts'
import { pinList } from './pin-list.ts'
import { type Item, line, text } from './scene.ts'
import type { FindElsewhere, Port, Shape, WireEnd } from './shape.ts'
import type { IdlePins, StripBlock, StripRow, StripSection } from './sheet-model.ts'
import { TWO_TERMINAL } from './symbols/two-terminal.ts'
import { textWidth, wrapText } from './text-width.ts'

/** Pins of this block that are drawn on another sheet. */
export interface PinsElsewhere {
  readonly section: string
  readonly sheet: number
  readonly pins: readonly string[]
}

const MAX_NAME = 190
const MAX_WIDTH = 300
const SMALL_LINE = 14
/** Room a symbol takes at the right end of the head. */
const SYMBOL_ROOM = 50
/** Stands for any reference while room is reserved. */
const WIDEST_REFERENCE = '→ sheet 888 · H88'

interface RowPlan {
  readonly row: StripRow
  readonly west: readonly WireEnd[]
  readonly east: readonly WireEnd[]
  readonly height: number
}

/** Widths of the columns of a strip, from its left edge; zero where no conductor leaves on that side. */
interface StripColumns {
  readonly numberWest: number
  readonly pinWest: number
  readonly name: number
  readonly contact: number
  readonly pinEast: number
  readonly numberEast: number
  readonly total: number
}

const widest = (texts: readonly string[], size: number, bold = false) =>
  texts.reduce((most, one) => Math.max(most, textWidth(one, size, bold ? 'bold' : 'regular')), 0)

function planRows(section: StripSection, ends: readonly WireEnd[]): RowPlan[] {
  return section.rows.map((row) => {
    const own = ends.filter((end) => end.pin === row.key)
    const west = own.filter((end) => end.side === 'WEST')
    const east = own.filter((end) => end.side === 'EAST')
    return { row, west, east, height: PITCH * Math.max(1, west.length, east.length) }
  })
}

function columnsFor(rows: readonly RowPlan[], idleSide: 'WEST' | 'EAST', headWidth: number): StripColumns {
  const west = rows.filter((r) => r.west.length > 0 || (r.east.length === 0 && idleSide === 'WEST'))
  const east = rows.filter((r) => r.east.length > 0 || (r.west.length === 0 && idleSide === 'EAST'))
  const numbers = (ends: readonly WireEnd[]) => {
    const w = widest(
      ends.map((end) => end.number),
      TEXT.small,
    )
    return w === 0 ? 0 : Math.ceil(w) + 9
  }
  const pins = (some: readonly RowPlan[]) =>
    some.length === 0
      ? 0
      : Math.max(
          26,
          Math.ceil(
            widest(
              some.map((r) => r.row.pin),
              TEXT.label,
              true,
            ),
          ) + 12,
        )
  const names = rows.map(
    (r) =>
      Math.min(MAX_NAME, textWidth(r.row.name, TEXT.label)) + FLAG_ROOM * (r.row.flags?.length ?? 0) + 14,
  )
  const contactWidth = widest(
    rows.map((r) => r.row.contact ?? ''),
    TEXT.small,
  )
  const contact = contactWidth === 0 ? 0 : Math.ceil(contactWidth) + 10
  const fixed = {
    numberWest: numbers(rows.flatMap((r) => r.west)),
    pinWest: pins(west),
    contact,
    pinEast: pins(east),
    numberEast: numbers(rows.flatMap((r) => r.east)),
  }
  const rest = fixed.numberWest + fixed.pinWest + fixed.contact + fixed.pinEast + fixed.numberEast
  const name = Math.ceil(Math.max(40, headWidth - rest, ...names))
  return { ...fixed, name, total: rest + name }
}

/** The lines that list pins without a conductor on this sheet. */
function footLines(
  idle: readonly IdlePins[],
  elsewhere: readonly PinsElsewhere[],
  width: number,
): { text: string; jump?: PinsElsewhere }[] {
  const room = width - 12
  return [
    ...idle
      .filter((one) => one.pins.length > 0)
      .flatMap((one) =>
        wrapText(`${one.state}: ${pinList(one.pins)}`, room, TEXT.small).map((text) => ({ text })),
      ),
    ...elsewhere.flatMap((jump) => {
      const pins = pinList(jump.pins)
      const short = textWidth(`${pins} ${WIDEST_REFERENCE}`, TEXT.small) <= room
      const before = short ? [] : wrapText(pins, room, TEXT.small).map((text) => ({ text }))
      return [...before, { text: short ? `${pins} ` : '', jump }]
    }),
  ]
}

interface Head {
  readonly title: readonly string[]
  readonly subtitle: readonly string[]
  readonly width: number
  readonly height: number
}

function planHead(block: StripBlock): Head {
  const aside = (block.symbol ? SYMBOL_ROOM : 0) + FLAG_ROOM * (block.flags?.length ?? 0)
  const title = wrapText(block.title, MAX_WIDTH - 14 - aside, TEXT.title, 2, 'bold')
  const subtitle = block.subtitle ? wrapText(block.subtitle, MAX_WIDTH - 14 - aside, TEXT.small, 2) : []
  const width = Math.max(widest(title, TEXT.title, true), widest(subtitle, TEXT.small)) + 14 + aside
  const text = 6 + title.length * 18 + subtitle.length * SMALL_LINE + 2
  return {
    title,
    subtitle,
    width: Math.max(110, Math.ceil(width)),
    height: Math.max(text, block.symbol ? 34 : 0),
  }
}

function drawHead(block: StripBlock, head: Head, x: number, y: number, width: number): Item[] {
  const items: Item[] = head.title.map((one, i) =>
    text(x + 7, y + 19 + i * 18, one, { size: 'title', bold: true, full: block.title }),
  )
  const below = y + 4 + head.title.length * 18
  for (const [i, one] of head.subtitle.entries())
    items.push(text(x + 7, below + 11 + i * SMALL_LINE, one, { size: 'small', full: block.subtitle ?? '' }))
  const flagsAt = x + width - (block.symbol ? SYMBOL_ROOM : 0) - FLAG_ROOM * (block.flags?.length ?? 0) + 8
  if (block.symbol) items.push(...TWO_TERMINAL[block.symbol](x + width - 25, y + 17))
  items.push(...flagMarks(block.flags, flagsAt, y + 13))
  return items
}

function drawRow(
  plan: RowPlan,
  side: 'WEST' | 'EAST' | 'BOTH',
  c: StripColumns,
  x: number,
  y: number,
): Item[] {
  const { row, height, west, east } = plan
  const middle = y + height / 2
  const items: Item[] = []
  const right = x + c.total
  const cell = (at: number) => items.push(line('lw-thin', [at, y], [at, y + height]))
  const pinText = (at: number) => items.push(text(at, middle + 5, row.pin, { bold: true, anchor: 'middle' }))
  const numbers = (ends: readonly WireEnd[], at: number) => {
    for (const [i, end] of ends.entries())
      items.push(text(at, y + PITCH / 2 + i * PITCH + 4.2, end.number, { size: 'small', anchor: 'middle' }))
  }
  let nameFrom = x
  let nameTo = right
  if (side !== 'EAST') {
    pinText(x + c.numberWest + c.pinWest / 2)
    nameFrom = x + c.numberWest + c.pinWest
    if (west.length > 0) cell(x + c.numberWest)
    cell(nameFrom)
    numbers(west, x + c.numberWest / 2)
  }
  if (side !== 'WEST') {
    pinText(right - c.numberEast - c.pinEast / 2)
    nameTo = right - c.numberEast - c.pinEast
    if (east.length > 0) cell(right - c.numberEast)
    cell(nameTo)
    numbers(east, right - c.numberEast / 2)
  }
  items.push(...drawName(row, side === 'EAST', c, nameFrom, nameTo, middle))
  return items
}

/** The function beside the pin number, the contact and marks on its far side. */
function drawName(
  row: StripRow,
  toRight: boolean,
  c: StripColumns,
  from: number,
  to: number,
  middle: number,
): Item[] {
  const flagRoom = FLAG_ROOM * (row.flags?.length ?? 0)
  const shown = wrapText(row.name, to - from - 12 - flagRoom - c.contact, TEXT.label, 1)[0] ?? ''
  const name = toRight
    ? text(to - 6, middle + 5, shown, { anchor: 'end', full: row.name })
    : text(from + 6, middle + 5, shown, { full: row.name })
  const contact = row.contact
    ? [
        toRight
          ? text(from + flagRoom + 6, middle + 4.2, row.contact, { size: 'small' })
          : text(to - flagRoom - 6, middle + 4.2, row.contact, { size: 'small', anchor: 'end' }),
      ]
    : []
  return [name, ...contact, ...flagMarks(row.flags, toRight ? from + 11 : to - flagRoom + 8, middle)]
}

interface SectionPlan {
  readonly section: StripSection
  readonly rows: readonly RowPlan[]
  readonly headHeight: number
  readonly foot: readonly { text: string; jump?: PinsElsewhere }[]
}

const sectionHeight = (s: SectionPlan) =>
  s.headHeight +
  s.rows.reduce((sum, r) => sum + r.height, 0) +
  (s.foot.length > 0 ? s.foot.length * SMALL_LINE + 5 : 0)

/** A connector strip, or a unit with one strip under another. */
export function stripShape(
  block: StripBlock,
  ends: readonly WireEnd[],
  elsewhere: readonly PinsElsewhere[] = [],
): Shape {
  const idleSide = ends.filter((e) => e.side === 'WEST').length >= ends.length / 2 ? 'WEST' : 'EAST'
  const head = planHead(block)
  const planned = block.sections.map((section) => ({ section, rows: planRows(section, ends) }))
  const headed = block.sections.length > 1 || block.sections.some((section) => section.title)
  const sectionWidth = headed
    ? Math.max(
        ...block.sections.map(
          (s) =>
            textWidth(s.title ?? s.id, TEXT.label, 'bold') + textWidth(s.subtitle ?? '', TEXT.small) + 26,
        ),
      )
    : 0
  const footWidth = elsewhere.length > 0 ? textWidth(WIDEST_REFERENCE, TEXT.small) + 14 : 0
  const c = columnsFor(
    planned.flatMap((p) => p.rows),
    idleSide,
    Math.max(head.width, Math.min(MAX_WIDTH, sectionWidth), footWidth),
  )
  const sections: SectionPlan[] = planned.map(({ section, rows }) => ({
    section,
    rows,
    headHeight: headed ? 21 : 0,
    foot: footLines(
      section.idle ?? [],
      elsewhere.filter((e) => e.section === section.id),
      c.total,
    ),
  }))
  const ports: Port[] = []
  let y = head.height
  for (const plan of sections) {
    let rowY = y + plan.headHeight
    for (const row of plan.rows) {
      for (const list of [row.west, row.east])
        for (const [i, end] of list.entries())
          ports.push({
            id: end.port,
            side: end.side,
            x: end.side === 'WEST' ? 0 : c.total,
            y: rowY + PITCH / 2 + i * PITCH,
          })
      rowY += row.height
    }
    y += sectionHeight(plan)
  }
  const height = y
  const draw = (at: readonly [number, number], find: FindElsewhere): Item[] => {
    const [x, top] = at
    const items: Item[] = [
      { kind: 'rect', className: 'lw-box', x, y: top, w: c.total, h: height, solid: true },
      ...drawHead(block, head, x, top, c.total),
    ]
    let rowY = top + head.height
    for (const plan of sections) {
      items.push(...drawSection(block, plan, c, idleSide, x, rowY, find))
      rowY += sectionHeight(plan)
    }
    return items
  }
  return { width: c.total, height, ports, draw }
}

function drawSection(
  block: StripBlock,
  plan: SectionPlan,
  c: StripColumns,
  idleSide: 'WEST' | 'EAST',
  x: number,
  top: number,
  find: FindElsewhere,
): Item[] {
  const { section } = plan
  const right = x + c.total
  const items: Item[] = [line('lw-rule', [x, top], [right, top])]
  if (plan.headHeight > 0) {
    const title = text(x + 7, top + 15, section.title ?? section.id, { bold: true })
    const after = x + 7 + textWidth(title.text, TEXT.label, 'bold') + 7
    const room = right - after - 5
    const subtitle = wrapText(section.subtitle ?? '', room, TEXT.small, 1)[0] ?? ''
    items.push(title, text(after, top + 14.6, subtitle, { size: 'small', full: section.subtitle ?? '' }))
    items.push(line('lw-rule', [x, top + plan.headHeight], [right, top + plan.headHeight]))
  }
  let y = top + plan.headHeight
  for (const [i, row] of plan.rows.entries()) {
    const side =
      row.west.length > 0 && row.east.length > 0
        ? 'BOTH'
        : row.west.length > 0
          ? 'WEST'
          : row.east.length > 0
            ? 'EAST'
            : idleSide
    if (i > 0) items.push(line('lw-thin', [x, y], [right, y]))
    items.push({
      kind: 'group',
      className: 'lw-pin',
      data: { block: block.id, pin: row.row.key, at: row.row.address },
      items: drawRow(row, side, c, x, y),
    })
    y += row.height
  }
  if (plan.foot.length > 0) items.push(line('lw-thin', [x, y], [right, y]))
  for (const [i, { text: words, jump }] of plan.foot.entries()) {
    const reference = jump ? `→ ${find(jump.sheet, block.id)}` : ''
    items.push(
      text(x + 6, y + 13 + i * SMALL_LINE, words + reference, { size: 'small', bold: jump !== undefined }),
    )
  }
  return items
}
