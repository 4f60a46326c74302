/**
 * The public surface: what a harness description may import. A lead with two wires:
 *
 *     import { equipment, harness, jack, plug, wire } from 'loomwright'
 *
 *     const radio = equipment('mobile-40', {
 *       title: 'Mobile transceiver',
 *       connectors: [jack('J2', 'dsub-25', 'socket', { 1: { name: 'SPK+' }, 14: { name: 'SPK-' } })],
 *     })
 *     const speaker = equipment('speaker-4', {
 *       title: 'Loudspeaker',
 *       connectors: [jack('J1', 'rect-2', 'pin', { 1: { name: '+' }, 2: { name: '-' } })],
 *     })
 *     const P1 = plug('P1', radio.at('J2'))
 *     const P2 = plug('P2', speaker.at('J1'))
 *     const like = { size: '0.75 mm²', length: '3.0 m' } as const
 *     export const lead = harness('speaker-lead', {
 *       title: 'Speaker lead',
 *       wires: [
 *         wire('A20', P1.pin(1), P2.pin(1), { ...like, colour: 'WH' }),
 *         wire('A21', P1.pin(14), P2.pin(2), { ...like, colour: 'GY' }),
 *       ],
 *     })
 *
 * Whatever a file exports is used, and what it mentions comes along: exporting `lead` brings both units of equipment.
 */
export { asDocument } from './author/as-document.ts'
export { type BranchEnd, branch } from './author/branch.ts'
export { cable } from './author/cable.ts'
export {
  capacitor,
  coil,
  diode,
  fuse,
  link,
  relay,
  resistor,
  switchPart,
  transformer,
} from './author/component.ts'
export { connector, plug } from './author/connector.ts'
export type { End, Pin } from './author/end.ts'
export type { JackOn } from './author/equipment.ts'
export { equipment, jack } from './author/equipment.ts'
export { harness } from './author/harness.ts'
export { answer, installation, loom, mate, unit } from './author/installation.ts'
export { part } from './author/part.ts'
export { policy } from './author/policy.ts'
export { pair, splice, type Wire, type WireOptions, wire } from './author/wire.ts'
export type { Finding, NotChecked } from './base/finding.ts'
export { checkLoom, checkShop } from './check/check.ts'
export { bringsStop, broughtFindings, type Changes } from './compare/changes.ts'
export { compare } from './compare/compare.ts'
export type { Revision } from './compare/revision.ts'
export { headline, verdict } from './compare/sentences.ts'
export type { DocumentInput } from './describe/document.ts'
export { jsonSchema, readingsSchema } from './describe/json-schema.ts'
export { describeShop } from './describe/validate.ts'
export { resolveShop } from './resolve/resolve.ts'
export { solve } from './solve/solve.ts'
