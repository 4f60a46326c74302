import { drawWiring } from '../draw/draw-wiring.ts'
import { drawFace, type FaceRequest } from '../draw/face.ts'
import { harnessSheet, installationSheet } from '../draw/loom-sheet.ts'
import type { Flag, SheetModel } from '../draw/sheet-model.ts'
import { drawingCss, drawingFontCss } from '../draw/svg-text.ts'
import type { Half } from '../resolve/loom.ts'
import { isPlugged } from '../sheets/fitting.ts'
import { type Landings, landingsAt, landingsOf } from '../sheets/landings.ts'
import { matchCodeOf } from '../sheets/match-code.ts'
import { halfName } from '../sheets/names.ts'
import { addressIn } from './address-in.ts'
import { harnessEntries } from './harness-entries.ts'
import { diagramPicture, formboardOverview } from './overview-pictures.ts'
import { ownPart } from './own-part.ts'
import type { FaceOf, Job, Pictures } from './site-input.ts'

/** Pictures of a site, with the style sheet they share. */
export interface DrawnSite {
  readonly pictures: Pictures
  /** To be published as `drawing.css` with the other assets. */
  readonly css: string
}

/** Draws everything a site shows: each harness and installation once, faces as they are asked for. */
export async function drawPictures(jobs: readonly Job[]): Promise<DrawnSite> {
  const harnesses = new Map<string, string[]>()
  const boards = new Map<string, string | undefined>()
  const diagrams = new Map<string, string | undefined>()
  for (const entry of harnessEntries(jobs)) {
    const { job, use } = entry
    const options = { matchCode: matchCodeOf(job.loom, use), flags: flagsOf(ownPart(entry)) }
    harnesses.set(entry.harness.id, await drawn(harnessSheet(job.loom, use, options)))
    boards.set(entry.harness.id, formboardOverview(job.loom, use, options))
  }
  const installations = new Map<string, string[]>()
  for (const job of jobs) {
    if (job.loom.kind !== 'installation') continue
    const options = { matchCode: matchCodeOf(job.loom), flags: flagsOf(job) }
    installations.set(job.loom.id, await drawn(installationSheet(job.loom, options)))
    diagrams.set(job.loom.id, await diagramPicture(job.loom, options))
  }
  const landings = new Map<Half, Landings>()
  for (const { loom } of jobs) {
    const all = landingsOf(loom)
    for (const half of loom.halves) landings.set(half, all)
  }
  return {
    pictures: {
      harness: (id) => harnesses.get(id) ?? [],
      installation: (id) => installations.get(id) ?? [],
      formboard: (id) => boards.get(id),
      diagram: (id) => diagrams.get(id),
      faces: (of) => facesPictures(of, landings),
    },
    css: `${drawingFontCss()}${drawingCss()}\n`,
  }
}

async function drawn(model: SheetModel): Promise<string[]> {
  const { sheets } = await drawWiring(model, { style: 'shared' })
  return sheets.map((sheet) => sheet.svg)
}

/** Marks on a drawing with the numbers that the findings have on the page beside it. */
function flagsOf({ loom, findings }: Job): ReadonlyMap<string, readonly Flag[]> {
  const flags = new Map<string, Flag[]>()
  findings.forEach((finding, index) => {
    const places = new Set([addressIn(loom, finding.subject), ...finding.marks])
    const flag: Flag = { number: index + 1, level: finding.level === 'stop' ? 'error' : finding.level }
    for (const place of places) flags.set(place, [...(flags.get(place) ?? []), flag])
  })
  return flags
}

/** One picture a side, so that a phone can stack what paper shows side by side. */
function facesPictures(of: FaceOf, landings: ReadonlyMap<Half, Landings>): string[] {
  const { family, gender, half, bare } = of
  const oneSided = family.pins.length === 1 || family.face?.outline.shape === 'jack'
  const views = oneSided ? (['both'] as const) : (['mating', 'wire-entry'] as const)
  const request: FaceRequest = {
    family,
    style: 'shared',
    ...(bare ? { bare } : {}),
    ...(gender ? { half: gender } : {}),
    ...(half?.side === 'harness' ? useOf(half, landings.get(half)) : {}),
  }
  return views.map((view) => drawFace({ ...request, view })).filter((svg) => svg !== '')
}

/** Which cavities of a half are wired and which are plugged. */
function useOf(half: Half, landings: Landings | undefined): Pick<FaceRequest, 'title' | 'used' | 'plugged'> {
  const pins = [...half.pins.values()]
  const wired = pins.filter((pin) => landings && landingsAt(landings, pin).length > 0)
  return {
    title: `${halfName(half)}${half.title ? ` ${half.title}` : ''}`,
    used: new Set(wired.map((pin) => pin.name)),
    plugged: new Set(pins.filter((pin) => isPlugged(half, pin.name)).map((pin) => pin.name)),
  }
}
