import type { Loom } from '../resolve/loom.ts'

/** The address inside a loom that a finding's subject names: `pickup-17/main.A03` is `main.A03` there. */
export const addressIn = (loom: Loom, subject: string): string =>
  subject.startsWith(`${loom.id}/`) ? subject.slice(loom.id.length + 1) : subject
