import { formatAmps } from '../base/format-quantity.ts'
import type { Half, Loom, Terminal, Unit } from '../resolve/loom.ts'
import { type FlagsAt, familyWords, idlePins, pinName } from './part-blocks.ts'
import type { Block, EndRef, StripRow, StripSection, SymbolName } from './sheet-model.ts'

export interface UnitBlocks {
  readonly blocks: readonly Block[]
  /** Units with nothing connected, by name. */
  readonly unconnected: readonly string[]
  /** Undefined for a terminal that is no connector pin. */
  placeOf(terminal: Terminal): EndRef | undefined
}

/** Above this many rows a unit is drawn as one block for each connector. */
const ROWS_PER_UNIT = 26

/** Symbols of equipment by its role (IEC 60617). */
export const ROLE_SYMBOLS: Readonly<Partial<Record<NonNullable<Unit['equipment']['role']>, SymbolName>>> = {
  speaker: 'speaker',
  microphone: 'microphone',
  battery: 'battery',
  antenna: 'antenna',
}

/** The half that stands for a group of mated ones: the one on equipment, else the first. */
function hostOf(half: Half): Half {
  if (half.side === 'equipment') return half
  const { mate } = half
  if (!mate) return half
  if (mate.side === 'equipment') return mate
  return mate.index < half.index ? mate : half
}

interface Gathered {
  /** Pins with a conductor, by host and pin, each with the marks of every half it stands for. */
  readonly used: Map<Half, Map<string, Terminal[]>>
  readonly guests: Map<Half, Half[]>
  readonly pinOf: ReadonlyMap<Terminal, string>
  /** Fuses inside equipment, by the address of the pin they protect. */
  readonly fuses: ReadonlyMap<string, string>
}

/** Which pin of the host a mated pin touches; pins of the same name where nothing else is said. */
function matedPins(loom: Loom): Map<Terminal, string> {
  const pins = new Map<Terminal, string>()
  for (const { kind, a, b } of loom.links) {
    if (kind !== 'mate') continue
    if (a.half && b.half && hostOf(a.half) === b.half) pins.set(a, b.name)
    else if (a.half && b.half && hostOf(b.half) === a.half) pins.set(b, a.name)
  }
  return pins
}

/** What a fuse inside a unit is, at the pin it feeds: a fuse block is read by its ways. */
function insideFuses(loom: Loom): Map<string, string> {
  const fuses = new Map<string, string>()
  for (const { unit, source, id } of loom.components) {
    if (!unit || source.kind !== 'fuse') continue
    const out = source.between && Object.hasOwn(source.between, 'out') ? source.between.out : undefined
    const rating = source.rating === undefined ? '' : ` ${formatAmps(source.rating)}`
    if (out !== undefined) fuses.set(`${unit.id}.${out}`, `${id} fuse${rating}`)
  }
  return fuses
}

/** The function of a pin with the fuse it is fed through; a pin that is called like its fuse is not called twice. */
function rowName(does: Terminal['does'] | undefined, fuse: string | undefined): string {
  const name = does ? pinName(does) : ''
  if (fuse === undefined) return name
  return name === '' || fuse.startsWith(`${name} `) ? fuse : `${name}, ${fuse}`
}

function gather(loom: Loom): Gathered {
  const used = new Map<Half, Map<string, Terminal[]>>()
  const guests = new Map<Half, Half[]>()
  const pinOf = matedPins(loom)
  for (const half of loom.halves) {
    const host = hostOf(half)
    if (host !== half) guests.set(host, [...(guests.get(host) ?? []), half])
  }
  for (const terminal of loom.conductors.flatMap((c) => [c.from, c.to])) {
    if (!terminal?.half) continue
    const host = hostOf(terminal.half)
    const name = pinOf.get(terminal) ?? terminal.name
    const pins = used.get(host) ?? new Map<string, Terminal[]>()
    pins.set(name, [...new Set([...(pins.get(name) ?? []), terminal])])
    used.set(host, pins)
  }
  return { used, guests, pinOf, fuses: insideFuses(loom) }
}

const addressOf = (terminal: Terminal | undefined) => (terminal ? { address: terminal.address } : {})

