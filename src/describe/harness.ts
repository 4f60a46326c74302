import * as z from 'zod'
import { component } from './component.ts'
import { colourText, endText, idText, partIdText, proseText, sizeText } from './name-schema.ts'
import { celsiusText, lengthText } from './quantity-schema.ts'

/** One connector of a loom: the free half, a ring, a tail end. */
export const harnessConnector = z
  .strictObject({
    id: idText('Reference designation of the free half.', 'P1'),
    title: proseText('What the connector is for.', 80).optional(),
    family: partIdText('Connector family.', 'dsub-25'),
    half: z
      .enum(['pin', 'socket'])
      .optional()
      .meta({ description: 'Which contacts this half has: pins (male) or sockets (female).' }),
    coding: proseText('Keying fitted here.', 20).optional(),
    fits: endText(
      'Equipment connector it is made to mate with: "equipment.connector".',
      'mobile-40.J1',
    ).optional(),
    contact: partIdText('Contact used in every cavity.', 'dsub-crimp-20').optional(),
    seal: partIdText('Wire seal used in every cavity.', 'seal-1.7-2.4').optional(),
    pins: z
      .record(
        z.string(),
        z.strictObject({
          contact: partIdText('Contact in this cavity.', 'dsub-crimp-20').optional(),
          seal: partIdText('Seal in this cavity.', 'seal-1.7-2.4').optional(),
          plugged: z.boolean().optional().meta({ description: 'An empty cavity closed with a plug.' }),
          note: proseText('What else to know.', 200).optional(),
        }),
      )
      .optional(),
    plugEmpty: z.boolean().optional().meta({ description: 'Every empty cavity gets a plug.' }),
    view: z
      .enum(['mating', 'wire-entry'])
      .optional()
      .meta({ description: 'The side from which the pin table of this half was taken.' }),
    zone: idText('Where it ends up.', 'dash').optional(),
    reach: lengthText(
      'How far its tail lets it wander from its place; used to tell which plugs can be swapped.',
      '0.3 m',
    ).optional(),
    bore: lengthText(
      'Largest bundle its backshell, hood or gland takes; that of the family when left out.',
      '9 mm',
    ).optional(),
    clamp: z
      .enum(['backshell', 'gland', 'clip', 'boot', 'moulded', 'none'])
      .optional()
      .meta({ description: 'What holds the cable at its entry, so that a pull never reaches the contacts.' }),
    thread: proseText('Thread of its locking screws, such as "UNC 4-40" or "M3".', 20).optional(),
    locked: proseText(
      'What holds it mated where its family has no lock: a clip, a locking housing.',
      60,
    ).optional(),
    cover: z.enum(['cap', 'boot', 'wrap']).optional().meta({
      description:
        'What keeps water out beside its own seal: a cap while it is not mated, a boot or a self-amalgamating wrap over the mated pair.',
    }),
    entry: z
      .enum(['above', 'side', 'below'])
      .optional()
      .meta({ description: 'From where the loom comes to it where it is fitted.' }),
    height: lengthText('How high it sits above any one datum of the installation.', '900 mm').optional(),
    label: proseText('Text of its label, in plain words.', 60).optional(),
    note: proseText('What else to know.', 400).optional(),
  })
  .meta({ id: 'HarnessConnector' })

export const wire = z
  .strictObject({
    id: idText('Wire number.', 'A02'),
    from: endText('Where it starts.'),
    to: endText('Where it ends.', 'F1.in'),
    size: sizeText('Conductor size.').optional(),
    colour: colourText('Insulation colour.').optional(),
    band: colourText('Colour of a band or sleeve at both ends, where wires of one colour meet.').optional(),
    length: lengthText('Finished length.').optional(),
    soldered: z.boolean().optional().meta({ description: 'Its ends are dipped in solder.' }),
    part: partIdText('Wire in the catalogue.', 'vehicle-thin-wall').optional(),
    pair: idText('Twisted with the other wire of the same pair name.', 'TP1').optional(),
    net: proseText('Name of the net, if it is to be checked.', 40).optional(),
    sheathed: z
      .boolean()
      .optional()
      .meta({ description: 'Contained in a sheath, conduit or enclosure over its whole length.' }),
    bundle: idText('Conductors that run together.', 'floor').optional(),
    zone: idText('Hottest zone it runs through.', 'engine-bay').optional(),
    label: proseText('Text of its label, in plain words.', 60).optional(),
    note: proseText('What else to know.', 300).optional(),
  })
  .meta({ id: 'Wire', title: 'Wire of a harness' })

