import { escapeAttribute } from '../base/escape.ts'
import type { Changes, SubjectChange } from '../compare/changes.ts'
import { throughRenames } from '../compare/match-harness.ts'
import { type MatchedHarness, type MatchedJob, matchRevisions } from '../compare/match-revisions.ts'
import type { Revision } from '../compare/revision.ts'
import { drawWiring } from '../draw/draw-wiring.ts'
import { type DiagramModel, diagramModel } from '../draw/installation-diagram/diagram-model.ts'
import { drawDiagramModel } from '../draw/installation-diagram/draw-diagram.ts'
import { harnessSheet, titleOf } from '../draw/loom-sheet.ts'
import { pageSvg } from '../draw/scene-page.ts'
import type { SheetModel } from '../draw/sheet-model.ts'
import type { Loom } from '../resolve/loom.ts'
import { matchCodeOf } from '../sheets/match-code.ts'
import { overlayDiagram } from './compare-diagram.ts'
import { type Mark, overlaySheet } from './compare-overlay.ts'

/** Drawings of one changed harness or installation, each as one SVG a sheet. */
export interface DrawingOverlay {
  readonly id: string
  readonly title: string
  readonly old: readonly string[]
  readonly over: readonly string[]
  readonly new: readonly string[]
}

/** A review looks at a few drawings; more than this would make a page nobody opens. */
const MOST_DRAWINGS = 12
/** Above this a drawing takes long and shows little; the lists have it all. */
const MOST_CONDUCTORS = 250
const MOST_UNITS = 80

async function drawn(model: SheetModel, marks: ReadonlyMap<string, Mark> = new Map()): Promise<string[]> {
  const { sheets } = await drawWiring(model, { style: 'shared' })
  const byText = new Map([...marks].map(([id, mark]) => [escapeAttribute(id), mark]))
  return sheets.map(({ svg }) =>
    svg.replace(/<g class="lw-(cond|label)" data-id="([^"]*)"/g, (whole, kind: string, id: string) => {
      const mark = byText.get(id)
      return mark === undefined ? whole : `<g class="lw-${kind} lw-${mark}" data-id="${id}"`
    }),
  )
}

const isDrawn = ({ things }: SubjectChange): boolean =>
  things.some(({ physical, kind }) => physical && kind !== 'field')

async function overlayOf(
  subject: SubjectChange,
  { before, after, match }: MatchedHarness,
): Promise<DrawingOverlay> {
  const sheetOf = ({ loom, use }: MatchedHarness['before']) =>
    harnessSheet(loom, use, { matchCode: matchCodeOf(loom, use) })
  const [old, now] = [sheetOf(before), sheetOf(after)]
  const head = `${before.use.id}.`
  const addressNow = (address: string) =>
    address.startsWith(head)
      ? `${after.use.id}.${throughRenames(match.renamed, address.slice(head.length))}`
      : address
  const { model, marks } = overlaySheet(old, now, subject, addressNow)
  return {
    id: after.harness.id,
    title: after.harness.title,
    old: await drawn(old),
    over: await drawn(model, marks),
    new: await drawn(now),
  }
}

/** Diagrams of one changed installation, as overlays are. Undefined where they show the same. */
async function installationOverlay({
  before,
  after,
  match,
}: MatchedJob): Promise<DrawingOverlay | undefined> {
  const [old, now] = [diagramModel(before), diagramModel(after)]
  const over = overlayDiagram(old, now, match.address)
  if (!over) return undefined
  const draw = async (model: DiagramModel, loom: Loom, type: string): Promise<string[]> => {
    const page = await drawDiagramModel(
      model,
      titleOf(loom, loom.source, type, { matchCode: matchCodeOf(loom) }),
    )
    return page ? [pageSvg(page, 'shared')] : []
  }
  return {
    id: after.id,
    title: after.source.title,
    old: await draw(old, before, 'Installation diagram'),
    over: await draw(over, after, 'Comparison, old over new'),
    new: await draw(now, after, 'Installation diagram'),
  }
}

/** Old, new and both laid over each other, for each harness whose wiring changed and each installation that looks different. */
export async function compareDrawings(
  changes: Changes,
  before: Revision,
  after: Revision,
  onDraw: (id: string) => void = () => undefined,
): Promise<{ readonly overlays: readonly DrawingOverlay[]; readonly leftOut: readonly string[] }> {
  const { matched, jobs } = matchRevisions(before, after)
  const byName = new Map([...matched.values()].map((one) => [one.after.harness.id, one]))
  const overlays: DrawingOverlay[] = []
  const leftOut: string[] = []
  for (const subject of changes.subjects) {
    const pair = subject.of === 'harness' && subject.change === 'altered' ? byName.get(subject.id) : undefined
    if (!pair || !isDrawn(subject)) continue
    const count = pair.after.loom.conductors.filter(({ loom }) => loom === pair.after.use).length
    if (overlays.length >= MOST_DRAWINGS || count > MOST_CONDUCTORS) leftOut.push(subject.id)
    else {
      onDraw(subject.id)
      overlays.push(await overlayOf(subject, pair))
    }
  }
  for (const job of jobs.values()) {
    if (job.after.kind !== 'installation') continue
    if (overlays.length >= MOST_DRAWINGS || job.after.units.length > MOST_UNITS) continue
    onDraw(job.after.id)
    const overlay = await installationOverlay(job)
    if (overlay) overlays.push(overlay)
  }
  return { overlays, leftOut }
}
