import * as z from 'zod'
import { colourText, idText, ipText, partIdText, proseText, sizeText } from './name-schema.ts'
import {
  ampsText,
  areaRange,
  celsiusText,
  lengthRange,
  lengthText,
  newtonsText,
  ohmsText,
  voltsText,
} from './quantity-schema.ts'

const source = proseText(
  'Where the figures were read: a standard with its clause, or a data sheet.',
  300,
).optional()

/** A mark on a face that fixes its orientation in the hand: a key, a latch, a notch, a tongue, a screw. */
const mark = z
  .strictObject({
    kind: z
      .enum(['key', 'latch', 'notch', 'screw', 'tongue', 'flat'])
      .meta({ description: 'What the mark is.' }),
    xMm: z.number(),
    yMm: z.number(),
    wMm: z.number().positive().optional(),
    hMm: z.number().positive().optional(),
    text: proseText('Word printed beside the mark.', 30).optional(),
  })
  .meta({
    id: 'FaceMark',
    description: 'Something seen on the face that tells how to hold it. Millimetres, x to the right, y up.',
  })

const outline = z
  .discriminatedUnion('shape', [
    z.strictObject({
      shape: z.literal('rect'),
      wMm: z.number().positive(),
      hMm: z.number().positive(),
      rMm: z.number().nonnegative().optional(),
    }),
    z.strictObject({ shape: z.literal('circle'), dMm: z.number().positive() }),
    z
      .strictObject({ shape: z.literal('d'), wMm: z.number().positive(), hMm: z.number().positive() })
      .meta({ description: 'D-shaped shell, wide side up on the mating face of the pin half.' }),
    z.strictObject({
      shape: z.literal('polygon'),
      points: z
        .array(z.tuple([z.number(), z.number()]))
        .min(3)
        .max(64),
    }),
    z
      .strictObject({
        shape: z.literal('jack'),
        dMm: z.number().positive(),
        lengthMm: z.number().positive(),
        rings: z.array(z.string()).min(1).max(6),
      })
      .meta({ description: 'Concentric plug drawn from the side: contacts from the tip back.' }),
  ])
  .meta({ id: 'FaceOutline' })

const face = z
  .strictObject({
    of: z.enum(['pin', 'socket']).meta({
      description:
        'Which half the geometry below shows, looking at its mating face. The other half is its mirror image.',
    }),
    outline,
    pins: z
      .record(
        z.string(),
        z.strictObject({ xMm: z.number(), yMm: z.number(), dMm: z.number().positive().optional() }),
      )
      .meta({
        description: 'Centre of each pin, looking at that mating face. Millimetres, x to the right, y up.',
      }),
    marks: z.array(mark).max(16).optional(),
  })
  .meta({ id: 'Face', description: 'The true geometry of the mating face.' })

