import { colourLabel, parseColour } from '../base/colour.ts'
import {
  formatAmpHours,
  formatAmps,
  formatArea,
  formatCelsius,
  formatDays,
  formatDbu,
  formatFarads,
  formatHertz,
  formatLength,
  formatNewtons,
  formatOhms,
  formatPercent,
  formatVolts,
  formatWatts,
  significant,
} from '../base/format-quantity.ts'
import { naturalOrder, sortNaturally } from '../base/natural-order.ts'
import { bothSizes } from '../base/wire-size.ts'
import type { ValueChange } from './changes.ts'

type Format = (value: number) => string

/** Quantities of the description by the field they stand in; the field decides the unit, as in the schema. */
const FORMATS: Readonly<Record<string, Format>> = {
  amps: formatAmps,
  maxAmps: formatAmps,
  rating: formatAmps,
  inrush: formatAmps,
  holderAmps: formatAmps,
  volts: formatVolts,
  maxVolts: formatVolts,
  coilVolts: formatVolts,
  limit: formatVolts,
  bias: formatVolts,
  saturation: formatVolts,
  rail: formatVolts,
  supply: formatVolts,
  continuous: formatVolts,
  brief: formatVolts,
  watts: formatWatts,
  ohms: formatOhms,
  resistance: formatOhms,
  holder: formatOhms,
  fuse: formatOhms,
  contact: formatOhms,
  coil: formatOhms,
  minLoad: formatOhms,
  pullOhms: formatOhms,
  terminates: formatOhms,
  capacity: formatAmpHours,
  length: formatLength,
  reach: formatLength,
  bend: formatLength,
  bore: formatLength,
  height: formatLength,
  travel: formatLength,
  supportEvery: formatLength,
  supports: formatLength,
  remake: formatLength,
  class: formatCelsius,
  fuseWithin: formatLength,
  dbu: formatDbu,
  farads: formatFarads,
  from: formatHertz,
  to: formatHertz,
  highest: formatHertz,
  ambient: formatCelsius,
  hottest: formatCelsius,
  conductorTemperature: formatCelsius,
  parked: formatDays,
  critical: formatPercent,
  other: formatPercent,
  area: formatArea,
  pull: formatNewtons,
}

/** Fields whose name is not the word people use. */
const WORDS: Readonly<Record<string, string>> = {
  ohms: 'resistance or impedance',
  amps: 'current',
  volts: 'voltage',
  watts: 'power',
  half: 'contacts (pins or sockets)',
  fits: 'what it fits',
  plugEmpty: 'closing of empty cavities',
  plugged: 'cavity plug',
  maxAmps: 'highest current',
  maxVolts: 'highest voltage',
  coilVolts: 'coil voltage',
  holderAmps: 'rating of the holder',
  minLoad: 'lowest load',
  lengthMm: 'length',
  stripMm: 'strip length in mm',
  bothEnds: 'reason for landing the shield at both ends',
  spareCores: 'treatment of spare cores',
  net: 'name of the net',
  bend: 'tightest bend',
  supportEvery: 'spacing of ties or clips',
  supports: 'longest stretch without a tie or clip',
  remake: 'wire used up when a contact is made off again',
  clamp: 'clamp at the cable entry',
  cover: 'cover against water',
  entry: 'side from which the loom comes',
  bore: 'largest bundle it takes',
  fuseWithin: 'distance allowed between source and fuse',
  fuseNegative: 'fuses in negative leads',
  fuseMargin: 'margin of wire over fuse',
  conductorTemperature: 'copper temperature',
  parked: 'time it must stand and still start',
  drawnBy: 'who drew it',
  checkedBy: 'who checked it',
  pulled: 'states in which it is pulled in',
  suppressed: 'suppression of the coil',
  of: 'type',
  does: 'function',
  layout: 'number of branches the loom is laid out in',
  bundled: 'conductors in the fullest bundle',
}

/** Fields that leave the metal as it is. */
const PAPER: ReadonlySet<string> = new Set(
  'note notes title document revision date drawnBy checkedBy state record view revisions procedures source asset shop units angle layout'.split(
    ' ',
  ),
)

/** Whether a field, or a path of fields, is about the thing itself and not about its papers. */
export const isPhysical = (field: string): boolean => !PAPER.has(field.split(' ')[0] ?? field)

