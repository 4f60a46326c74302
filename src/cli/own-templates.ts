import { readdirSync, statSync } from 'node:fs'
import { readdir, readFile, stat } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import type { Finding } from '../base/finding.ts'
import { quote } from '../base/quote.ts'
import { suggest } from '../base/suggest.ts'
import { displayPath } from '../read/find-files.ts'
import type { Trust } from '../read/trust.ts'
import type { OwnTemplate, Templates, TemplateTrouble } from '../sheets/templates.ts'

/** Where a shop keeps templates of its own, in the folder of its descriptions. */
const FOLDER = 'templates'
/** Ours have some kB; a file this large is something else. */
const MOST_BYTES = 256 * 1024

/** The shop's templates by name, and files that could not be taken. */
export interface OwnTemplates {
  readonly templates: Readonly<Record<string, OwnTemplate>>
  readonly troubles: readonly TemplateTrouble[]
}

/**
 * Reads the shop's own templates. A template writes HTML of its own, so those of a stranger are left out and told of.
 * Links are not followed, as nowhere else in a shop.
 */
export async function ownTemplates(
  inputs: readonly string[],
  cwd: string,
  trust: Trust,
): Promise<OwnTemplates> {
  const templates: Record<string, OwnTemplate> = {}
  const troubles: TemplateTrouble[] = []
  for (const input of inputs.length > 0 ? inputs : ['.']) {
    const folder = join(resolve(cwd, input), FOLDER)
    const entries = await readdir(folder, { withFileTypes: true }).catch(() => [])
    for (const entry of entries
      .filter(({ name }) => name.endsWith('.hbs'))
      .sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const path = join(folder, entry.name)
      const file = displayPath(path, cwd)
      const problem = await refusal(path, entry.isFile(), trust)
      if (problem !== undefined) troubles.push({ file, line: undefined, problem })
      else templates[entry.name.slice(0, -'.hbs'.length)] = { file, text: await readFile(path, 'utf8') }
    }
  }
  return { templates, troubles }
}

/** The folder of a shop's own templates, and the files that lie in it now. */
export function templateFiles(input: string): string[] {
  const folder = join(input, FOLDER)
  const names = statSync(folder, { throwIfNoEntry: false })?.isDirectory() ? readdirSync(folder) : []
  return [folder, ...names.filter((name) => name.endsWith('.hbs')).map((name) => join(folder, name))]
}

async function refusal(path: string, isFile: boolean, trust: Trust): Promise<string | undefined> {
  if (!isFile) return 'it is no file of its own, and links are not followed'
  if (trust !== 'own') return 'templates of a stranger are not used, since they could put anything on a page'
  return (await stat(path)).size > MOST_BYTES ? `it is larger than ${MOST_BYTES / 1024} kB` : undefined
}

/** Templates of the shop that take no place: none of ours has their name, and none of its own uses them. */
function unused(own: Readonly<Record<string, OwnTemplate>>, ours: ReadonlySet<string>): TemplateTrouble[] {
  const texts = Object.values(own).map(({ text }) => text)
  return Object.entries(own).flatMap(([name, { file }]) => {
    if (ours.has(name) || texts.some((text) => text.includes(`> ${name}`))) return []
    const near = suggest(name, [...ours]).map((one) => quote(`${one}.hbs`))
    const hint = near.length > 0 ? `; did you mean ${near.join(' or ')}?` : ''
    return [{ file, line: undefined, problem: `nothing is made with a template of this name${hint}` }]
  })
}

/** What went wrong with the shop's templates, as findings at their lines. */
export function templateFindings(own: OwnTemplates, made: Templates, ours: ReadonlySet<string>): Finding[] {
  const all = [...own.troubles, ...unused(own.templates, ours), ...made.troubles()]
  return all.map(({ file, line, problem }) => ({
    rule: 'template-broken',
    level: 'warning',
    subject: file,
    what: `the template ${quote(file)} was not used${line === undefined ? '' : ` (line ${line})`}: ${problem}`,
    why: 'The page shows what our template of that name shows, and not what the shop meant it to show.',
    fix: 'Mend the line it names, or delete the file to keep ours.',
    assumed: [],
    facts: {},
    at: { doc: file, path: ['line', String(line ?? 1), 'column', '1'] },
    notes: [],
    marks: [],
  }))
}
