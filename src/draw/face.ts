import { escapeAttribute, escapeSvgText } from '../base/escape.ts'
import { faceSeen } from '../catalogue/connectors/face-view.ts'
import type { ConnectorFamily } from '../describe/part.ts'
import { JACK_SIZE, jackView } from './face-jack.ts'
import { facePin, type PinMark, type PinState } from './face-pin.ts'
import { faceView, faceViewSize } from './face-view.ts'
import { TEXT, UNITS_PER_MM } from './metrics.ts'
import { type Item, text } from './scene.ts'
import { drawItem, drawingCss, drawingFontCss, num } from './svg-text.ts'
import { shorten, textWidth } from './text-width.ts'

export type FaceSide = 'mating' | 'wire-entry'

export interface FaceRequest {
  readonly family: ConnectorFamily
  /** Which half is drawn; the one the geometry is given for when left out or when the halves are alike. */
  readonly half?: 'pin' | 'socket'
  readonly view?: 'both' | FaceSide
  /** Pins with a conductor. Left out, no pin says whether it is used. */
  readonly used?: ReadonlySet<string>
  /** Cavities that stay open. Pins in neither set count as empty once `used` is given. */
  readonly empty?: ReadonlySet<string>
  /** Cavities closed with a plug. */
  readonly plugged?: ReadonlySet<string>
  /** The pin to look at. */
  readonly highlight?: string
  /** Printed above, such as `P1 to transceiver`. */
  readonly title?: string
  readonly style?: 'embedded' | 'shared'
  /** Only the face: name, side and key stand beside it on the page. */
  readonly bare?: boolean
}

const GAP = 36
const MARGIN = 12
/** Height of the two lines that name the side, cut off a bare face. */
const SIDE_TITLES = 46
const NO_TITLES = ['', ''] as const

const TITLES: Readonly<Record<FaceSide, readonly [string, string]>> = {
  mating: ['MATING FACE', 'looking into the end that plugs in'],
  'wire-entry': ['WIRE-ENTRY FACE', 'from the back, where the wires go in'],
}

function stateOf(request: FaceRequest, pin: string): PinState {
  if (request.plugged?.has(pin)) return 'plugged'
  if (request.used?.has(pin)) return 'wired'
  return request.used || request.empty?.has(pin) ? 'empty' : 'unstated'
}

function pinMarks(request: FaceRequest): Map<string, PinMark> {
  const { family, highlight } = request
  return new Map(
    family.pins.map((name, i) => [
      name,
      {
        name,
        state: stateOf(request, name),
        first: i === 0 && family.pins.length > 1,
        chosen: name === highlight,
      },
    ]),
  )
}

const STATE_WORDS: Readonly<Record<PinState, string>> = {
  wired: 'wired',
  empty: 'empty',
  plugged: 'closed with a plug',
  unstated: 'position',
}

/** What the signs mean, only those that occur. */
function drawKey(marks: ReadonlyMap<string, PinMark>, x: number, y: number): { items: Item[]; w: number } {
  const all = [...marks.values()]
  const entries: { sign: PinMark; words: string }[] = []
  const blank = { name: '', first: false, chosen: false }
  for (const state of ['wired', 'empty', 'plugged'] as const)
    if (all.some((m) => m.state === state))
      entries.push({ sign: { ...blank, state }, words: STATE_WORDS[state] })
  const [first] = all.filter((m) => m.first)
  if (first)
    entries.push({
      sign: { ...blank, state: 'unstated', first: true },
      words: `pin ${first.name}, the first`,
    })
  const [chosen] = all.filter((m) => m.chosen)
  if (chosen)
    entries.push({ sign: { ...blank, state: 'unstated', chosen: true }, words: `pin ${chosen.name}` })
  const items: Item[] = []
  let at = x + 12
  for (const { sign, words } of entries) {
    const pin = facePin(sign, at, y, 7)
    items.push(
      { kind: 'group', items: pin.kind === 'group' ? pin.items : [pin] },
      text(at + 17, y + 4, words, { size: 'small' }),
    )
    at += 17 + textWidth(words, TEXT.small) + 30
  }
  return { items, w: at - x - 20 }
}