function sectionOf(host: Half, gathered: Gathered, flagsAt: FlagsAt): StripSection {
  const pins = gathered.used.get(host) ?? new Map<string, Terminal[]>()
  const order = [...host.pins.keys(), ...[...pins.keys()].filter((pin) => !host.pins.has(pin))]
  const rows = order.flatMap((pin): StripRow[] => {
    const landed = pins.get(pin)
    if (!landed) return []
    const own = host.pins.get(pin)
    const does = own?.does ?? landed[0]?.does
    const flags = [...new Set([...(own ? [own] : []), ...landed])].flatMap(
      (t) => flagsAt(t.address).flags ?? [],
    )
    return [
      {
        key: `${host.id}.${pin}`,
        ...addressOf(own ?? landed[0]),
        pin,
        name: rowName(does, own && gathered.fuses.get(own.address)),
        ...(flags.length > 0 ? { flags } : {}),
      },
    ]
  })
  const guests = (gathered.guests.get(host) ?? []).map((half) => half.id)
  const title =
    guests.length > 3
      ? `${guests.slice(0, 3).join(', ')}, … / ${host.id}`
      : [guests.join(', '), host.id].filter((t) => t !== '').join(' / ')
  const idle = rows.length > 0 ? idlePins(host, new Set(pins.keys())) : []
  return { id: host.id, title, subtitle: familyWords(host), rows, idle }
}

/** Name and title; a title that begins with the name stands alone. */
function unitTitle({ id, title }: Unit): string {
  return title.toLowerCase().startsWith(id.toLowerCase()) ? title : `${id}: ${title}`
}

function unitBlock(unit: Unit, sections: readonly StripSection[], flagsAt: FlagsAt): Block[] {
  const zone = unit.zone === undefined ? '' : `, in ${unit.zone}`
  const same = unit.title === unit.equipment.title
  const subtitle = `${same ? '' : unit.equipment.title}${zone}`.replace(/^, /, '')
  const base = { id: unit.id, title: unitTitle(unit), subtitle, ...flagsAt(unit.id) }
  const [only] = sections
  if (unit.equipment.role === 'chassis' && sections.length === 1 && only?.rows.length === 1)
    return [{ ...base, kind: 'stud', symbol: 'chassis' }]
  const symbol = unit.equipment.role === undefined ? undefined : ROLE_SYMBOLS[unit.equipment.role]
  const withSymbol = symbol === undefined ? {} : { symbol }
  const rows = sections.reduce((sum, section) => sum + section.rows.length, 0)
  if (sections.length === 1 || rows <= ROWS_PER_UNIT)
    return [{ ...base, kind: 'strip', ...withSymbol, sections }]
  return sections.map((section) => ({
    ...base,
    kind: 'strip',
    ...withSymbol,
    id: `${unit.id}.${section.id}`,
    sections: [section],
  }))
}

/** Equipment with what is mated to it, and loom connectors that are mated to no equipment. */
export function unitBlocks(loom: Loom, flagsAt: FlagsAt): UnitBlocks {
  const gathered = gather(loom)
  const blocks: Block[] = []
  const unconnected: string[] = []
  const blockOf = new Map<Half, string>()
  for (const unit of loom.units) {
    const wired = unit.halves.filter((half) => gathered.used.has(half) || gathered.guests.has(half))
    if (wired.length === 0) {
      unconnected.push(unit.id)
      continue
    }
    const made = unitBlock(
      unit,
      wired.map((half) => sectionOf(half, gathered, flagsAt)),
      flagsAt,
    )
    blocks.push(...made)
    for (const half of wired) blockOf.set(half, made.length > 1 ? `${unit.id}.${half.id}` : unit.id)
  }
  for (const half of loom.halves) {
    if (hostOf(half) !== half || half.side === 'equipment') continue
    const section = sectionOf(half, gathered, flagsAt)
    if (section.rows.length === 0) continue
    const title = [section.title ?? half.id, half.title].filter((part) => part !== undefined).join(' ')
    const { title: _, ...rest } = section
    blocks.push({
      kind: 'strip',
      id: half.address,
      title,
      subtitle: familyWords(half),
      sections: [{ ...rest, subtitle: '' }],
      ...flagsAt(half.address),
    })
    blockOf.set(half, half.address)
  }
  return {
    blocks,
    unconnected,
    placeOf: (terminal) => {
      if (!terminal.half) return undefined
      const host = hostOf(terminal.half)
      const block = blockOf.get(host)
      if (block === undefined) return undefined
      return { block, pin: `${host.id}.${gathered.pinOf.get(terminal) ?? terminal.name}` }
    },
  }
}
