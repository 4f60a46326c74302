import * as z from 'zod'
import { endText, idText, ipText, proseText, statedText } from './name-schema.ts'
import { celsiusText, daysText, hertzText, lengthText, voltsText } from './quantity-schema.ts'

/** A place with its equipment and looms mated together: the unit in which drops, loops and drains are judged. */
export const installation = z
  .strictObject({
    id: idText('Name of the installation.', 'pickup-17'),
    title: proseText('What it is.', 120),
    document: proseText('Document number.', 32).optional(),
    revision: proseText('Revision letter or number.', 8).optional(),
    date: z.iso.date({ error: () => 'expected a date as YYYY-MM-DD' }).optional(),
    state: z.enum(['draft', 'issued', 'superseded']).optional(),
    match: z
      .string()
      .regex(/^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$/, 'expected a match code such as "7QK2-M9XD"')
      .optional()
      .meta({ description: 'Match code its papers were issued under; a change after that is a finding.' }),
    drawnBy: proseText('Who made it.', 60).optional(),
    checkedBy: proseText('Who checked it.', 60).optional(),
    asset: proseText('Plate, hull or rack number.', 60).optional(),
    setting: z
      .enum(['vehicle', 'boat', 'building', 'bench'])
      .optional()
      .meta({ description: 'Chooses the limits that apply.' }),
    structure: z
      .enum(['metal', 'non-conductive'])
      .optional()
      .meta({ description: 'Whether body or hull can be a return.' }),
    supply: voltsText('System voltage at which drops are judged.').optional(),
    ambient: celsiusText('Air temperature for the figures.', '20 °C').optional(),
    units: z
      .array(
        z.strictObject({
          id: idText('Name of this unit.', 'radio'),
          of: idText('Equipment type.', 'mobile-40'),
          zone: idText('Where it sits.', 'boot').optional(),
          title: proseText('What it is here.', 80).optional(),
          note: proseText('What else to know.', 300).optional(),
        }),
      )
      .min(1)
      .max(2000),
    looms: z
      .array(
        z.strictObject({ id: idText('Name of this loom.', 'main'), of: idText('Harness.', 'pickup-head') }),
      )
      .max(500)
      .optional(),
    mates: z
      .array(
        z.tuple([endText('A connector.', 'main.P1'), endText('The connector it mates with.', 'radio.J1')]),
      )
      .max(20_000)
      .optional()
      .meta({
        description:
          'Which halves are mated. A loom connector that fits the only free connector of its kind is mated without being listed.',
      }),
    zones: z
      .array(
        z.strictObject({
          id: idText('Name of the zone.', 'engine-bay'),
          hottest: celsiusText('Highest air temperature.', '105 °C').optional(),
          wet: z.boolean().optional(),
          salt: z.boolean().optional(),
          vibration: z.boolean().optional(),
          oil: z.boolean().optional().meta({ description: 'Oil or fuel gets there.' }),
          sun: z.boolean().optional().meta({ description: 'In the sun for years.' }),
          ip: ipText('Protection everything there has to have.').optional(),
          bodyReturn: z.boolean().optional().meta({
            description: 'False where the metal is no return: door, lid, trailer, plastic.',
          }),
          compass: z.boolean().optional().meta({ description: 'Within a metre of a compass.' }),
          near: z
            .array(z.enum(['fuel', 'exhaust', 'moving-parts', 'high-voltage', 'airbag']))
            .max(5)
            .optional()
            .meta({
              description:
                'What a loom has to keep clear of there; an empty list says that there is nothing of the kind.',
            }),
        }),
      )
      .max(100)
      .optional(),
    states: z
      .array(
        z.strictObject({
          id: idText('Name of the operating state.', 'transmit'),
          title: proseText('What it means.', 80).optional(),
          ignition: z
            .boolean()
            .optional()
            .meta({ description: 'Ignition and accessory feeds are live; true unless the state is "off".' }),
          load: proseText(
            'Name under which equipment states its currents; the name of this state when left out.',
            40,
          ).optional(),
          brief: z
            .boolean()
            .optional()
            .meta({ description: 'Lasts minutes at most: the intermittent drop limit applies.' }),
        }),
      )
      .max(20)
      .optional()
      .meta({ description: 'Operating states to solve; off, standby, receive and transmit when left out.' }),
    parked: daysText('How long it must stand and still start.').optional(),
    answers: z
      .array(
        z.strictObject({
          question: idText('The question, as the guide prints it.', 'clear-of-airbags'),
          at: z.string().min(1).max(130).optional().meta({
            description:
              'The thing or zone it is answered for, as the guide prints it; all of them when left out.',
          }),
          answer: z.enum(['yes', 'no', 'does-not-apply']).meta({
            description: 'Every question is put so that "yes" is as it should be.',
          }),
          by: statedText('Who looked.', 60),
          date: z.iso.date({ error: () => 'expected a date as YYYY-MM-DD' }),
          distance: lengthText(
            'What was measured, where the question asks for a distance.',
            '1.2 m',
          ).optional(),
          note: proseText('What was seen, or why it does not apply.', 400).optional(),
        }),
      )
      .max(2000)
      .optional()
      .meta({ description: 'Answers of a person to what only a look can tell.' }),
    highest: hertzText('Highest channel in use, for commissioning limits.', '174 MHz').optional(),
    procedures: z
      .array(z.string().max(200))
      .max(50)
      .optional()
      .meta({ description: 'Markdown files with install steps, relative to this file.' }),
    notes: z.array(proseText('A note printed on the papers.', 400)).max(50).optional(),
  })
  .meta({ id: 'Installation' })

export type Installation = z.output<typeof installation>
export type InstallationInput = z.input<typeof installation>
