import type { ContactInput } from '../part-kinds.ts'
import { type FerruleId, ferrules } from './ferrules.ts'
import { PLUG_CONTACTS } from './plug-contacts.ts'
import { TERMINAL_CONTACTS } from './terminal-contacts.ts'

const NAMED = { ...PLUG_CONTACTS, ...TERMINAL_CONTACTS }

export type StandardContactId = keyof typeof NAMED | FerruleId

/** Every standard contact. Pull-out force depends on the wire crimped, so it is left to the table of UL 486A. */
export const standardContacts = (): ContactInput[] => [
  ...Object.entries(NAMED).map(([id, facts]): ContactInput => ({ kind: 'contact', id, ...facts })),
  ...ferrules(),
]
