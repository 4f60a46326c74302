import { formatArea, formatRange } from '../../base/format-quantity.ts'
import type { WireSize } from '../../base/wire-size.ts'
import { bothSizes } from '../../base/wire-size.ts'
import type { ContactPart } from '../../describe/part.ts'
import type { Conductor, Half, Loom, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { type ContactChoice, contactOf } from '../queries/contact-of.ts'
import { takesArea } from '../queries/crimp-range.ts'
import { landings } from '../queries/landings.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (size: WireSize) =>
  exampleLead({
    parts: [
      rowHousing(4),
      {
        kind: 'contact',
        id: 'crimp-small',
        title: 'Small crimp contact',
        join: 'crimp',
        area: '0.2..0.5 mm²',
        tool: 'Open-barrel tool, small die',
      },
    ],
    equipment: [
      unitOf('box', socket('J1', 'row-4', { '1': { kind: 'signal-return' } })),
      unitOf('panel', socket('J2', 'row-4', { '1': { kind: 'signal-return' } })),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'box.J1', contact: 'crimp-small' },
        { id: 'P2', family: 'row-4', half: 'pin', fits: 'panel.J2', contact: 'crimp-small' },
      ],
      wires: [{ id: 'A01', from: 'P1.1', to: 'P2.1', size }],
    },
  })

interface Crimp {
  readonly contact: Terminal
  readonly wires: readonly Conductor[]
  readonly choice: ContactChoice
}

/** `0.2 mm² to 0.5 mm²`; of several contacts each with its name. */
function rangesOf(options: readonly ContactPart[]): string {
  const range = (part: ContactPart) => formatRange(part.area, formatArea)
  const [only] = options
  if (only && options.length === 1) return range(only)
  return listOf(
    options.map((part) => `${range(part)} (${part.id})`),
    4,
  )
}

function misfit({ contact, wires, choice }: Crimp, areaMm2: number): Outcome {
  const { options } = choice
  const max = Math.max(...options.map((part) => part.area.max))
  const min = Math.min(...options.map((part) => part.area.min))
  const thick = areaMm2 > max
  const wire = wires[0]
  const names = listOf(wires.map((each) => each.id))
  const size = wires.length === 1 && wire?.size ? bothSizes(wire.size) : `${formatArea(areaMm2)} together`
  return found({
    subject: contact.address,
    what: `${names} (${size}) does not fit the contact of ${contact.address}, which takes ${rangesOf(options)}`,
    why: `${listOf(options.map((part) => part.title))}: ${
      thick
        ? 'a thicker wire does not enter the barrel, or loses strands to get in'
        : 'a thinner wire is not gripped and pulls out'
    }.`,
    fix: thick
      ? `Use a contact for ${formatArea(areaMm2)}, or bring a wire of at most ${formatArea(max)} to the plug.`
      : `Use a contact for ${formatArea(areaMm2)}, or a wire of at least ${formatArea(min)}.`,
    assumed: choice.named ? [] : ['one of the usual contacts of the family'],
    facts: {
      area: { value: areaMm2, unit: 'mm²' },
      min: { value: min, unit: 'mm²' },
      max: { value: max, unit: 'mm²' },
      contact: { value: options.map((part) => part.id).join(' ') },
      cavity: { value: contact.address },
    },
    at: wire?.at ?? contact.at,
    cause: `fit:${contact.half?.address}:${options[0]?.id}`,
    marks: [contact.address, ...wires.map((each) => each.address)],
  })
}

function* crimps(loom: Loom): Iterable<Crimp> {
  for (const [contact, landed] of landings(loom)) {
    if (contact.half?.side !== 'harness' || contact.name === 'shell') continue
    const wires = landed.filter((wire) => wire.kind !== 'shield')
    if (wires.length > 0) yield { contact, wires, choice: contactOf(loom.parts, contact) }
  }
}

/** Area in the barrel; undefined when a wire has no size. Several wires count together where the contact is rated for them. */
function areas({ wires, choice }: Crimp): readonly number[] | undefined {
  const each = wires.map((wire) => wire.size?.areaMm2)
  if (each.some((area) => area === undefined)) return undefined
  const known = each as number[]
  const together = wires.length > 1 && choice.options.some((option) => (option.wires ?? 1) > 1)
  return together ? [known.reduce((sum, area) => sum + area, 0)] : known
}

/** Missing facts of one half, told once: a list of a hundred cavities helps nobody. */
class Gaps {
  private readonly byHalf = new Map<Half, { contact: boolean; wires: Set<string> }>()

  note(crimp: Crimp, missing: 'contact' | 'size'): void {
    const half = crimp.contact.half
    if (!half) return
    const gap = this.byHalf.get(half) ?? { contact: false, wires: new Set<string>() }
    this.byHalf.set(half, gap)
    if (missing === 'contact') gap.contact = true
    else for (const wire of crimp.wires) if (!wire.size) gap.wires.add(wire.id)
  }

  *outcomes(): Iterable<Outcome> {
    for (const [half, { contact, wires }] of this.byHalf) {
      if (contact) yield unknown(half.address, `needs the contact used in ${half.address}`, half.at)
      if (wires.size > 0) yield unknown(half.address, `needs the size of ${listOf([...wires])}`, half.at)
    }
  }
}

export const wireFitsContact: Rule = {
  id: 'wire-fits-contact',
  title: 'A wire suits the contact it is crimped in',
  family: 'crimping',
  level: 'stop',
  covers: ['C1'],
  reason:
    'A barrel made for a thicker wire lets go under load; one made for a thinner wire cuts strands. Both pass a look and heat up in service.',
  remedy: 'Choose a contact for that wire, or splice to a wire the contact takes just before the plug.',
  needs: 'the contact of each half and the size of each wire',
  sources: ['FAA AC 43.13-1B ¶11-174a', 'common practice'],
  examples: { trips: example('0.75 mm²'), passes: example('0.5 mm²') },
  *check({ loom }) {
    const gaps = new Gaps()
    for (const crimp of crimps(loom)) {
      const { options } = crimp.choice
      if (options.length === 0) {
        gaps.note(crimp, 'contact')
        continue
      }
      const inside = areas(crimp)
      if (!inside) gaps.note(crimp, 'size')
      const wrong = inside?.find((area) => !options.some((option) => takesArea(option, area)))
      if (wrong !== undefined) yield misfit(crimp, wrong)
    }
    yield* gaps.outcomes()
  },
}
