import * as z from 'zod'
import { document } from './document.ts'
import { readings } from './readings.ts'

/**
 * The shape of a description as JSON Schema, draft 2020-12, for editors and other programs.
 * It is a little laxer than reading itself: whether a unit exists or a size is sold is told only by reading.
 */
export const jsonSchema = (): Record<string, unknown> => schemaOf(document)

/** The shape of a file of readings, for the same readers. Which limits there are is told by the commissioning record. */
export const readingsSchema = (): Record<string, unknown> => schemaOf(readings)

function schemaOf(shape: z.ZodType): Record<string, unknown> {
  return z.toJSONSchema(shape, {
    io: 'input',
    target: 'draft-2020-12',
    // The library drops examples of text that is turned into a number, as they would not fit the result.
    override: ({ zodSchema, jsonSchema: schema }) => {
      const { examples } = z.globalRegistry.get(zodSchema as unknown as z.ZodType) ?? {}
      if (Array.isArray(examples) && schema.type === 'string') schema.examples = examples as string[]
    },
  }) as Record<string, unknown>
}