export const cable = z
  .strictObject({
    id: idText('Cable number.', 'W1'),
    part: partIdText('Cable in the catalogue.', 'screened-2x2x0.22'),
    length: lengthText('Finished length.').optional(),
    cores: z
      .array(
        z.strictObject({
          core: idText('Core of the cable.', '1'),
          id: idText('Number of its own; cable number and core when left out.', 'A27').optional(),
          from: endText('Where it starts.'),
          to: endText('Where it ends.', 'P2.1'),
          label: proseText('Text of its label.', 60).optional(),
          note: proseText('What else to know.', 300).optional(),
        }),
      )
      .max(200),
    shields: z
      .array(
        z.strictObject({
          shield: idText('Shield of the cable.', 'screen'),
          id: idText('Number of its own.', 'A33').optional(),
          from: endText(
            'Where it lands at the near end; leave out where it is cut back.',
            'P2.shell',
          ).optional(),
          to: endText(
            'Where it lands at the far end; leave out where it is cut back.',
            'X1.shell',
          ).optional(),
          bothEnds: proseText('Why it is landed at both ends, when that is chosen.', 200).optional(),
          returns: z.boolean().optional().meta({ description: 'Carries a supply current on purpose.' }),
          note: proseText('What else to know.', 300).optional(),
        }),
      )
      .max(40)
      .optional(),
    spareCores: z
      .enum(['folded-back', 'cut-off', 'capped'])
      .optional()
      .meta({ description: 'What is done with cores that land nowhere.' }),
    bend: lengthText('Tightest bend radius on its route.', '50 mm').optional(),
    bundle: idText('Conductors that run together.', 'floor').optional(),
    zone: idText('Hottest zone it runs through.', 'engine-bay').optional(),
    label: proseText('Text of its label, in plain words.', 60).optional(),
    note: proseText('What else to know.', 300).optional(),
  })
  .meta({ id: 'CableRun', title: 'Cable of a harness' })

/** Something fitted along a branch: where a tie goes, where a sleeve begins and ends. */
const branchMark = z
  .strictObject({
    kind: z.enum(['tie', 'clip', 'grommet', 'gland', 'hole', 'tape', 'sleeve']).meta({
      description: 'What is fitted there; a hole is a panel crossed with nothing in the hole.',
    }),
    at: lengthText('Distance from the start of the branch.', '120 mm'),
    to: lengthText(
      'Where a sleeve or taping ends, from the start of the branch; its end when left out.',
      '300 mm',
    ).optional(),
    bore: lengthText('Clear diameter of a grommet, gland, hole or sleeve.', '16 mm').optional(),
    sealed: z
      .boolean()
      .optional()
      .meta({ description: 'What is left open of the hole round the loom is closed against water.' }),
    class: celsiusText('Highest temperature a tie, tape or sleeve is rated for.', '125 °C').optional(),
    height: lengthText('How high it lies above the datum of the installation.', '300 mm').optional(),
    note: proseText('Printed beside it.', 60).optional(),
  })
  .meta({ id: 'BranchMark' })

/**
 * One stretch of the loom between two places: connectors, splices, components or breakouts, which are names of their own.
 * All stretches together are a tree, as the loom lies on the board.
 */
