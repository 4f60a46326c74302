import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { joinDocuments } from '../../src/cli/export-command.ts'
import type { Shop } from '../../src/describe/shop.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { parseJson } from '../../src/read/parse-json.ts'
import { readShop } from '../../src/read/read-shop.ts'
import { printJsonText } from '../../src/report/json.ts'
import { root } from './built-cli.ts'

/** A shop without the places at which its things were written. */
function values({ parts, equipment, harnesses, installations, policy, procedures }: Shop) {
  const list = (sourced: readonly { readonly value: unknown }[]) => sourced.map(({ value }) => value)
  return {
    parts: list(parts),
    equipment: list(equipment),
    harnesses: list(harnesses),
    installations: list(installations),
    policy: policy?.value,
    procedures,
  }
}

describe('a shop in TypeScript, exported and read back as JSON, is the same shop', () => {
  const demos = join(root, 'harnesses')
  const jobs = readdirSync(demos, { withFileTypes: true }).filter((entry) => entry.isDirectory())
  const shops = [[root, 'templates/starter'], [root, 'harnesses'], ...jobs.map(({ name }) => [demos, name])]
  test.each(shops)('%s %s', async (from, name) => {
    const source = await readShop([join(from, name)], root)
    expect(source.troubles).toEqual([])
    const before = describeShop(source.documents, source.procedures)
    const text = printJsonText(joinDocuments(source.documents))
    const after = describeShop([{ name: 'shop.json', data: parseJson(text, 'shop.json') }], source.procedures)
    expect(before.findings).toEqual([])
    expect(after.findings).toEqual([])
    expect(values(after.shop)).toEqual(values(before.shop))
    expect(after.shop.harnesses.length).toBeGreaterThan(0)
  })
})