/** A connector family: what both halves share. */
export const connectorFamily = z
  .strictObject({
    kind: z.literal('connector'),
    id: partIdText('Name of the family.', 'dsub-25'),
    title: proseText('Name as the trade says it.', 120),
    pins: z
      .array(z.string().min(1).max(16))
      .min(1)
      .max(200)
      .meta({ description: 'Pin names as moulded on the housing, in order.' }),
    style: z
      .enum([
        'housing',
        'circular',
        'dsub',
        'modular',
        'jack',
        'coax',
        'terminal',
        'stud',
        'ring',
        'tab',
        'wire-end',
      ])
      .meta({ description: 'How it is made; chooses the drawing and the papers it needs.' }),
    face: face.optional(),
    shell: z
      .boolean()
      .optional()
      .meta({ description: 'Has a conductive shell that mates; it is addressed as pin "shell".' }),
    coding: proseText('Keying that keeps like sizes apart, such as "A".', 20).optional(),
    matesWith: z
      .array(partIdText('A family', 'stud-m6'))
      .max(40)
      .optional()
      .meta({ description: 'Families it mates with; itself when left out.' }),
    genderless: z.boolean().optional().meta({
      description: 'Both halves are alike, or gender has no meaning (studs, rings, screw terminals).',
    }),
    manyWires: z
      .boolean()
      .optional()
      .meta({ description: 'A pin may take several conductors: stud, bar, screw terminal.' }),
    fullWays: z.boolean().optional().meta({ description: 'Can be mated turned or offset: nothing keys it.' }),
    contacts: z
      .array(partIdText('A contact', 'dsub-crimp-20'))
      .max(20)
      .optional()
      .meta({ description: 'Contacts that fit; the first is the usual one.' }),
    seals: z.array(partIdText('A wire seal', 'seal-1.7-2.4')).max(20).optional(),
    sealed: z
      .boolean()
      .optional()
      .meta({ description: 'Needs a seal on each wire and a plug in each empty cavity.' }),
    firstMate: z
      .array(z.string().min(1).max(16))
      .max(8)
      .optional()
      .meta({ description: 'Pins that make before the others and break after them; "shell" for the shell.' }),
    lock: z.enum(['none', 'latch', 'screw', 'bayonet', 'friction', 'thread']).optional(),
    amps: ampsText('Rated current of one contact.', '5 A').optional(),
    volts: voltsText('Rated voltage.', '60 V').optional(),
    contactResistance: ohmsText('Resistance of one mated contact.', '2 mΩ').optional(),
    ways: z
      .enum(['power', 'audio', 'data', 'rf', 'any'])
      .optional()
      .meta({ description: 'What the trade uses the family for; mixing worlds in one place is a finding.' }),
    studMm: z
      .number()
      .positive()
      .optional()
      .meta({ description: 'Stud thread or ring hole diameter in mm.' }),
    bore: lengthText('Largest bundle the backshell or gland takes.', '9 mm').optional(),
    clamp: z.boolean().optional().meta({
      description:
        'The free half brings its own cable clamp: chuck, gland, ferrule or pressure bar; false where it brings none.',
    }),
    shrouded: z.boolean().optional().meta({
      description: 'Pin contacts sit so deep in a shroud that nothing touches them by chance.',
    }),
    thread: proseText('Thread of its locking screws, such as "UNC 4-40" or "M3".', 20).optional(),
    ip: ipText('Protection of a mated pair.').optional(),
    ipOpen: ipText('Protection of a half that is not mated and not capped.').optional(),
    ohms: ohmsText('Characteristic impedance of a coaxial family.', '50 Ω').optional(),
    cable: lengthRange('Cable outside diameters a coaxial plug takes.', '4.8..5.1 mm').optional(),
    source,
  })
  .meta({ id: 'ConnectorFamily', description: 'A connector family with its pins, face and ratings.' })

export const contactPart = z
  .strictObject({
    kind: z.literal('contact'),
    id: partIdText('Name of the contact.', 'dsub-crimp-20'),
    title: proseText('What it is.', 120),
    half: z.enum(['pin', 'socket', 'any']).optional(),
    join: z
      .enum(['crimp', 'solder', 'screw', 'punch-down', 'pierce'])
      .meta({ description: 'How the conductor is joined to it.' }),
    area: areaRange('Conductor areas the wire barrel takes.'),
    insulation: lengthRange('Insulation diameters the insulation grip takes.', '0.8..1.8 mm').optional(),
    amps: ampsText('Rated current.', '5 A').optional(),
    stripMm: z.number().positive().max(60).optional().meta({ description: 'Strip length in mm.' }),
    tool: proseText('Crimp tool and die or locator position.', 160).optional(),
    plating: z.enum(['tin', 'gold', 'silver', 'nickel', 'bare']).optional(),
    wires: z
      .number()
      .int()
      .min(1)
      .max(8)
      .optional()
      .meta({ description: 'Conductors it may take; one when left out.' }),
    pull: newtonsText('Least pull-out force of a sample crimp.').optional(),
    source,
  })
  .meta({ id: 'ContactPart', description: 'A crimped, soldered or clamped terminal of one pin.' })

export const sealPart = z
  .strictObject({
    kind: z.literal('seal'),
    id: partIdText('Name of the seal or cavity plug.', 'seal-1.7-2.4'),
    title: proseText('What it is.', 120),
    insulation: lengthRange(
      'Insulation diameters it seals on; leave out for a cavity plug.',
      '1.7..2.4 mm',
    ).optional(),
    plug: z.boolean().optional().meta({ description: 'Closes an empty cavity.' }),
    colour: colourText('Colour of the seal.').optional(),
    source,
  })
  .meta({ id: 'SealPart', description: 'A wire seal or a cavity plug.' })

const conductorFigures = {
  strands: z
    .number()
    .int()
    .min(1)
    .max(4000)
    .optional()
    .meta({ description: 'Number of strands; 1 is solid.' }),
  tinned: z.boolean().optional(),
  resists: z
    .array(z.enum(['sun', 'oil', 'salt']))
    .max(3)
    .optional()
    .meta({ description: 'What its jacket or insulation is rated to stand for years.' }),
  ohmsPerKm: z.number().positive().optional().meta({
    description: 'Measured or guaranteed Ω/km at 20 °C; the table of IEC 60228 is used when left out.',
  }),
}

