import type { Harness } from '../describe/harness.ts'
import type { Half, Loom, LoomUse, Terminal } from '../resolve/loom.ts'
import { drawnConductors } from './loom-conductors.ts'
import { componentBlock, type FlagsAt, familyWords, idlePins, pinName } from './part-blocks.ts'
import type { Block, EndRef, Flag, SheetModel, StripRow, TitleBlock } from './sheet-model.ts'
import { unitBlocks } from './unit-blocks.ts'

export interface LoomSheetOptions {
  /** Printed in the title block, so that papers of different issues can be told apart. */
  readonly matchCode?: string
  /** Numbered marks by the address of what they belong to. */
  readonly flags?: ReadonlyMap<string, readonly Flag[]>
}

/** Said on every drawing beside the colour key. */
const NOTES = [
  'On each conductor: number, colour, mm² (≈ AWG) or AWG (mm²). The number stands again at each pin.',
  'Lengths are in the cut list. Not to scale.',
]

const flagFinder =
  (options: LoomSheetOptions): FlagsAt =>
  (address) => {
    const flags = options.flags?.get(address)
    return flags && flags.length > 0 ? { flags } : {}
  }

const joined = (...parts: readonly (string | undefined)[]) =>
  parts.filter((part) => part !== undefined && part !== '').join(' ')

/** The title block of a drawing of a harness or of the loom as a whole. */
export function titleOf(
  loom: Loom,
  source: Harness | Loom['source'],
  type: string,
  options: LoomSheetOptions,
): TitleBlock {
  const issue = 'state' in source ? source.state : undefined
  const revisions = 'revisions' in source ? source.revisions : undefined
  const fields = {
    owner: loom.settings.stated.shop,
    supplement: 'asset' in source ? source.asset : undefined,
    documentNo: source.document ?? source.id,
    revision: source.revision,
    date: source.date,
    status: issue,
    createdBy: source.drawnBy,
    approvedBy: source.checkedBy,
    matchCode: options.matchCode,
    revisions,
  }
  const stated = Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined))
  return { title: source.title, documentType: type, ...stated }
}

/** Pins of a half on which a conductor of these looms lands. */
function usedPins(loom: Loom, use: LoomUse): Map<Half, Set<string>> {
  const used = new Map<Half, Set<string>>()
  for (const conductor of loom.conductors) {
    if (conductor.loom !== use) continue
    for (const terminal of [conductor.from, conductor.to]) {
      if (!terminal?.half) continue
      const pins = used.get(terminal.half) ?? new Set<string>()
      used.set(terminal.half, pins.add(terminal.name))
    }
  }
  return used
}

function fitsWords(half: Half): string | undefined {
  const unit = half.mate?.unit
  if (half.mate && unit) return `fits ${half.mate.id} of ${unit.title}`
  return half.fits === undefined ? undefined : `fits ${half.fits}`
}

function rowsOf(half: Half, used: ReadonlySet<string>, flagsAt: FlagsAt): StripRow[] {
  return [...half.pins.values()]
    .filter((pin) => used.has(pin.name))
    .map((pin) => ({
      key: pin.name,
      address: pin.address,
      pin: pin.name,
      name: pinName(pin.does),
      ...flagsAt(pin.address),
    }))
}

/** A free half with the functions of what it fits, a lone ring on the chassis as the chassis symbol. */
function halfBlock(half: Half, used: ReadonlySet<string>, flagsAt: FlagsAt): Block {
  const title = joined(half.id, half.title)
  const subtitle = [familyWords(half), fitsWords(half)].filter((part) => part !== undefined).join('; ')
  const base = { id: half.address, title, subtitle, ...flagsAt(half.address) }
  if (half.pins.size === 1 && half.mate?.unit?.equipment.role === 'chassis')
    return { ...base, kind: 'stud', symbol: 'chassis' }
  const rows = rowsOf(half, used, flagsAt)
  return { ...base, kind: 'strip', sections: [{ id: half.id, rows, idle: idlePins(half, used) }] }
}

function spliceBlock(terminal: Terminal, flagsAt: FlagsAt): Block {
  return { kind: 'splice', id: terminal.address, title: terminal.name, ...flagsAt(terminal.address) }
}

/** Splices and components of some looms, each a block under its own address. */
function jointBlocks(loom: Loom, uses: readonly LoomUse[], flagsAt: FlagsAt): Block[] {
  const mine = (use: LoomUse | undefined) => use !== undefined && uses.includes(use)
  const ends = loom.conductors.filter((c) => mine(c.loom)).flatMap((c) => [c.from, c.to])
  const splices = new Set(ends.filter((t): t is Terminal => t?.on === 'splice'))
  return [
    ...loom.components.filter((component) => mine(component.loom)).map((c) => componentBlock(c, flagsAt)),
    ...[...splices].sort((a, b) => a.index - b.index).map((terminal) => spliceBlock(terminal, flagsAt)),
  ]
}

/** Where a terminal that is no connector pin is drawn. */
function ownPlace(terminal: Terminal): EndRef {
  if (terminal.component) return { block: terminal.component.address, pin: terminal.name }
  return { block: terminal.half?.address ?? terminal.address, pin: terminal.name }
}

/** The wiring drawing of one harness: its own connectors, each pin with the function of what it fits. */
export function harnessSheet(loom: Loom, use: LoomUse, options: LoomSheetOptions = {}): SheetModel {
  const flagsAt = flagFinder(options)
  const used = usedPins(loom, use)
  const own = loom.conductors.filter((conductor) => conductor.loom === use)
  const drawn = drawnConductors(loom, own, use.cables, ownPlace, flagsAt)
  return {
    titleBlock: titleOf(loom, use.harness, 'Wiring drawing', options),
    blocks: [
      ...use.halves.map((half) => halfBlock(half, used.get(half) ?? new Set(), flagsAt)),
      ...jointBlocks(loom, [use], flagsAt),
      ...drawn.missing,
    ],
    conductors: drawn.conductors,
    trunks: drawn.trunks,
    notes: [...NOTES, ...(use.harness.notes ?? [])],
  }
}

/** The wiring drawing of a whole installation: equipment as blocks, each connector one strip with what is mated to it. */
export function installationSheet(loom: Loom, options: LoomSheetOptions = {}): SheetModel {
  const flagsAt = flagFinder(options)
  const units = unitBlocks(loom, flagsAt)
  const placeOf = (terminal: Terminal) => units.placeOf(terminal) ?? ownPlace(terminal)
  const cables = loom.looms.flatMap((use) => use.cables)
  const drawn = drawnConductors(loom, loom.conductors, cables, placeOf, flagsAt)
  const idle = units.unconnected
  return {
    titleBlock: titleOf(loom, loom.source, 'Installation wiring drawing', options),
    blocks: [...units.blocks, ...jointBlocks(loom, loom.looms, flagsAt), ...drawn.missing],
    conductors: drawn.conductors,
    trunks: drawn.trunks,
    notes: [
      ...NOTES,
      ...(idle.length > 0 ? [`Not drawn because nothing is connected to it: ${idle.join(', ')}.`] : []),
    ],
  }
}

/** The wiring drawing of what was resolved: the installation, or the one harness. */
export function loomSheet(loom: Loom, options: LoomSheetOptions = {}): SheetModel {
  const [use] = loom.looms
  return loom.kind === 'harness' && use ? harnessSheet(loom, use, options) : installationSheet(loom, options)
}
