import { colourLabel } from '../base/colour.ts'
import { formatNewtons } from '../base/format-quantity.ts'
import type { Conductor, Half, Loom, LoomUse } from '../resolve/loom.ts'
import type { BenchFact, StepDraft } from './bench-step.ts'
import { type Crimp, type CrimpGroup, crimpGroups, gripText, JOINED, samplePullN } from './crimp-sheet.ts'
import { cutList } from './cut-list.ts'
import { stripText } from './fitting.ts'
import { groupBy } from './group-by.ts'
import { cableText, pinName, sizeText } from './names.ts'
import { cellOf, type Row } from './sheet.ts'

/** Steps that make a loom: each piece cut, then each tool set-up with its sample and its contacts, then late insertions. */
export function makeSteps(loom: Loom, use: LoomUse): StepDraft[] {
  const groups = crimpGroups(loom, use)
  const mixed = mixedHalves(groups)
  return [
    ...cutSteps(loom, use),
    ...groups.flatMap((group) => [
      ...sampleSteps(group),
      ...group.crimps.map((crimp) => fitStep(crimp, mixed)),
    ]),
    ...insertSteps(groups, mixed),
  ]
}

/** Halves filled from more than one set-up: their contacts are made first and inserted afterwards, in the order of reach. */
function mixedHalves(groups: readonly CrimpGroup[]): ReadonlySet<Half> {
  const setUps = new Map<Half, Set<string>>()
  for (const { title, crimps } of groups)
    for (const { half } of crimps) setUps.set(half, (setUps.get(half) ?? new Set()).add(title))
  return new Set([...setUps].filter(([, titles]) => titles.size > 1).map(([half]) => half))
}

const said = (facts: readonly BenchFact[]): BenchFact[] => facts.filter(({ text }) => text !== '')

function cutSteps(loom: Loom, use: LoomUse): StepDraft[] {
  const { sections } = cutList(loom, use)
  return sections.flatMap(({ title, rows }) => rows.map((row) => cutStep(title ?? '', row)))
}

function cutStep(material: string, row: Row): StepDraft {
  const text = (key: string) => cellOf(row, { key, heading: key })
  const tolerance = text('tolerance')
  return {
    stage: 'make',
    section: 'Cut',
    what: `Cut ${text('wire')}`,
    facts: said([
      { name: 'Colour', text: text('colour'), big: true },
      {
        name: 'Cut length',
        text: tolerance ? `${text('length')} (${tolerance} mm)` : text('length'),
        big: true,
      },
      { name: 'Size', text: text('size') },
      { name: 'Material', text: material },
      { name: 'Slip on first', text: text('first') },
      { name: 'Twist with', text: text('pair') },
      { name: 'Screen and spare cores', text: text('screen') },
      { name: 'Label A', text: text('labelA') },
      { name: 'Label B', text: text('labelB') },
    ]),
    ask: 'done',
    a: [],
    b: [],
  }
}

/** One sample for each least force within a set-up. */
function sampleSteps({ title, crimps }: CrimpGroup): StepDraft[] {
  const known = crimps.flatMap((crimp) => {
    const newtons = samplePullN(crimp.fitting, crimp.wires[0])
    return newtons === undefined ? [] : [{ newtons, size: sizeText(crimp.wires[0]?.size) }]
  })
  return [...groupBy(known, ({ newtons }) => newtons)].map(([newtons, list]) => ({
    stage: 'make',
    section: title,
    what: 'Pull a sample',
    facts: said([
      { name: 'At least', text: formatNewtons(newtons), big: true },
      { name: 'Tool and contact', text: title },
      { name: 'Wire', text: [...new Set(list.map(({ size }) => size))].join(', ') },
    ]),
    ask: 'newtons',
    min: newtons,
    a: [],
    b: [],
  }))
}

function fitStep(crimp: Crimp, mixed: ReadonlySet<Half>): StepDraft {
  const { half, terminal, wires, fitting, insert } = crimp
  const { contact, contactId } = fitting
  const later = mixed.has(half)
  const strip = stripText(fitting)
  const single = half.pins.size === 1
  return {
    stage: 'make',
    section: crimp.setUp,
    what: `${wires.map((wire) => wire.id).join(' and ')} to ${pinName(terminal)}`,
    facts: said([
      { name: wires.length > 1 ? 'Wires together' : 'Wire', text: wires.map(wireText).join('; '), big: true },
      { name: 'Strip', text: strip ? `${strip} mm` : 'not stated', big: true },
      { name: 'Cavity', text: single ? '' : `${half.id} ${terminal.name}`, big: true },
      { name: 'Contact', text: contactId ? `${contactId}${fitting.usual ? ' (usual)' : ''}` : 'not stated' },
      {
        name: contact ? JOINED[contact.join] : 'Join',
        text: contact?.tool ?? (contactId ? 'tool not stated' : 'find the contact and its tool first'),
      },
      { name: 'Seal', text: fitting.sealId ?? '' },
      { name: 'Insulation', text: wires[0] ? gripText(fitting, wires[0]) : '' },
      {
        name: 'Insert',
        text: single ? '' : later ? 'later: this half takes more than one tool' : insertText(insert),
      },
    ]),
    ask: 'done',
    a: [{ half: half.id, pins: [terminal.name] }],
    b: [],
  }
}

const insertText = (insert: number) => `no. ${insert} in this half; push until it clicks, then tug`

function wireText(wire: Conductor): string {
  const colour = wire.colour
    ? colourLabel(wire.colour)
    : wire.kind === 'shield'
      ? 'screen'
      : 'colour not stated'
  return [`${wire.id} ${colour}`, sizeText(wire.size), cableText(wire)]
    .filter((text) => text !== '')
    .join(', ')
}

function insertSteps(groups: readonly CrimpGroup[], mixed: ReadonlySet<Half>): StepDraft[] {
  const crimps = groups.flatMap((group) => group.crimps)
  return [...mixed].flatMap((half) =>
    crimps
      .filter((crimp) => crimp.half === half)
      .sort((a, b) => a.insert - b.insert)
      .map(({ terminal, wires, insert }) => ({
        stage: 'make' as const,
        section: `Insert into ${half.id}`,
        what: `Insert ${wires.map((wire) => wire.id).join(' and ')} into ${pinName(terminal)}`,
        facts: said([
          { name: 'Wire', text: wires.map(wireText).join('; '), big: true },
          { name: 'Cavity', text: `${half.id} ${terminal.name}`, big: true },
          { name: 'Insert', text: insertText(insert) },
        ]),
        ask: 'done' as const,
        a: [{ half: half.id, pins: [terminal.name] }],
        b: [],
      })),
  )
}
