import type { DocumentInput } from '../../describe/document.ts'
import type { EquipmentConnectorInput, EquipmentInput } from '../../describe/equipment.ts'
import type { PinFunctionInput } from '../../describe/function.ts'
import type { HarnessInput } from '../../describe/harness.ts'
import type { PartInput } from '../../describe/part.ts'

type FamilyInput = Extract<PartInput, { kind: 'connector' }>

/** A row of pins on a plain latched housing, small enough to read on a rule's page. */
export function rowHousing(ways: number, more: Partial<FamilyInput> = {}): FamilyInput {
  return {
    kind: 'connector',
    id: `row-${ways}`,
    title: `${ways}-way housing in one row`,
    style: 'housing',
    lock: 'latch',
    pins: Array.from({ length: ways }, (_, index) => `${index + 1}`),
    ...more,
  }
}

/** A socket on equipment whose pinout states its view, as a tidy description would. */
export function socket(
  id: string,
  family: string,
  pins: Readonly<Record<string, PinFunctionInput>>,
): EquipmentConnectorInput {
  return { id, family, half: 'socket', view: 'mating', pins }
}

export const unitOf = (id: string, ...connectors: EquipmentConnectorInput[]): EquipmentInput => ({
  id,
  title: `Example ${id}`,
  connectors,
})

export interface ExampleInput {
  readonly parts: readonly PartInput[]
  readonly equipment: readonly EquipmentInput[]
  readonly harness: Omit<HarnessInput, 'id' | 'title'>
  readonly more?: Partial<DocumentInput>
}

/** One lead between the equipment it fits, as a whole description. */
export function exampleLead({ parts, equipment, harness, more }: ExampleInput): DocumentInput {
  return {
    loomwright: 1,
    parts: [...parts],
    equipment: [...equipment],
    harnesses: [{ id: 'lead', title: 'Example lead', ...harness }],
    ...more,
  }
}
