import { formatLength, formatRange } from '../../base/format-quantity.ts'
import type { SealPart } from '../../describe/part.ts'
import type { Conductor, Loom, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { landings } from '../queries/landings.ts'
import { outsideMm } from '../queries/outside-mm.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (od: '2.9 mm' | '2.1 mm') =>
  exampleLead({
    parts: [
      rowHousing(2, { sealed: true, seals: ['seal-small'] }),
      { kind: 'seal', id: 'seal-small', title: 'Wire seal 1.7 to 2.4 mm', insulation: '1.7..2.4 mm' },
      { kind: 'wire', id: 'pump-wire', title: 'Example wire', size: '1 mm²', od },
    ],
    equipment: [
      unitOf(
        'sensor',
        socket('J1', 'row-2', { '1': { kind: 'signal-return' }, '2': { kind: 'signal-return' } }),
      ),
      unitOf(
        'panel',
        socket('J2', 'row-2', { '1': { kind: 'signal-return' }, '2': { kind: 'signal-return' } }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'sensor.J1', seal: 'seal-small', plugEmpty: true },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'panel.J2', seal: 'seal-small', plugEmpty: true },
      ],
      wires: [{ id: 'A01', from: 'P1.1', to: 'P2.1', size: '1 mm²', part: 'pump-wire' }],
    },
  })

function sealOf(loom: Loom, contact: Terminal): SealPart | undefined {
  const source = contact.half?.source
  if (!source || !('seal' in source || 'fits' in source || 'pins' in source)) return undefined
  const own = 'seal' in source ? source.seal : undefined
  const pins = source.pins as Readonly<Record<string, { readonly seal?: string | undefined }>> | undefined
  const id = (pins && Object.hasOwn(pins, contact.name) ? pins[contact.name]?.seal : undefined) ?? own
  return id === undefined ? undefined : loom.parts.seals.get(id)
}

function misfit(contact: Terminal, wire: Conductor, seal: SealPart, odMm: number): Outcome {
  const range = seal.insulation ?? { min: 0, max: 0 }
  const thick = odMm > range.max
  return found({
    subject: contact.address,
    what: `${wire.id} is ${formatLength(odMm)} over its insulation and the seal of ${contact.address} takes ${formatRange(range, formatLength)}`,
    why: thick
      ? 'A wire too thick for its seal tears it or pushes it out of the cavity, and water follows the wire in.'
      : 'A seal too wide for its wire does not touch it all round, and water follows the wire in.',
    fix: `Use a seal for ${formatLength(odMm)}: choose it by the diameter of the insulation, not by the gauge.`,
    facts: {
      od: { value: odMm, unit: 'mm' },
      min: { value: range.min, unit: 'mm' },
      max: { value: range.max, unit: 'mm' },
      seal: { value: seal.id },
      cavity: { value: contact.address },
    },
    at: wire.at,
    marks: [contact.address, wire.address],
  })
}

export const sealFitsWire: Rule = {
  id: 'seal-fits-wire',
  title: 'A wire suits its seal',
  family: 'crimping',
  level: 'warning',
  covers: ['C3'],
  reason:
    'Seals work in a band of less than a millimetre. Two wires of one gauge and different insulation differ by more than that.',
  remedy: 'Measure the wire and take the seal for that diameter.',
  needs: 'the seal in each cavity of a sealed connector, and the outside diameter of each wire',
  sources: ['sealed-connector guides, as reported', 'common practice'],
  examples: { trips: example('2.9 mm'), passes: example('2.1 mm') },
  *check({ loom }) {
    const noDiameter = new Map<string, { wires: string[]; contact: Terminal }>()
    const noSeal = new Map<string, Terminal>()
    for (const [contact, wires] of landings(loom)) {
      const { half } = contact
      if (half?.side !== 'harness' || !half.family?.sealed || contact.name === 'shell') continue
      const seal = sealOf(loom, contact)
      if (!seal?.insulation) {
        noSeal.set(half.address, contact)
        continue
      }
      for (const wire of wires) {
        const odMm = outsideMm(wire)
        if (odMm !== undefined) {
          if (odMm < seal.insulation.min || odMm > seal.insulation.max)
            yield misfit(contact, wire, seal, odMm)
          continue
        }
        const gap = noDiameter.get(half.address) ?? { wires: [], contact }
        gap.wires.push(wire.id)
        noDiameter.set(half.address, gap)
      }
    }
    for (const [address, contact] of noSeal)
      yield unknown(address, `needs the wire seals used in ${address}`, contact.half?.at)
    for (const [address, { wires, contact }] of noDiameter)
      yield unknown(address, `needs the diameter over insulation of ${listOf(wires)}`, contact.half?.at)
  },
}
