import type { Edit, Finding } from '../../base/finding.ts'
import type { Loom, Terminal } from '../../resolve/loom.ts'
import { contactsFor, inCavity, within } from './cavity.ts'
import { type Mend, pinInFact } from './mend.ts'

function edit(cavity: Terminal, key: 'seal' | 'contact', ids: readonly string[]): readonly Edit[] {
  const [id, second] = ids
  const { half } = cavity
  // Two that fit leave a choice.
  if (!half || id === undefined || second !== undefined) return []
  return [
    { what: `${key} ${id} in ${half.id}.${cavity.name}`, changes: [inCavity(half, cavity.name, key, id)] },
  ]
}

/** Seals of the family that take the diameter. */
function seals(finding: Finding, loom: Loom, cavity: Terminal): readonly string[] {
  const od = finding.facts.od?.value
  if (typeof od !== 'number') return []
  return (cavity.half?.family?.seals ?? []).filter((id) => within(od, loom.parts.seals.get(id)?.insulation))
}

function contacts(finding: Finding, loom: Loom, cavity: Terminal): readonly string[] {
  const { area, contact } = finding.facts
  const meant = typeof contact?.value === 'string' ? loom.parts.contacts.get(contact.value) : undefined
  return typeof area?.value === 'number' && meant ? contactsFor(loom, cavity, meant, area.value) : []
}

/** The one seal or contact of the connector's family that fits the wire in a cavity. */
export const partInCavity: Mend = {
  id: 'part-in-cavity',
  rules: ['seal-fits-wire', 'wire-fits-contact'],
  propose(finding, { loom }) {
    const cavity = pinInFact(finding, 'cavity', loom)
    if (!cavity) return []
    return finding.rule === 'seal-fits-wire'
      ? [edit(cavity, 'seal', seals(finding, loom, cavity))]
      : [edit(cavity, 'contact', contacts(finding, loom, cavity))]
  },
}