export const branch = z
  .strictObject({
    from: idText('Where it starts: a connector, splice, component or breakout.', 'B1'),
    to: idText('Where it ends.', 'P1'),
    length: lengthText('Length along the loom.', '300 mm'),
    angle: z.number().min(-360).max(360).optional().meta({
      description: 'Direction on the board in degrees: 0 to the right, 90 up. Chosen for room when left out.',
    }),
    marks: z.array(branchMark).max(500).optional(),
    supportEvery: lengthText(
      'Spacing of ties or clips along it, with one at each breakout it ends at; those listed as marks come on top.',
      '250 mm',
    ).optional(),
    flex: z
      .strictObject({
        across: z.enum(['hinge', 'slide']).meta({ description: 'What moves it.' }),
        loop: z.enum(['twist', 'bend', 'none']).optional().meta({
          description: 'How the loom takes the movement: it twists, it bends, or it is stretched.',
        }),
        travel: lengthText('Length the movement asks for on top of the route.', '120 mm').optional(),
      })
      .optional()
      .meta({ description: 'It crosses a hinge or a slide: door, lid, seat, shock mount.' }),
    zone: idText('Zone it lies in.', 'dash').optional(),
    note: proseText('What else to know.', 200).optional(),
  })
  .meta({ id: 'Branch', title: 'Branch of a harness' })

/** A loom: what is cut, crimped and rung out as one piece. */
export const harness = z
  .strictObject({
    id: idText('Name of the harness.', 'pickup-head'),
    title: proseText('What it is.', 120),
    document: proseText('Document number.', 32).optional(),
    revision: proseText('Revision letter or number.', 8).optional(),
    date: z.iso
      .date({ error: () => 'expected a date as YYYY-MM-DD' })
      .optional()
      .meta({ description: 'Date of issue.' }),
    state: z.enum(['draft', 'issued', 'superseded']).optional(),
    match: z
      .string()
      .regex(/^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$/, 'expected a match code such as "7QK2-M9XD"')
      .optional()
      .meta({ description: 'Match code its papers were issued under; a change after that is a finding.' }),
    drawnBy: proseText('Who made it.', 60).optional(),
    checkedBy: proseText('Who checked it.', 60).optional(),
    revisions: z
      .array(
        z.strictObject({
          revision: proseText('Revision.', 8),
          date: z.iso.date(),
          by: proseText('Who.', 60),
          what: proseText('What changed and why.', 300),
        }),
      )
      .max(200)
      .optional(),
    connectors: z.array(harnessConnector).max(2000),
    splices: z
      .array(
        z.strictObject({
          id: idText('Splice number.', 'SP1'),
          kind: z
            .enum(['crimp', 'solder', 'weld', 'screw', 'pierce', 'cap'])
            .optional()
            .meta({ description: 'How it is made; a cap closes the end of a tail that goes nowhere.' }),
          makersLoom: z
            .boolean()
            .optional()
            .meta({ description: 'It joins a wire of the loom the vehicle came with.' }),
          zone: idText('Where it sits.', 'floor').optional(),
          note: proseText('What else to know.', 200).optional(),
        }),
      )
      .max(2000)
      .optional(),
    components: z
      .array(component)
      .max(2000)
      .optional()
      .meta({ description: 'Fuses, relays, diodes and other parts in the run.' }),
    wires: z.array(wire).max(50_000).optional(),
    cables: z.array(cable).max(5_000).optional(),
    branches: z.array(branch).max(5_000).optional().meta({
      description: 'How the loom lies: its stretches between breakouts, for the formboard.',
    }),
    bundled: z.number().int().min(1).max(500).optional().meta({
      description: 'Conductors that carry current side by side in the fullest bundle, for derating.',
    }),
    procedures: z
      .array(z.string().max(200))
      .max(50)
      .optional()
      .meta({ description: 'Markdown files with install steps, relative to this file.' }),
    notes: z.array(proseText('A note printed on the drawing.', 400)).max(50).optional(),
  })
  .meta({ id: 'Harness' })

export type HarnessConnector = z.output<typeof harnessConnector>
export type HarnessConnectorInput = z.input<typeof harnessConnector>
export type WireRun = z.output<typeof wire>
export type WireInput = z.input<typeof wire>
export type CableRun = z.output<typeof cable>
export type CableInput = z.input<typeof cable>
export type Branch = z.output<typeof branch>
export type BranchInput = z.input<typeof branch>
export type Harness = z.output<typeof harness>
export type HarnessInput = z.input<typeof harness>
