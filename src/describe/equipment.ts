import * as z from 'zod'
import { component } from './component.ts'
import { pinFunction } from './function.ts'
import { LIMITS } from './limits.ts'
import { endText, idText, partIdText, proseText } from './name-schema.ts'
import { lengthText, ohmsText } from './quantity-schema.ts'

/** A connector as fitted to equipment: the fixed half. */
export const equipmentConnector = z
  .strictObject({
    id: idText('Reference designation of the fixed half.', 'J1'),
    title: proseText('What the connector is for.', 80).optional(),
    family: partIdText('Connector family.', 'dsub-25'),
    half: z
      .enum(['pin', 'socket'])
      .optional()
      .meta({ description: 'Which contacts this half has: pins (male) or sockets (female).' }),
    coding: proseText('Keying fitted here.', 20).optional(),
    view: z
      .enum(['mating', 'wire-entry'])
      .optional()
      .meta({ description: 'The side from which the source of this pinout shows the face.' }),
    record: z
      .enum(['measured', 'maker', 'copied', 'guessed'])
      .optional()
      .meta({ description: 'Where the pinout comes from. A check is only as good as this.' }),
    thread: proseText('Thread of its locking screws, such as "UNC 4-40" or "M3".', 20).optional(),
    cover: z.enum(['cap', 'boot', 'wrap']).optional().meta({
      description:
        'What keeps water out beside its own seal: a cap while it is not mated, a boot or a self-amalgamating wrap over the mated pair.',
    }),
    hotPlug: z.boolean().optional().meta({ description: 'Is joined or parted while live.' }),
    pins: z
      .record(z.string(), pinFunction)
      .refine(
        (pins) => Object.keys(pins).length <= LIMITS.pins,
        `a connector has at most ${LIMITS.pins} pins`,
      )
      .meta({ description: 'What each pin does, by its moulded name.', maxProperties: LIMITS.pins }),
    note: proseText('What else to know.', 400).optional(),
  })
  .meta({ id: 'EquipmentConnector' })

/** A unit that looms land on: transceiver, loudspeaker, battery, fuse block, chassis. One entry is a type; an installation uses it under names of its own. */
export const equipment = z
  .strictObject({
    id: idText('Name of the type.', 'mobile-40'),
    title: proseText('What it is.', 120),
    role: z
      .enum([
        'transceiver',
        'control',
        'speaker',
        'microphone',
        'headset',
        'battery',
        'distribution',
        'chassis',
        'load',
        'relay',
        'modem',
        'antenna',
        'intercom',
        'console',
        'instrument',
        'other',
      ])
      .optional(),
    connectors: z.array(equipmentConnector).min(1).max(200),
    inside: z
      .array(component)
      .max(400)
      .optional()
      .meta({ description: 'Fuses, switches, relays and links inside it, between its pins.' }),
    joins: z
      .array(
        z.strictObject({
          pins: z.array(endText('A pin of this equipment.', 'J2.7')).min(2).max(200),
          resistance: ohmsText('Resistance between them.', '1 mΩ').optional(),
          note: proseText('Why, or how it was measured.', 200).optional(),
        }),
      )
      .max(100)
      .optional()
      .meta({ description: 'Pins that are bonded inside.' }),
    isolates: z
      .array(
        z.strictObject({
          pins: z.array(endText('A pin.', 'J5.3')).min(1).max(200),
          by: proseText('What isolates them.', 80),
        }),
      )
      .max(50)
      .optional()
      .meta({ description: 'Pins that are isolated inside from everything else: transformer, optocoupler.' }),
    cautions: z
      .array(z.enum(['battery', 'airbag', 'high-voltage', 'rf', 'hearing', 'mains', 'fuel', 'heights']))
      .max(8)
      .optional()
      .meta({ description: 'Hazards this equipment brings to a job.' }),
    keepAway: lengthText(
      'Distance people keep from it while it transmits, from its maker’s exposure statement.',
      '0.9 m',
    ).optional(),
    note: proseText('What else to know.', 2000).optional(),
  })
  .meta({ id: 'Equipment' })

export type EquipmentConnector = z.output<typeof equipmentConnector>
export type EquipmentConnectorInput = z.input<typeof equipmentConnector>
export type Equipment = z.output<typeof equipment>
export type EquipmentInput = z.input<typeof equipment>
