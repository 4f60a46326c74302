import type { Finding } from '../base/finding.ts'
import { uniqueSlugs } from '../base/slug.ts'
import type { ConnectorFamily } from '../describe/part.ts'
import { drawWiring } from '../draw/draw-wiring.ts'
import { drawFace, type FaceRequest, type FaceScene, faceScene } from '../draw/face.ts'
import { harnessSheet, loomSheet } from '../draw/loom-sheet.ts'
import type { Flag, SheetModel } from '../draw/sheet-model.ts'
import type { Half, Loom, LoomUse } from '../resolve/loom.ts'
import { drawingName, type KeptArrangements } from './kept-arrangements.ts'

/** A picture set apart from its pages carries its own font and style; on a page, the page's sheet has them. */
export type Style = 'embedded' | 'shared'

/** Addresses flagged for one finding; a mirrored connector would otherwise put the same number on all its pins. */
const MOST_FLAGS = 6
const FLAG_LEVEL = { stop: 'error', warning: 'warning', note: 'note' } as const

/** The address within a loom of what a finding is about; subjects begin with the name of their job. */
function addressIn(loom: Loom, subject: string): string {
  return subject.startsWith(`${loom.id}/`) ? subject.slice(loom.id.length + 1) : subject
}

/** Numbered flags by address. The numbers are those of the list of findings that is printed beside the drawing. */
function flagsFor(loom: Loom, findings: readonly Finding[]): Map<string, Flag[]> {
  const flags = new Map<string, Flag[]>()
  for (const [index, finding] of findings.entries()) {
    const places = new Set([addressIn(loom, finding.subject), ...finding.marks])
    const flag: Flag = { number: index + 1, level: FLAG_LEVEL[finding.level] }
    for (const place of [...places].slice(0, MOST_FLAGS))
      flags.set(place, [...(flags.get(place) ?? []), flag])
  }
  return flags
}

/** Findings about one harness of an installation: those whose subject or marks lie on it. */
function findingsOn(loom: Loom, use: LoomUse, findings: readonly Finding[]): readonly Finding[] {
  if (loom.kind === 'harness') return findings
  const mine = (subject: string): boolean => {
    const address = addressIn(loom, subject)
    return address === use.id || address.startsWith(`${use.id}.`)
  }
  return findings.filter((finding) => mine(finding.subject) || finding.marks.some(mine))
}

/** Flags of a drawing: those of the findings about the harness where one is drawn, else all. */
export function drawingFlags(
  loom: Loom,
  use: LoomUse | undefined,
  findings: readonly Finding[],
): ReadonlyMap<string, readonly Flag[]> {
  return flagsFor(loom, use ? findingsOn(loom, use, findings) : findings)
}

export interface DrawRequest {
  readonly loom: Loom
  /** Only this harness of it; all of it when undefined. */
  readonly use: LoomUse | undefined
  /** All findings of the loom; those about the harness are picked out. */
  readonly findings: readonly Finding[]
  readonly matchCode: string
  readonly style: Style
  /** Where how it was arranged is kept. */
  readonly kept?: KeptArrangements
}

/** The wiring drawing of a loom or of one harness in it, as one SVG a sheet. */
export async function drawLoom(request: DrawRequest): Promise<string[]> {
  const { loom, use, style, kept } = request
  const name = drawingName(loom, use)
  const drawing = await drawWiring(wiringModel(request), { style, keep: kept?.before(name) ?? [] })
  kept?.note(name, drawing.arranged)
  return drawing.sheets.map(({ svg }) => svg)
}

/** What a wiring drawing is drawn from. */
export function wiringModel({ loom, use, findings, matchCode }: Omit<DrawRequest, 'style'>): SheetModel {
  const options = { matchCode, flags: drawingFlags(loom, use, findings) }
  return use ? harnessSheet(loom, use, options) : loomSheet(loom, options)
}

/** Pins of a half that a conductor of the job lands on. */
function usedPins(loom: Loom, half: Half): Set<string> {
  const ends = loom.conductors.flatMap(({ from, to }) => [from, to])
  return new Set(ends.flatMap((end) => (end?.half === half ? [end.name] : [])))
}

function pluggedPins(half: Half): Set<string> {
  const { source } = half
  const all = 'plugEmpty' in source && source.plugEmpty === true
  const stated = (pin: string): boolean => {
    const cavity = source.pins && Object.hasOwn(source.pins, pin) ? source.pins[pin] : undefined
    return cavity !== undefined && 'plugged' in cavity && cavity.plugged === true
  }
  return new Set([...half.pins.keys()].filter((pin) => all || stated(pin)))
}

/** What a half's face pictures say of it: used, open and closed cavities, and its name. */
function halfRequest(loom: Loom, half: Half, family: ConnectorFamily): FaceRequest {
  const used = usedPins(loom, half)
  const plugged = new Set([...pluggedPins(half)].filter((pin) => !used.has(pin)))
  const title = [half.unit?.id, half.id, half.title].filter((word) => word !== undefined).join(' ')
  return { family, ...genderOf(half.gender), used, plugged, title }
}

const genderOf = (gender: 'pin' | 'socket' | undefined): Pick<FaceRequest, 'half'> =>
  gender ? { half: gender } : {}

/** One picture for each side, so that a narrow page can stack them; sides that look alike come once. */
function eachSide(request: FaceRequest): string[] {
  const sides = (['mating', 'wire-entry'] as const).map((view) => drawFace({ ...request, view }))
  return [...new Set(sides)].filter((svg) => svg !== '')
}

/** The faces of a half as a page shows them, `bare` without name and key; empty where its family has no geometry. */
export function facesOfHalf(loom: Loom, half: Half, style: Style, bare = false): string[] {
  return half.family ? eachSide({ ...halfRequest(loom, half, half.family), style, bare }) : []
}

/** The faces of a family as such; empty where it has no geometry. */
export function facesOfFamily(
  family: ConnectorFamily,
  gender: 'pin' | 'socket' | undefined,
  style: Style,
): string[] {
  return eachSide({ family, ...genderOf(gender), style })
}

/** The same as scenes for a page; with a single way there is no face to mistake. */
export function faceScenes(loom: Loom, use: LoomUse | undefined): FaceScene[] {
  return (use ?? loom).halves.flatMap((half) => {
    const scene = half.family && half.pins.size > 1 && faceScene(halfRequest(loom, half, half.family))
    return scene ? [scene] : []
  })
}

/** The faces of every connector of a loom, or of one harness in it, by their full names. */
export function drawHalves(
  name: string,
  loom: Loom,
  use: LoomUse | undefined,
  style: Style,
): Map<string, string> {
  return new Map(
    (use ?? loom).halves.flatMap((half) => {
      const svg = half.family ? drawFace({ ...halfRequest(loom, half, half.family), style }) : ''
      return svg ? [[`${name} ${use ? half.id : half.address}`, svg] as const] : []
    }),
  )
}

/** The sheets of a wiring drawing by name: the first carries that of the drawing alone. */
export async function drawSheets(name: string, request: DrawRequest): Promise<Map<string, string>> {
  const sheets = await drawLoom(request)
  return new Map(sheets.map((svg, i) => [i === 0 ? name : `${name} sheet ${i + 1}`, svg]))
}

/** Drawings under file names that differ wherever their names do. */
export function asFiles<T>(drawings: ReadonlyMap<string, T>, ending: 'svg' | 'pdf' = 'svg'): Map<string, T> {
  const names = uniqueSlugs(drawings.keys())
  return new Map([...drawings].map(([name, drawing]) => [`${names.get(name)}.${ending}`, drawing]))
}
