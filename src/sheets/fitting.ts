import type { HarnessConnector } from '../describe/harness.ts'
import type { ContactPart, SealPart } from '../describe/part.ts'
import type { Half, Loom, Terminal } from '../resolve/loom.ts'

/** What goes into one cavity of a harness half. */
export interface Fitting {
  readonly contactId?: string
  readonly contact?: ContactPart
  /** The description names no contact; this is the family's usual one that takes the wire. */
  readonly usual: boolean
  readonly sealId?: string
  readonly seal?: SealPart
}

const NONE: Fitting = { usual: false }

/** The description of a half that sits on a loom. */
export function harnessSource(half: Half): HarnessConnector | undefined {
  return half.side === 'harness' ? (half.source as HarnessConnector) : undefined
}

/** The contact and seal of a pin. `areaMm2` chooses among the family's contacts when the description names none. */
export function fittingAt(loom: Loom, terminal: Terminal, areaMm2: number | undefined): Fitting {
  const { half } = terminal
  const source = half && harnessSource(half)
  if (!half || !source || terminal.name === 'shell') return NONE
  const own = source.pins?.[terminal.name]
  const named = own?.contact ?? source.contact
  const contactId = named ?? usualContact(loom, half, areaMm2)
  const sealId = own?.seal ?? source.seal
  return {
    contactId,
    contact: contactId === undefined ? undefined : loom.parts.contacts.get(contactId),
    usual: named === undefined && contactId !== undefined,
    sealId,
    seal: sealId === undefined ? undefined : loom.parts.seals.get(sealId),
  }
}

function usualContact(loom: Loom, half: Half, areaMm2: number | undefined): string | undefined {
  const ids = half.family?.contacts ?? []
  const suits = (id: string) => {
    const part = loom.parts.contacts.get(id)
    if (!part || (part.half && part.half !== 'any' && half.gender && part.half !== half.gender)) return false
    return areaMm2 === undefined || (areaMm2 >= part.area.min * 0.98 && areaMm2 <= part.area.max * 1.02)
  }
  return ids.find(suits) ?? ids[0]
}

/** Whether an empty cavity of the half gets a plug. */
export function isPlugged(half: Half, pin: string): boolean {
  const source = harnessSource(half)
  if (!source || pin === 'shell') return false
  return source.pins?.[pin]?.plugged ?? source.plugEmpty ?? false
}

/** Strip length as printed; empty where the contact or its figure is not known. */
export const stripText = (fitting: Fitting): string =>
  fitting.contact?.stripMm === undefined ? '' : String(fitting.contact.stripMm)
