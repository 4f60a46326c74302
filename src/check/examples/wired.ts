import type { DocumentInput } from '../../describe/document.ts'
import type { EquipmentInput } from '../../describe/equipment.ts'
import type { PinFunctionInput } from '../../describe/function.ts'
import type { CableInput, HarnessInput, WireInput } from '../../describe/harness.ts'
import type { InstallationInput } from '../../describe/installation.ts'
import type { PartInput } from '../../describe/part.ts'
import { rowHousing, socket, unitOf } from './parts.ts'

type Pins = Readonly<Record<string, PinFunctionInput>>

export interface WiredUnit extends Partial<Omit<EquipmentInput, 'id' | 'title' | 'connectors'>> {
  readonly pins: Pins
  readonly family?: string
  /** Zone of the unit, in an example with an installation. */
  readonly zone?: string
}

export interface WiredInput {
  readonly units: Readonly<Record<string, WiredUnit>>
  /** From, to, and what else is known of each wire; ends are written `unit.pin`. */
  readonly runs?: readonly (readonly [string, string, Partial<WireInput>?])[]
  readonly cables?: readonly CableInput[]
  readonly components?: HarnessInput['components']
  readonly splices?: readonly string[]
  readonly parts?: readonly PartInput[]
  readonly harness?: Partial<HarnessInput>
  /** Makes an installation of it. */
  readonly place?: Partial<InstallationInput>
}

/** A description of units with one connector J each and the lead between them, short enough to read on a rule's page. */
export function wired(input: WiredInput): DocumentInput {
  const names = Object.keys(input.units)
  const plugs = new Map(names.map((name, index) => [name, `P${index + 1}`]))
  const end = (text: string): string => {
    const [owner = '', ...pin] = text.split('.')
    const plug = plugs.get(owner)
    return plug ? [plug, ...pin].join('.') : text
  }
  const familyOf = (unit: WiredUnit): string => unit.family ?? `row-${rowsOf(unit)}`
  const rows = new Set(Object.values(input.units).flatMap((unit) => (unit.family ? [] : [rowsOf(unit)])))
  return {
    loomwright: 1,
    parts: [...[...rows].map((ways) => rowHousing(ways, { shell: true })), ...(input.parts ?? [])],
    equipment: Object.entries(input.units).map(([id, { pins, family, zone, ...rest }]) => ({
      ...unitOf(id, socket('J', familyOf({ pins, ...(family ? { family } : {}) }), pins)),
      ...rest,
    })),
    harnesses: [
      {
        id: 'lead',
        title: 'Example lead',
        connectors: Object.entries(input.units).map(([name, unit]) => ({
          id: plugs.get(name) ?? name,
          family: familyOf(unit),
          half: 'pin' as const,
          fits: `${name}.J`,
        })),
        splices: (input.splices ?? []).map((id) => ({ id })),
        components: input.components ?? [],
        wires: (input.runs ?? []).map(([from, to, more], index) => ({
          id: `A${String(index + 1).padStart(2, '0')}`,
          from: end(from),
          to: end(to),
          size: '0.5 mm²',
          length: '1 m',
          ...more,
        })),
        cables: (input.cables ?? []).map((cable) => ({
          ...cable,
          cores: cable.cores.map((core) => ({ ...core, from: end(core.from), to: end(core.to) })),
          ...(cable.shields
            ? {
                shields: cable.shields.map((shield) => ({
                  ...shield,
                  ...(shield.from === undefined ? {} : { from: end(shield.from) }),
                  ...(shield.to === undefined ? {} : { to: end(shield.to) }),
                })),
              }
            : {}),
        })),
        ...input.harness,
      },
    ],
    ...(input.place ? { installations: [placed(names, input)] } : {}),
  }
}

function placed(names: readonly string[], input: WiredInput): InstallationInput {
  return {
    id: 'job',
    title: 'Example job',
    units: names.map((id) => {
      const zone = input.units[id]?.zone
      return { id, of: id, ...(zone === undefined ? {} : { zone }) }
    }),
    looms: [{ id: 'lead', of: 'lead' }],
    ...input.place,
  }
}

/** Ways of the smallest housing that takes the pins. */
const rowsOf = ({ pins }: WiredUnit): number =>
  Math.max(2, ...Object.keys(pins).map((pin) => Number.parseInt(pin, 10) || 0))

/** A supply of 12 V or as given on pins 1 and 2. */
export const cell = (more: Readonly<Record<string, unknown>> = {}): WiredUnit => ({
  pins: {
    '1': { kind: 'supply-out', port: 'cell', volts: '12 V', ...more } as PinFunctionInput,
    '2': { kind: 'return', port: 'cell' },
  },
})

/** A load on pins 1 and 2. */
export const load = (amps: `${number} A`, more: Readonly<Record<string, unknown>> = {}): WiredUnit => ({
  pins: {
    '1': { kind: 'supply-in', port: 'dc', amps, ...more } as PinFunctionInput,
    '2': { kind: 'return', port: 'dc' },
  },
})
