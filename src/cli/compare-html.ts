import { createHash } from 'node:crypto'
import type { Changes } from '../compare/changes.ts'
import { compareDrawings } from '../wiki/compare-drawings.ts'
import { comparePageHtml } from '../wiki/compare-page.ts'
import type { ReadSide } from './compare-sides.ts'
import type { Io } from './io.ts'
import { readSite } from './read-site.ts'

/** The review as one page that needs no other file. */
export async function comparePage(
  changes: Changes,
  before: ReadSide,
  after: ReadSide,
  io: Io,
): Promise<string> {
  const { templates, assets } = await readSite()
  const drawn = await compareDrawings(changes, before.revision, after.revision, (id) =>
    io.progress.say(`drawing ${id}`),
  )
  const script = templates.render('compare-script', {}).trim()
  return comparePageHtml({
    ...drawn,
    changes,
    before: before.name,
    after: after.name,
    places: { before: before.locate, after: after.locate },
    templates,
    css: `${assets['site.css'] ?? ''}\n${templates.render('compare-style', {})}`,
    script,
    scriptHash: `sha256-${createHash('sha256').update(script).digest('base64')}`,
  })
}
