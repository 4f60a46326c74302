import { SHAPE_VERSION } from '../describe/document.ts'
import { printJsonText } from '../report/json.ts'
import { CLEAN, type Runner } from './command.ts'
import { Misshapen } from './misshapen.ts'
import { describe } from './pipeline.ts'
import { trustOf } from './trust-of.ts'
import { writeResult } from './write-result.ts'

const LISTS = ['parts', 'equipment', 'harnesses', 'installations'] as const

/** All documents as one: lists joined in the order of reading, and the one policy. What was typed is kept to the letter. */
export function joinDocuments(documents: readonly { readonly data: unknown }[]): Record<string, unknown> {
  const joined: Record<string, unknown> = { loomwright: SHAPE_VERSION }
  for (const { data } of documents) {
    const document = data as Record<string, unknown>
    for (const list of LISTS) {
      const own = document[list]
      if (Array.isArray(own)) joined[list] = [...((joined[list] as unknown[] | undefined) ?? []), ...own]
    }
    if (document.policy !== undefined && joined.policy === undefined) joined.policy = document.policy
  }
  return joined
}

/** `export`: the shop as one JSON description. Refuses a description that does not have its shape: it would not read back. */
export const runExport: Runner = async (args, io) => {
  const described = await describe(args.positionals, io, trustOf(args))
  io.progress.done()
  if (described.misshapen.length > 0) throw new Misshapen(described.misshapen, described)
  const text = printJsonText(joinDocuments(described.source.documents))
  await writeResult(text, args.text('to'), io, described.source.watch)
  return CLEAN
}
