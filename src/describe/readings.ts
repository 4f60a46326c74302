import * as z from 'zod'
import { idText, proseText } from './name-schema.ts'

/** Version of the form below. */
export const READINGS_VERSION = 1

const day = z.iso.date({ error: () => 'expected a date as YYYY-MM-DD' })
const revision = proseText('Revision letter or number.', 8).optional()
const match = proseText('Match code of the papers it was made from.', 16).optional()

/** One reading of a meter, or "yes" and "no" where the paper asks to look. */
const value = z.strictObject({
  limit: z
    .string({ error: () => 'expected the name of a limit, such as "radio.J1.1/volts/transmit"' })
    .min(1)
    .max(240)
    .meta({ description: 'Name of the limit, as the commissioning record prints it.' }),
  reading: z
    .string({
      error: ({ input }) =>
        typeof input === 'number'
          ? `${Number.isFinite(input) ? input : 'a number beyond all bounds'} has no unit; write it as text with one, such as "13.1 V"`
          : 'expected what the meter showed as text with its unit, such as "13.1 V", or "yes" or "no"',
    })
    .max(64, 'at most 64 characters')
    .meta({ description: 'What the meter showed, with its unit; "yes" or "no" for what was looked at.' }),
  note: proseText('What else was seen.', 300).optional(),
})

/** What was fitted otherwise than drawn. */
const deviation = z.strictObject({
  at: z.string().max(200).optional().meta({ description: 'Address of the thing, such as "main.A02".' }),
  what: proseText('What is different.', 400),
  why: proseText('Why.', 400).optional(),
  by: proseText('Who accepted it.', 60).optional(),
})

/**
 * What was measured on one asset on one day, against the limits of an installation's commissioning record. A shop keeps one file
 * for each visit; the latest of an asset counts.
 */
export const readings = z
  .strictObject({
    $schema: z.string().optional(),
    readings: z
      .literal(READINGS_VERSION, {
        error: () => `expected "readings": ${READINGS_VERSION}, the version of the form`,
      })
      .meta({ description: 'Version of the form.' }),
    installation: idText('Installation that was fitted.', 'council-pickup'),
    asset: proseText('Plate, hull or rack number.', 60).min(1, 'an asset has a name'),
    date: day.meta({ description: 'Day of the readings.' }),
    by: proseText('Who measured.', 60).optional(),
    checkedBy: proseText('Who checked it.', 60).optional(),
    customer: proseText('Who took it over.', 60).optional(),
    odometer: proseText('Odometer or running hours.', 40).optional(),
    testSet: proseText('Meters and test set, with serial and calibration due.', 200).optional(),
    kept: proseText('Where the signed paper is kept.', 120).optional(),
    revision,
    match,
    looms: z
      .array(
        z.strictObject({
          loom: idText('Loom of the installation.', 'main'),
          revision,
          match,
          serial: proseText('Number of this one loom.', 60).optional(),
        }),
      )
      .max(500)
      .optional(),
    equipment: z
      .array(
        z.strictObject({
          unit: idText('Unit of the installation.', 'radio'),
          serial: proseText('Serial number.', 60).optional(),
          firmware: proseText('Firmware version.', 60).optional(),
          settings: proseText('Settings or channel file loaded.', 120).optional(),
        }),
      )
      .max(2000)
      .optional(),
    values: z.array(value).max(20_000).optional(),
    deviations: z.array(deviation).max(1000).optional(),
    open: z
      .array(proseText('An open question.', 400))
      .max(500)
      .optional()
      .meta({ description: 'What has still to be answered or done.' }),
  })
  .meta({ id: 'Readings' })

export type Readings = z.output<typeof readings>
export type ReadingsInput = z.input<typeof readings>
