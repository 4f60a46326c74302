import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Procedure } from '../../src/describe/shop.ts'
import { readShop } from '../../src/read/read-shop.ts'
import { tinyShop } from '../cli/tiny-shop.ts'
import type { Chance } from './chance.ts'
import { damage, HOSTILE, type Json, mutate } from './mutate.ts'

/** What cases are made from: the tiny shop, and each job of the demo shop with the equipment and parts it needs. */
export interface Corpus {
  readonly documents: readonly Json[]
  readonly procedures: readonly Procedure[]
}

type Lists = Record<string, Json[] | undefined>

export async function readCorpus(folder: string): Promise<Corpus> {
  const source = await readShop('.', folder)
  const all = source.documents.map(({ data }) => data as Lists)
  const shared = (list: string): Json[] => all.flatMap((data) => data[list] ?? [])
  const jobs = all
    .filter((data) => data.installations && data.harnesses)
    .map((data): Json => {
      const mentioned = JSON.stringify([data.harnesses, data.installations])
      const used = (list: string): Json[] =>
        shared(list).filter((one) => mentioned.includes(`"${(one as { id: string }).id}`))
      return {
        loomwright: 1,
        parts: shared('parts'),
        equipment: used('equipment'),
        harnesses: data.harnesses ?? [],
        installations: data.installations ?? [],
      }
    })
  return {
    documents: [JSON.parse(JSON.stringify(tinyShop())) as Json, ...jobs],
    procedures: source.procedures,
  }
}

export interface Case {
  readonly text: string
  readonly procedures: readonly Procedure[]
  /** What it was made from, where the two are to be compared. */
  readonly before?: string
}

/** Small cases are made more often than large ones, so that many can be tried. */
function documentFor(corpus: Corpus, chance: Chance): Json {
  const [tiny] = corpus.documents
  return tiny !== undefined && chance.next() < 0.97 ? tiny : chance.of(corpus.documents)
}

function spoil(procedure: Procedure, chance: Chance): Procedure {
  return chance.next() < 0.5
    ? procedure
    : { ...procedure, text: damage(procedure.text, chance) + chance.of(HOSTILE) }
}

/** One case. `publish` makes those that get as far as pages. */
export function makeCase(corpus: Corpus, chance: Chance, publish: boolean): Case {
  const document = documentFor(corpus, chance)
  const mild = publish || chance.next() < 0.6
  const text = JSON.stringify(mutate(document, chance, mild))
  const raw = !publish && chance.next() < 0.12
  const procedures = chance.next() < 0.1 ? corpus.procedures.map((one) => spoil(one, chance)) : []
  const before = !publish && chance.next() < 0.25 ? { before: JSON.stringify(document) } : {}
  return { text: raw ? damage(text, chance) : text, procedures, ...before }
}

/** The demo shop's folder from the repository's top. */
export const demosIn = (top: string): string => {
  readFileSync(join(top, 'package.json'))
  return join(top, 'harnesses')
}
