import * as z from 'zod'
import { equipment } from './equipment.ts'
import { harness } from './harness.ts'
import { installation } from './installation.ts'
import { part } from './part.ts'
import { policy } from './policy.ts'

/** Version of the shape below. A newer tool reads older ones and says how to bring them forward. */
export const SHAPE_VERSION = 1

/** One description file. Every list is optional: a shop spreads its work over as many files as it likes. */
export const document = z
  .strictObject({
    $schema: z.string().optional(),
    loomwright: z
      .literal(SHAPE_VERSION, {
        error: () => `expected "loomwright": ${SHAPE_VERSION}, the version of the description`,
      })
      .meta({ description: 'Version of the description.' }),
    parts: z.array(part).max(5000).optional(),
    equipment: z.array(equipment).max(5000).optional(),
    harnesses: z.array(harness).max(5000).optional(),
    installations: z.array(installation).max(2000).optional(),
    policy: policy.optional(),
  })
  .meta({
    id: 'Document',
    title: 'Loomwright description',
    description: 'Parts, equipment, harnesses, installations and shop policy.',
  })

export type Document = z.output<typeof document>
export type DocumentInput = z.input<typeof document>