export const wirePart = z
  .strictObject({
    kind: z.literal('wire'),
    id: partIdText('Name of the wire.', 'thin-wall-1.5'),
    title: proseText('Construction, as ordered.', 120),
    size: sizeText('Conductor size.')
      .optional()
      .meta({ description: 'Conductor size; left out when one part covers a range of sizes.' }),
    od: lengthText('Diameter over insulation.', '2.4 mm').optional(),
    ods: z.record(z.string(), z.string()).optional().meta({
      description: 'Diameter over insulation by size, for a part that covers a range: {"1.5 mm²": "2.4 mm"}.',
    }),
    class: celsiusText('Highest conductor temperature the insulation is rated for.', '105 °C').optional(),
    use: z.enum(['vehicle', 'boat', 'appliance', 'audio', 'data']).optional(),
    ...conductorFigures,
    source,
  })
  .meta({ id: 'WirePart', description: 'A single insulated conductor.' })

export const cablePart = z
  .strictObject({
    kind: z.literal('cable'),
    id: partIdText('Name of the cable.', 'screened-2x2x0.22'),
    title: proseText('Construction, as ordered.', 160),
    cores: z
      .array(
        z.strictObject({
          name: idText('Core name as used in papers.', '1'),
          colour: colourText('Core colour.').optional(),
          size: sizeText('Core size.'),
          pair: idText('Twisted pair the core belongs to.', 'pair1').optional(),
        }),
      )
      .max(200),
    shields: z
      .array(
        z.strictObject({
          name: idText('Shield name.', 'screen'),
          covers: z
            .array(z.string())
            .max(200)
            .optional()
            .meta({ description: 'Pairs or cores under it; all when left out.' }),
          kind: z.enum(['braid', 'foil', 'spiral', 'foil-braid']).optional(),
          ohmsPerKm: z.number().positive().optional().meta({ description: 'Shield resistance in Ω/km.' }),
          drain: sizeText('Drain wire size.').optional(),
        }),
      )
      .max(40)
      .optional(),
    od: lengthText('Outside diameter.', '6.2 mm').optional(),
    coreOd: lengthText('Diameter over the insulation of one core.', '1.2 mm').optional(),
    class: celsiusText('Highest temperature it is rated for.', '70 °C').optional(),
    ohms: ohmsText('Characteristic impedance.', '110 Ω').optional(),
    bendOd: z
      .number()
      .positive()
      .optional()
      .meta({ description: 'Smallest inside bend radius as a multiple of the outside diameter.' }),
    lossDb100m: z
      .record(z.string(), z.number().positive())
      .optional()
      .meta({ description: 'Attenuation in dB per 100 m by frequency in MHz, for a coaxial cable.' }),
    use: z.enum(['audio', 'speaker', 'data', 'control', 'power', 'coax', 'flat']).optional(),
    ...conductorFigures,
    source,
  })
  .meta({ id: 'CablePart', description: 'Several cores in one jacket, with pairs and shields.' })

export const fusePart = z
  .strictObject({
    kind: z.literal('fuse'),
    id: partIdText('Name of the fuse.', 'blade-20'),
    title: proseText('What it is.', 120),
    style: z.enum(['blade', 'mini', 'maxi', 'strip', 'glass', 'breaker']),
    rating: ampsText('Rated current.', '20 A'),
    volts: voltsText('Rated voltage.', '32 V').optional(),
    colour: proseText('Body colour in words.', 40).optional(),
    resistance: ohmsText('Cold resistance.', '4 mΩ').optional(),
    source,
  })
  .meta({ id: 'FusePart', description: 'A fuse or circuit breaker.' })

export const part = z
  .discriminatedUnion('kind', [connectorFamily, contactPart, sealPart, wirePart, cablePart, fusePart], {
    error: () => 'a part says what it is: kind "connector", "contact", "seal", "wire", "cable" or "fuse"',
  })
  .meta({ id: 'Part' })

export type ConnectorFamily = z.output<typeof connectorFamily>
export type ContactPart = z.output<typeof contactPart>
export type SealPart = z.output<typeof sealPart>
export type WirePart = z.output<typeof wirePart>
export type CablePart = z.output<typeof cablePart>
export type FusePart = z.output<typeof fusePart>
export type Part = z.output<typeof part>
export type PartInput = z.input<typeof part>
export type FaceGeometry = NonNullable<ConnectorFamily['face']>
