import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { standardRules } from '../../src/check/standard-rules.ts'
import type { Procedure } from '../../src/describe/shop.ts'
import { catalogueCoverage } from '../../src/report/catalogue-coverage.ts'
import { changeSheet } from '../../src/sheets/change-sheet.ts'
import { makeTemplates } from '../../src/sheets/templates.ts'
import { drawPictures } from '../../src/wiki/draw-pictures.ts'
import { publishSite } from '../../src/wiki/publish-site.ts'
import type { SiteFile, SiteInput } from '../../src/wiki/site-input.ts'
import { sample, vanRadio } from '../sheets/sample-shop.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))

const readFolder = (folder: string, ending: RegExp): Record<string, string> =>
  Object.fromEntries(
    readdirSync(join(root, folder))
      .filter((name) => ending.test(name))
      .sort()
      .map((name) => [name, readFileSync(join(root, folder, name), 'utf8')]),
  )

export const templateSources = Object.fromEntries(
  Object.entries(readFolder('templates', /\.hbs$/)).map(([name, text]) => [name.replace(/\.hbs$/, ''), text]),
)

export const procedures: readonly Procedure[] = [
  {
    file: 'fit.md',
    text: '# Van\n\nJoin [](connector:P1), see [](figure:radio.J1.1/volts/transmit).\n\n## Route\n\nBehind the sill.',
  },
]

/** A whole site of a description, with its real pictures, templates and assets. */
export async function siteInput(data = vanRadio): Promise<SiteInput> {
  const { shop, jobs } = sample(data, procedures)
  const { pictures, css } = await drawPictures(jobs)
  return {
    shop,
    looms: jobs,
    rules: standardRules,
    coverage: catalogueCoverage(),
    pictures,
    templates: makeTemplates(templateSources),
    assets: { ...readFolder('site', /\.(css|js)$/), 'drawing.css': css },
    changeSheets: sheetsSince(jobs),
    showPlace: ({ doc, path }) => `${doc}:${path.join('.')}`,
  }
}

export const siteOf = async (data = vanRadio): Promise<SiteFile[]> => publishSite(await siteInput(data))

/** A change sheet for the sample's van, as if an earlier issue of it had been built. */
function sheetsSince(jobs: SiteInput['looms']): NonNullable<SiteInput['changeSheets']> {
  const before = { revision: 'A', match: 'AAAA-BBBB', date: '2025-11-30', source: 'tag v1' }
  const change = { before, steps: ['Move A3 from P2-2 to P2-1.'], changes: ['Conductor A3 moves.'] }
  const found = jobs.flatMap(({ loom }) =>
    loom.looms.filter(({ harness }) => harness.id === 'van').map((use) => ({ loom, use })),
  )
  return new Map(found.map(({ loom, use }) => ['van', changeSheet(loom, use, change)]))
}
