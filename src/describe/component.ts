import * as z from 'zod'
import { terminalsOf } from './component-terminals.ts'
import { endText, idText, partIdText, proseText } from './name-schema.ts'
import { ampsText, faradsText, lengthText, ohmsText, voltsText } from './quantity-schema.ts'

const common = {
  id: idText('Reference designation.', 'F1'),
  title: proseText('What it is, in plain words.', 120).optional(),
  zone: idText('Where it sits.', 'engine-bay').optional(),
  between: z.record(z.string(), endText('A pin of this equipment.', 'IN.1')).optional().meta({
    description:
      'Only inside equipment: which pin each terminal is joined to, such as { "in": "IN.1", "out": "F2.1" }.',
  }),
}

/** A part in the run of a conductor, or inside equipment. */
export const component = z
  .discriminatedUnion(
    'kind',
    [
      z.strictObject({
        kind: z.literal('fuse'),
        ...common,
        rating: ampsText('Rated current.', '20 A').optional(),
        part: partIdText('Fuse in the catalogue.', 'blade-20').optional(),
        resistance: ohmsText('Cold resistance of the fuse.', '4 mΩ').optional(),
        holder: ohmsText('Resistance of the holder.', '3 mΩ').optional(),
        holderAmps: ampsText('Rated current of the holder.', '30 A').optional(),
      }),
      z.strictObject({
        kind: z.literal('switch'),
        ...common,
        closed: z
          .array(z.string())
          .max(100)
          .optional()
          .meta({ description: 'Operating states in which it is closed; open when left out.' }),
        maxAmps: ampsText('Rated current.', '10 A').optional(),
        isolates: z
          .boolean()
          .optional()
          .meta({ description: 'An isolator: what it feeds has to be dead when it is open.' }),
        resistance: ohmsText('Contact resistance.', '5 mΩ').optional(),
      }),
      z.strictObject({
        kind: z.literal('relay'),
        ...common,
        coil: ohmsText('Coil resistance.', '80 Ω').optional(),
        coilVolts: voltsText('Nominal coil voltage.', '12 V').optional(),
        maxAmps: ampsText('Rated contact current.', '30 A').optional(),
        suppressed: z
          .enum(['none', 'diode', 'resistor', 'tvs'])
          .optional()
          .meta({ description: 'Suppressor built in. A diode has its cathode at 86.' }),
        changeover: z.boolean().optional().meta({ description: 'Has 87a.' }),
        pulled: z
          .array(z.string())
          .max(100)
          .optional()
          .meta({ description: 'Operating states in which it is pulled in.' }),
      }),
      z.strictObject({
        kind: z.literal('diode'),
        ...common,
        maxAmps: ampsText('Rated current.', '1 A').optional(),
        maxVolts: voltsText('Reverse voltage.', '200 V').optional(),
      }),
      z.strictObject({
        kind: z.literal('resistor'),
        ...common,
        ohms: ohmsText('Resistance.').optional(),
        terminates: z.boolean().optional().meta({ description: 'A line termination.' }),
      }),
      z.strictObject({
        kind: z.literal('capacitor'),
        ...common,
        farads: faradsText('Capacitance.').optional(),
      }),
      z.strictObject({
        kind: z.literal('coil'),
        ...common,
        ohms: ohmsText('Resistance.', '80 Ω').optional(),
        suppressed: z.enum(['none', 'diode', 'resistor', 'tvs']).optional(),
      }),
      z
        .strictObject({
          kind: z.literal('transformer'),
          ...common,
          ratio: z.number().positive().optional().meta({
            description: 'Volts across p1 and p2 for each volt across s1 and s2: 1 for a line isolator.',
          }),
        })
        .meta({ description: 'Isolates: no DC path from p to s.' }),
      z
        .strictObject({
          kind: z.literal('link'),
          ...common,
          resistance: ohmsText('Resistance.', '1 mΩ').optional(),
          length: lengthText('Length.').optional(),
          senses: z.enum(['battery']).optional().meta({ description: 'A battery sensor sits in this link.' }),
        })
        .meta({ description: 'A bond, strap, shunt or bar.' }),
    ],
    { error: () => `a component is one of: ${Object.keys(terminalsOf).join(', ')}` },
  )
  .meta({ id: 'Component' })

export type Component = z.output<typeof component>
export type ComponentInput = z.input<typeof component>
export type ComponentKind = Component['kind']
