import { jsonSchema, readingsSchema } from '../describe/json-schema.ts'
import { CLEAN, type Runner } from './command.ts'
import { writeResult } from './write-result.ts'

/** `schema`: the JSON Schema of a description, or of a file of readings. */
export const runSchema: Runner = async (args, io) => {
  await writeResult(
    `${JSON.stringify(args.flag('readings') ? readingsSchema() : jsonSchema(), null, 2)}\n`,
    args.text('to'),
    io,
  )
  return CLEAN
}
