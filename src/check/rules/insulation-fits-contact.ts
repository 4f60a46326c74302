import { formatLength, formatRange } from '../../base/format-quantity.ts'
import type { ContactPart } from '../../describe/part.ts'
import type { Conductor, Half, Loom, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { contactOf } from '../queries/contact-of.ts'
import { takesArea, takesInsulation } from '../queries/crimp-range.ts'
import { landings } from '../queries/landings.ts'
import { outsideMm } from '../queries/outside-mm.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (od: '2.4 mm' | '1.6 mm') =>
  exampleLead({
    parts: [
      rowHousing(2),
      {
        kind: 'contact',
        id: 'crimp-small',
        title: 'Small crimp contact',
        join: 'crimp',
        area: '0.2..0.5 mm²',
        insulation: '0.9..1.8 mm',
        tool: 'Open-barrel tool, small die',
      },
      { kind: 'wire', id: 'hook-up', title: 'Example wire', size: '0.5 mm²', od },
    ],
    equipment: [
      unitOf('box', socket('J1', 'row-2', { '1': { name: 'A' } })),
      unitOf('panel', socket('J2', 'row-2', { '1': { name: 'A' } })),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'box.J1', contact: 'crimp-small' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'panel.J2', contact: 'crimp-small' },
      ],
      wires: [{ id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.5 mm²', part: 'hook-up' }],
    },
  })

interface Grip {
  readonly contact: Terminal
  readonly half: Half
  readonly wire: Conductor
  /** Contacts that take the conductor and grip its insulation. */
  readonly options: readonly ContactPart[]
}

/** Single crimps whose contact grips the insulation and takes the conductor; a conductor that does not fit is told elsewhere. */
function* grips(loom: Loom): Iterable<Grip> {
  for (const [contact, landed] of landings(loom)) {
    const { half } = contact
    const wires = landed.filter((wire) => wire.kind !== 'shield')
    const [wire] = wires
    if (half?.side !== 'harness' || !wire || wires.length > 1 || contact.name === 'shell') continue
    const area = wire.size?.areaMm2
    const options = contactOf(loom.parts, contact).options.filter(
      (option) => option.join === 'crimp' && (area === undefined || takesArea(option, area)),
    )
    if (options.length > 0 && options.every(({ insulation }) => insulation !== undefined))
      yield { contact, half, wire, options }
  }
}

function misfit({ contact, wire, options }: Grip, odMm: number): Outcome {
  const ranges = options.flatMap(({ insulation }) => (insulation ? [insulation] : []))
  const [min, max] = [
    Math.min(...ranges.map((each) => each.min)),
    Math.max(...ranges.map((each) => each.max)),
  ]
  const thick = odMm > max
  return found({
    subject: contact.address,
    what: `${wire.id} is ${formatLength(odMm)} over its insulation and the grip of ${contact.address} takes ${formatRange({ min, max }, formatLength)}`,
    why: `${listOf(options.map(({ title }) => title))}: ${
      thick
        ? `${formatLength(odMm - max)} too thick, so the wings do not close, and the contact no longer enters its cavity.`
        : `${formatLength(min - odMm)} too thin, so the wings close on air and every shake bends the strands at the barrel.`
    }`,
    fix: `Use a contact whose insulation grip takes ${formatLength(odMm)}, or a wire with a ${thick ? 'thinner' : 'thicker'} wall.`,
    facts: {
      od: { value: odMm, unit: 'mm' },
      min: { value: min, unit: 'mm' },
      max: { value: max, unit: 'mm' },
      cavity: { value: contact.address },
    },
    at: wire.at,
    cause: `grip:${contact.half?.address}:${wire.cable?.address ?? wire.wirePart?.id ?? wire.address}`,
    marks: [contact.address, wire.address],
  })
}

export const insulationFitsContact: Rule = {
  id: 'insulation-fits-contact',
  title: 'Insulation suits the grip of its contact',
  family: 'crimping',
  level: 'warning',
  covers: ['C2'],
  reason:
    'The insulation grip takes the shaking, so that the wire barrel need not. Wings that do not close, or close on air, leave the strands to break one by one just behind the crimp.',
  remedy: 'Choose contact and wire by both ranges: copper and insulation.',
  needs: '"insulation" of the contact, and the diameter over insulation of each wire ("od", "ods", "coreOd")',
  sources: [
    'terminal makers’ crimp handbooks: the grip holds at least half of the insulation all round',
    'IEC 60352-2, from memory',
  ],
  examples: { trips: example('2.4 mm'), passes: example('1.6 mm') },
  *check({ loom }) {
    const missing = new Map<Half, Set<string>>()
    for (const grip of grips(loom)) {
      const odMm = outsideMm(grip.wire)
      if (odMm === undefined) {
        const names = missing.get(grip.half) ?? new Set<string>()
        missing.set(grip.half, names.add(grip.wire.cable?.id ?? grip.wire.id))
      } else if (!grip.options.some((option) => takesInsulation(option, odMm))) yield misfit(grip, odMm)
    }
    for (const [half, names] of missing)
      yield unknown(half.address, `needs the diameter over insulation of ${listOf([...names])}`, half.at)
  },
}
