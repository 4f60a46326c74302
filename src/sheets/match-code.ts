import { matchCode } from '../base/hash.ts'
import type { Half, Loom, LoomUse } from '../resolve/loom.ts'

/** JSON with its keys in order, so that the order in which facts were typed does not change the code. */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`
  if (value === null || typeof value !== 'object') return JSON.stringify(value) ?? 'null'
  const entries = Object.entries(value).filter(([, item]) => item !== undefined)
  entries.sort(([a], [b]) => (a < b ? -1 : 1))
  return `{${entries.map(([key, item]) => `${JSON.stringify(key)}:${canonicalJson(item)}`).join(',')}}`
}

/** The code itself is no fact behind the papers. */
const withoutCode = <T extends { readonly match?: string | undefined }>(source: T): T => ({
  ...source,
  match: undefined,
})

/** Everything a loom's papers print: its description, what it lands on, and the parts it is made of. */
function factsOfUse(loom: Loom, use: LoomUse): unknown[] {
  const mated = use.halves.map((half) => [half.id, half.mate?.address, half.mate?.unit?.equipment])
  return [withoutCode(use.harness), mated, use.halves.map((half) => half.family), partsOf(loom, use)]
}

function partsOf(loom: Loom, use: LoomUse): unknown[] {
  const wires = loom.conductors.filter((conductor) => conductor.loom === use).map((c) => c.wirePart)
  const contacts = use.halves.flatMap(namedContacts).map((id) => loom.parts.contacts.get(id))
  const all = [...wires, ...use.cables.map((cable) => cable.part), ...contacts]
  return [...new Set(all)].filter((part) => part !== undefined)
}

function namedContacts(half: Half): string[] {
  if (half.side === 'equipment' || !('fits' in half.source || 'contact' in half.source)) return []
  const pins = Object.values(half.source.pins ?? {})
  return [half.source.contact, ...pins.map((pin) => ('contact' in pin ? pin.contact : undefined))].filter(
    (id): id is string => typeof id === 'string',
  )
}

/** The code printed on every paper of one issue. It changes when any fact behind the papers does, and not when a line moves. */
export function matchCodeOf(loom: Loom, use?: LoomUse): string {
  const looms = use ? [use] : loom.looms
  const facts = [
    use ? use.harness.id : withoutCode(loom.source),
    ...looms.map((one) => factsOfUse(loom, one)),
  ]
  return matchCode(canonicalJson(facts))
}
