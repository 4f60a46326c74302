import { diagramOf } from '../draw/installation-diagram/draw-diagram.ts'
import type { Picture } from '../draw/picture.ts'
import { matchCodeOf } from '../sheets/match-code.ts'
import { formboardOverview } from '../wiki/overview-pictures.ts'
import type { Pictures } from '../wiki/site-input.ts'
import type { SiteMap } from '../wiki/site-map.ts'
import { drawingFlags, wiringModel } from './draw-looms.ts'
import { drawingName, type KeptArrangements } from './kept-arrangements.ts'
import { type DeskCount, type DeskOptions, drawPictures } from './picture-desk.ts'

/** A picture with the page it is for. */
interface Order {
  readonly of: 'harness' | 'installation' | 'diagram'
  readonly id: string
  /** What a wiring drawing is called where its arrangement is kept. */
  readonly name?: string
  readonly picture: Picture
}

function ordersOf(map: SiteMap, arranged: KeptArrangements | undefined): Order[] {
  const orders: Order[] = []
  for (const { harness, job, use } of map.harnesses) {
    const { loom, findings } = job
    const model = wiringModel({ loom, use, findings, matchCode: matchCodeOf(loom, use) })
    const name = drawingName(loom, use)
    const keep = arranged?.before(name) ?? []
    orders.push({ of: 'harness', id: harness.id, name, picture: { kind: 'wiring', model, keep } })
  }
  for (const { loom, findings } of map.installations) {
    const matchCode = matchCodeOf(loom)
    const model = wiringModel({ loom, use: undefined, findings, matchCode })
    const name = drawingName(loom, undefined)
    const keep = arranged?.before(name) ?? []
    orders.push({ of: 'installation', id: loom.id, name, picture: { kind: 'wiring', model, keep } })
    const diagram = diagramOf(loom, { matchCode, flags: drawingFlags(loom, undefined, findings) })
    orders.push({ of: 'diagram', id: loom.id, picture: { kind: 'diagram', ...diagram } })
  }
  return orders
}

/** Drawings of every page that shows one, by its name. */
export interface SitePictures {
  readonly pictures: Omit<Pictures, 'faces'>
  readonly count: DeskCount
}

/** Draws everything that is laid out for the pages of a shop. */
export async function drawSite(
  map: SiteMap,
  options: DeskOptions,
  arranged?: KeptArrangements,
): Promise<SitePictures> {
  const orders = ordersOf(map, arranged)
  const { drawn: made, count } = await drawPictures(
    orders.map(({ picture }) => picture),
    options,
  )
  const drawn = { harness: new Map(), installation: new Map(), diagram: new Map() } as Readonly<
    Record<Order['of'], Map<string, readonly string[]>>
  >
  for (const [index, { of, id, name }] of orders.entries()) {
    const one = made[index]
    drawn[of].set(id, one?.sheets ?? [])
    if (name !== undefined && one?.arranged) arranged?.note(name, one.arranged)
  }
  const entries = new Map(map.harnesses.map((entry) => [entry.harness.id, entry]))
  const boards = new Map<string, string | undefined>()
  const boardOf = (id: string): string | undefined => {
    const entry = entries.get(id)
    if (!entry) return undefined
    const { job, use } = entry
    const flags = drawingFlags(job.loom, use, job.findings)
    return formboardOverview(job.loom, use, { matchCode: matchCodeOf(job.loom, use), flags })
  }
  return {
    count,
    pictures: {
      harness: (id) => drawn.harness.get(id) ?? [],
      installation: (id) => drawn.installation.get(id) ?? [],
      formboard: (id) => {
        if (!boards.has(id)) boards.set(id, boardOf(id))
        return boards.get(id)
      },
      diagram: (id) => drawn.diagram.get(id)?.[0],
    },
  }
}
