import type { PartInput } from '../describe/part.ts'

export type ConnectorInput = Extract<PartInput, { kind: 'connector' }>
export type ContactInput = Extract<PartInput, { kind: 'contact' }>
export type SealInput = Extract<PartInput, { kind: 'seal' }>
export type WirePartInput = Extract<PartInput, { kind: 'wire' }>
export type CablePartInput = Extract<PartInput, { kind: 'cable' }>
export type FuseInput = Extract<PartInput, { kind: 'fuse' }>
export type FaceInput = NonNullable<ConnectorInput['face']>
export type FacePins = FaceInput['pins']
export type FaceMark = NonNullable<FaceInput['marks']>[number]