/** Stands for an entry of a list that has no name: it is there or it is not. */
export const LISTED = 'listed'

type Leaf = string | number | boolean
type Plain = Readonly<Record<string, unknown>>

const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

function rangeText(value: Plain, format: Format): string | undefined {
  const { min, max } = value
  if (typeof min !== 'number' || typeof max !== 'number' || Object.keys(value).length !== 2) return undefined
  const [low, high] = [format(min), format(max)]
  return low === high ? low : `${low} to ${high}`
}

/** How a number of a field is written; its name may be anything a person typed. */
function formatOf(field: string): Format {
  const known = Object.hasOwn(FORMATS, field) ? FORMATS[field] : undefined
  return known ?? ((value) => significant(value, 6))
}

/** A single value as people write it: with its unit, or the word. */
function leafText(field: string, value: Leaf): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'string') {
    const colour = field === 'colour' ? parseColour(value) : undefined
    return colour?.ok ? colourLabel(value) : value
  }
  return formatOf(field)(value)
}

/** A wire size is an object in the data and one value to people. */
function sizeText(value: Plain): string | undefined {
  return typeof value.areaMm2 === 'number' && typeof value.label === 'string'
    ? bothSizes({
        areaMm2: value.areaMm2,
        label: value.label,
        ...(typeof value.awg === 'number' ? { awg: value.awg } : {}),
      })
    : undefined
}

function short(value: unknown, field: string): string {
  if (isPlain(value)) {
    return (
      sizeText(value) ??
      Object.entries(value)
        .filter(([, one]) => one !== undefined)
        .sort(([a], [b]) => naturalOrder(a, b))
        .map(([key, one]) => `${key} ${short(one, key)}`)
        .join(', ')
    )
  }
  if (Array.isArray(value))
    return sortNaturally(
      value.map((one) => short(one, field)),
      (one) => one,
    ).join(', ')
  return leafText(field, value as Leaf)
}

const isLeaf = (value: unknown): value is Leaf =>
  typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean'

/** Every value of a thing by its path, in words; the order of lists of plain values does not count. */
function flatten(value: unknown, path: readonly string[], field: string, into: Map<string, string>): void {
  if (value === undefined || value === null || (Array.isArray(value) && value.length === 0)) return
  const key = path.join(' ')
  if (isLeaf(value)) into.set(key, leafText(field, value))
  else if (Array.isArray(value)) {
    if (value.some(isPlain))
      for (const one of value) {
        const name = isPlain(one) && typeof one.id === 'string' ? one.id : short(one, field)
        if (isPlain(one) && typeof one.id === 'string')
          flatten({ ...one, id: undefined }, [...path, name], field, into)
        else into.set([...path, name].join(' '), LISTED)
      }
    else
      into.set(
        key,
        value
          .map((one) => short(one, field))
          .sort(naturalOrder)
          .join(field === 'notes' ? ' ' : ', '),
      )
  } else if (isPlain(value)) {
    const whole = sizeText(value) ?? rangeText(value, formatOf(field))
    if (whole !== undefined) into.set(key, whole)
    else
      for (const [name, one] of Object.entries(value)) {
        // Under a table such as amps by state, the unit is that of the table.
        const unitField = Object.hasOwn(FORMATS, name) || !Object.hasOwn(FORMATS, field) ? name : field
        flatten(one, [...path, name], unitField, into)
      }
  }
}

const wordsOf = (path: string): string =>
  path
    .split(' ')
    .map((part) => (Object.hasOwn(WORDS, part) ? WORDS[part] : part))
    .join(' ')

/** Values that differ between two things, in the order of their names. `skip` are fields told of elsewhere. */
export function valueChanges(before: object, after: object, skip: readonly string[] = []): ValueChange[] {
  const read = (thing: object) => {
    const values = new Map<string, string>()
    for (const [field, value] of Object.entries(thing))
      if (!skip.includes(field)) flatten(value, [field], field, values)
    return values
  }
  const old = read(before)
  const now = read(after)
  return [...new Set([...old.keys(), ...now.keys()])]
    .filter((path) => old.get(path) !== now.get(path))
    .map((path) => ({ field: path, words: wordsOf(path), before: old.get(path), after: now.get(path) }))
}

/** Whether two things say the same, whatever the order of their fields. */
export const sameValues = (before: object, after: object): boolean => valueChanges(before, after).length === 0
