import { jsonSchema } from '../describe/json-schema.ts'
import { CLEAN, type Runner } from './command.ts'
import { writeResult } from './write-result.ts'

/** `schema`: the JSON Schema of a description. */
export const runSchema: Runner = async (args, io) => {
  await writeResult(`${JSON.stringify(jsonSchema(), null, 2)}\n`, args.text('to'), io)
  return CLEAN
}