function standalone(
  items: readonly Item[],
  w: number,
  h: number,
  name: string,
  { style = 'embedded', bare = false }: FaceRequest,
): string {
  const css = style === 'embedded' ? `<style>${drawingFontCss()}${drawingCss()}</style>` : ''
  const top = bare ? SIDE_TITLES : 0
  const size = `width="${num(w / UNITS_PER_MM)}mm" height="${num((h - top) / UNITS_PER_MM)}mm" viewBox="0 ${num(top)} ${num(w)} ${num(h - top)}"`
  return `<svg xmlns="http://www.w3.org/2000/svg" class="lw lw-face" ${size} role="img" aria-label="${escapeAttribute(name)}"><title>${escapeSvgText(name)}</title>${css}<rect class="lw-sheet" width="${num(w)}" height="${num(h)}"/>${items.map(drawItem).join('\n')}</svg>\n`
}

/** A picture of faces before it is put on a page or into a document of its own. */
export interface FaceScene {
  readonly items: readonly Item[]
  /** Size in units. */
  readonly w: number
  readonly h: number
  readonly name: string
}

/**
 * Draws the face of a connector half in its true geometry, from the mating side, from the wire-entry side, or both side by
 * side, as an SVG document at least 60 mm wide for each view. A family without face geometry gives an empty string.
 */
export function drawFace(request: FaceRequest): string {
  const scene = faceScene(request)
  return scene ? standalone(scene.items, scene.w, scene.h, scene.name, request) : ''
}

/** What {@link drawFace} draws; undefined for a family without face geometry. */
export function faceScene(request: FaceRequest): FaceScene | undefined {
  const { family } = request
  const { face } = family
  if (!face) return undefined
  const marks = pinMarks(request)
  const bare = request.bare ?? false
  const half = family.genderless ? face.of : (request.half ?? face.of)
  const both = (!request.view || request.view === 'both') && family.pins.length > 1
  const sides: FaceSide[] = both
    ? ['mating', 'wire-entry']
    : [request.view === 'wire-entry' ? 'wire-entry' : 'mating']
  const jack = face.outline.shape === 'jack' ? face.outline : undefined
  const views = jack
    ? [
        {
          size: JACK_SIZE,
          draw: (x: number, y: number) =>
            jackView(jack, bare ? NO_TITLES : jackTitle(half), marks, { x, y, ...JACK_SIZE }),
        },
      ]
    : sides.map((side) => {
        const seen = faceSeen(face, half, side)
        const titles = bare ? NO_TITLES : TITLES[side]
        const size = faceViewSize(seen, titles)
        return { size, draw: (x: number, y: number) => faceView(seen, titles, marks, { x, y, ...size }) }
      })
  const halfWords = family.genderless ? '' : half === 'pin' ? ', pin half' : ', socket half'
  const name = request.title ?? family.title
  const line2 = request.title ? `${family.title}${halfWords}` : halfWords.slice(2)
  const head = bare ? 0 : line2 === '' ? 26 : 42
  const body = views.reduce((sum, view) => sum + view.size.w, 0) + GAP * (views.length - 1)
  const tall = Math.max(...views.map((view) => view.size.h))
  const key = drawKey(marks, MARGIN, head + MARGIN + tall + 14)
  const w = Math.max(body, bare ? 0 : Math.max(key.w, 260)) + 2 * MARGIN
  const heading: Item[] = [
    text(MARGIN, MARGIN + 14, shorten(name, w - 2 * MARGIN, TEXT.title, 'bold'), {
      size: 'title',
      bold: true,
      full: name,
    }),
    text(MARGIN, MARGIN + 30, shorten(line2, w - 2 * MARGIN, TEXT.small), { size: 'small', full: line2 }),
  ]
  const items: Item[] = bare ? [] : heading
  let x = (w - body) / 2
  for (const view of views) {
    items.push(...view.draw(x, head + MARGIN))
    x += view.size.w + GAP
  }
  if (!bare) items.push(...key.items)
  const sideWords = jack
    ? 'from the side'
    : sides.length === 2
      ? 'mating face and wire-entry face'
      : `${sides[0]} face`
  return { items, w, h: head + MARGIN + tall + (bare ? MARGIN : 34), name: `${name}: ${sideWords}` }
}

const jackTitle = (half: 'pin' | 'socket'): readonly [string, string] =>
  half === 'pin'
    ? ['PLUG FROM THE SIDE', 'tip at the left']
    : ['SOCKET', 'named by the part of the plug that each contact touches']
