import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { drawingCss, drawingFontCss } from '../draw/svg-text.ts'
import { makeTemplates, type OwnTemplate, type Templates } from '../sheets/templates.ts'
import { packageFile } from './package-file.ts'

async function readFolder(folder: string, ending: string): Promise<Record<string, string>> {
  const entries = await readdir(folder, { withFileTypes: true })
  const names = entries
    .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
    .map(({ name }) => name)
  const texts = await Promise.all(
    names.sort().map(async (name) => [name, await readFile(join(folder, name), 'utf8')] as const),
  )
  return Object.fromEntries(texts)
}

/** What every page is made with. */
export interface SiteLook {
  readonly templates: Templates
  /** Names of the package's own templates. */
  readonly ours: ReadonlySet<string>
  readonly assets: Readonly<Record<string, string>>
}

/**
 * The package's templates, style sheet and scripts, with the shop's own templates in the place of ours of the same name.
 * The style of drawings joins the style sheet, so that pages carry it once.
 */
export async function readSite(own: Readonly<Record<string, OwnTemplate>> = {}): Promise<SiteLook> {
  const sources = await readFolder(packageFile('templates'), '.hbs')
  const assets = await readFolder(packageFile('site'), '')
  const named = Object.entries(sources).map(([name, text]) => [name.slice(0, -'.hbs'.length), text])
  return {
    templates: makeTemplates(Object.fromEntries(named), own),
    ours: new Set(named.map(([name = '']) => name)),
    assets: { ...assets, 'site.css': `${assets['site.css'] ?? ''}\n${drawingFontCss()}${drawingCss()}` },
  }
}
