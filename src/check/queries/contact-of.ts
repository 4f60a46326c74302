import type { ContactPart } from '../../describe/part.ts'
import type { PartIndex, Terminal } from '../../resolve/loom.ts'

/** The contact in a cavity of a loom's half, and whether the description names it. */
export interface ContactChoice {
  /** One contact that is named, or every contact of the family where none is. */
  readonly options: readonly ContactPart[]
  readonly named: boolean
  /** The contact as written, whether or not a part describes it. */
  readonly id?: string
}

export function contactOf(parts: PartIndex, terminal: Terminal): ContactChoice {
  const { half } = terminal
  const source = half?.source
  if (!half || !source || !('id' in source) || half.side !== 'harness') return { options: [], named: false }
  const own = 'contact' in source ? source.contact : undefined
  const pins = source.pins as Readonly<Record<string, { readonly contact?: string | undefined }>> | undefined
  const id = (pins && Object.hasOwn(pins, terminal.name) ? pins[terminal.name]?.contact : undefined) ?? own
  const ids = id === undefined ? (half.family?.contacts ?? []) : [id]
  const options = ids.flatMap((each) => parts.contacts.get(each) ?? [])
  return id === undefined ? { options, named: false } : { options, named: true, id }
}
