import type { EditValue, ValueChange } from '../../base/finding.ts'
import { below } from '../../base/place.ts'
import type { ContactPart } from '../../describe/part.ts'
import type { Half, Loom, Terminal } from '../../resolve/loom.ts'

/**
 * Sets a field of one cavity, making the entry of the cavity and the list of cavities where they are missing. A connector of one
 * pin that states it for all its cavities keeps stating it so.
 */
export function inCavity(half: Half, pin: string, key: 'seal' | 'contact', value: string): ValueChange {
  const { source } = half
  const pins = source.pins as Readonly<Record<string, unknown>> | undefined
  const entry: EditValue = { [key]: value }
  const own = key in source
  if (own && half.family?.pins.length === 1 && !pins) return { at: below(half.at, key), value }
  if (!pins) return { at: below(half.at, 'pins'), value: { [pin]: entry } }
  if (!Object.hasOwn(pins, pin)) return { at: below(half.at, 'pins', pin), value: entry }
  return { at: below(half.at, 'pins', pin, key), value }
}

export const within = (value: number, range: { min: number; max: number } | undefined): boolean =>
  range !== undefined && value >= range.min && value <= range.max

/** Contacts of the family that take the copper and are joined as the one that was meant: another tool is another decision. */
export function contactsFor(
  loom: Loom,
  cavity: Terminal,
  meant: ContactPart,
  areaMm2: number,
): readonly string[] {
  return (cavity.half?.family?.contacts ?? []).filter((id) => {
    const part = loom.parts.contacts.get(id)
    return part?.join === meant.join && part.plating === meant.plating && within(areaMm2, part.area)
  })
}
