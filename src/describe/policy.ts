import * as z from 'zod'
import { DECISIONS } from './decisions.ts'
import { labelStock } from './label-stock.ts'
import { colourText, idText, proseText, statedText } from './name-schema.ts'
import { celsiusText, daysText, lengthText, ohmsText, voltsText } from './quantity-schema.ts'

const percent = (d: string) =>
  z
    .string()
    .regex(/^\d+(\.\d+)? ?%$/, 'expected a percentage such as "3 %"')
    .transform((t) => Number.parseFloat(t) / 100)
    .meta({ description: d, examples: ['3 %'] })

/** What a shop has decided, each with a reason a reader can find. */
export const policy = z
  .strictObject({
    shop: proseText('Name of the shop.', 80).optional(),
    drop: z
      .strictObject({
        continuous: voltsText(
          'Most a supply may lose, feed and return together, for long.',
          '0.5 V',
        ).optional(),
        brief: voltsText('The same for minutes at most.', '1.0 V').optional(),
        critical: percent(
          'Most of the system voltage on a boat for electronics, lights and feeders.',
        ).optional(),
        other: percent('Most of the system voltage on a boat for the rest.').optional(),
      })
      .optional(),
    allowances: z
      .strictObject({
        contact: ohmsText('A mated power contact or a ring on its stud.', '2 mΩ').optional(),
        fuse: ohmsText('A fuse.', '4 mΩ').optional(),
        holder: ohmsText('A fuse holder.', '3 mΩ').optional(),
      })
      .optional()
      .meta({ description: 'Resistances assumed where no figure is given.' }),
    fuseWithin: lengthText('On a vehicle, how far from the source the fuse may sit.', '450 mm').optional(),
    fuseNegative: z.enum(['forbid', 'allow']).optional(),
    lateFuse: z.enum(['accept', 'warn']).optional().meta({
      description:
        'A short that opens its fuse late, at two to five times the rating, while the wire bears it until then; "accept" when left out.',
    }),
    ampacity: z.enum(['33-cfr-183', 'ac-43-13', 'iso-10133']).optional().meta({
      description:
        'Table of current ratings; they differ by two to three because of what they suppose about the bundle. "33-cfr-183" when left out.',
    }),
    batteryNegative: z.enum(['body-side', 'post']).optional().meta({
      description: 'Where returns go on a battery with a sensor on its post; "body-side" when left out.',
    }),
    starWashers: z.enum(['forbid', 'allow']).optional().meta({
      description: 'Toothed washers under ground rings; "forbid" when left out.',
    }),
    splices: z.enum(['crimp-only', 'solder-allowed']).optional().meta({
      description: 'How splices in vehicles and boats are made; "crimp-only" when left out.',
    }),
    partyLineCommon: z.enum(['shared', 'judged']).optional().meta({
      description:
        'Stations of a powered party line share screen and common with their supply by design: "shared", when left out, does not hold that against them.',
    }),
    canStub: z
      .strictObject({
        fast: lengthText('Longest stub of a CAN bus from 500 kbit/s on.', '0.3 m').optional(),
        slow: lengthText('Longest stub below that.', '1 m').optional(),
      })
      .optional(),
    reasons: z
      .partialRecord(z.enum(DECISIONS), statedText('Why the shop decided so.', 400))
      .optional()
      .meta({ description: 'Why the shop decided so, by the path of the setting, such as "drop.brief".' }),
    fuseMargin: z
      .number()
      .min(1)
      .max(2)
      .optional()
      .meta({ description: 'Wire ampacity over fuse rating; 1 when left out.' }),
    shields: z
      .enum(['one-end', 'both-ends'])
      .optional()
      .meta({ description: 'Where cable shields of audio and data land.' }),
    audio: z
      .strictObject({
        lineLossDb: z.number().positive().optional().meta({
          description: 'Most a loudspeaker line may lose in dB, as heard; 1 when left out.',
        }),
        damping: z.number().positive().optional().meta({
          description: 'Least damping factor at a loudspeaker; not judged when left out.',
        }),
      })
      .optional(),
    supports: lengthText('Longest stretch of loom without a tie or clip.', '250 mm').optional(),
    remake: lengthText('Wire used up when a contact is made off again.', '20 mm').optional(),
    colours: z
      .strictObject({
        plus: z.array(colourText('A colour for supply plus.')).min(1).max(12).optional(),
        minus: z.array(colourText('A colour for supply return.')).min(1).max(12).optional(),
      })
      .optional()
      .meta({ description: 'The colour code of the shop: which colours supply conductors have.' }),
    rf: z
      .strictObject({
        feederLossDb: z.number().positive().optional().meta({
          description:
            'Most an antenna feeder may lose in dB, joints counted; 3, half the power, when left out.',
        }),
        feederLengths: z
          .array(lengthText('A length to which feeders are cut.', '4.5 m'))
          .max(20)
          .optional()
          .meta({
            description:
              'Lengths to which the shop cuts feeders, so that readings of a fleet compare; any when left out.',
          }),
      })
      .optional(),
    parked: daysText('How long a vehicle must stand and still start.').optional(),
    conductorTemperature: celsiusText(
      'Copper temperature at which drops are worked out.',
      '20 °C',
    ).optional(),
    rules: z
      .record(z.string(), z.enum(['stop', 'warning', 'note', 'off']))
      .optional()
      .meta({ description: 'Severity of a rule in this shop.' }),
    waivers: z
      .array(
        z.strictObject({
          rule: idText('Rule waived.', 'fuse-near-source'),
          at: z
            .string()
            .min(1)
            .max(200)
            .meta({ description: 'Address of the thing, as the finding prints it.' }),
          reason: statedText('Why it is accepted.', 400),
          by: statedText('Who accepted it.', 60),
          date: z.iso.date({ error: () => 'expected a date as YYYY-MM-DD' }),
          facts: z.string().max(40).optional().meta({
            description: 'Match code of the facts when it was accepted; the waiver ends when they change.',
          }),
        }),
      )
      .max(1000)
      .optional(),
    site: z
      .string()
      .max(200, 'at most 200 characters')
      .regex(/^https?:\/\/[^\s"'<>?#]+$/, 'expected an address such as "https://wiring.example.org/wiki"')
      .optional()
      .meta({
        description: 'Address under which the wiki is published: QR codes open their page there.',
        examples: ['https://wiring.example.org/wiki'],
      }),
    labels: z
      .strictObject({
        wires: z
          .enum(['wrap', 'heat-shrink'])
          .optional()
          .meta({ description: 'What wires are marked with; "wrap" when left out.' }),
        longest: z.number().int().min(8).max(80).optional().meta({
          description: 'Most characters on one line of a label; 24 when left out.',
        }),
        stock: z
          .array(labelStock)
          .min(1)
          .max(8)
          .optional()
          .meta({ description: 'Label sheets in the shop; plain A4 and Letter to cut up when left out.' }),
      })
      .optional(),
    units: z
      .enum(['metric', 'both'])
      .optional()
      .meta({ description: 'Whether feet and inches are printed beside metres.' }),
  })
  .meta({ id: 'Policy' })

export type Policy = z.output<typeof policy>
export type PolicyInput = z.input<typeof policy>
