import type { PartInput } from '../describe/part.ts'
import { audioCables } from './cables/audio-cables.ts'
import { coaxCables } from './cables/coax-cables.ts'
import { dataCables } from './cables/data-cables.ts'
import { powerCables } from './cables/power-cables.ts'
import { standardFamilies } from './connectors/standard-families.ts'
import { standardContacts } from './contacts/standard-contacts.ts'
import { standardFuses } from './fuses.ts'
import type { CablePartInput } from './part-kinds.ts'
import { standardSeals } from './seals.ts'
import { standardWires } from './wires.ts'

/** Every standard cable. */
export const standardCables = (): CablePartInput[] => [
  ...audioCables(),
  ...dataCables(),
  ...powerCables(),
  ...coaxCables(),
]

/**
 * The parts that ship: connector families, contacts, seals, wires, cables and fuses, as they would be written in a
 * description. A shop's own part of the same id takes the place of one of these.
 */
export function standardParts(): readonly PartInput[] {
  return [
    ...standardFamilies(),
    ...standardContacts(),
    ...standardSeals(),
    ...standardWires(),
    ...standardCables(),
    ...standardFuses(),
  ]
}
