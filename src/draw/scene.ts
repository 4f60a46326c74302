import { TEXT, type TextSize } from './metrics.ts'
import { textWidth } from './text-width.ts'

export type Point = readonly [number, number]

export interface Box {
  readonly x: number
  readonly y: number
  readonly w: number
  readonly h: number
}

/** One line of text; `x`, `y` are the anchor on its baseline. */
export interface TextItem {
  readonly kind: 'text'
  readonly x: number
  readonly y: number
  readonly text: string
  readonly size: TextSize
  readonly bold?: boolean
  readonly anchor?: 'middle' | 'end'
  readonly className?: string
  /** Said when the printed text had to be cut short. */
  readonly full?: string
}

/** Straight runs through points. */
export interface LineItem {
  readonly kind: 'line'
  readonly points: readonly Point[]
  readonly className: string
}

/** A run of metal: drawn in its colour with an outline, and what the geometry checks look at. */
export interface WireItem {
  readonly kind: 'wire'
  readonly points: readonly Point[]
  readonly colour?: string
  /** Extra curve data after the points, for the twist of a pair. */
  readonly path?: string
  readonly shield?: boolean
}

export interface RectItem extends Box {
  readonly kind: 'rect'
  readonly className: string
  readonly radius?: number
  /** Opaque to conductors: none may pass through. */
  readonly solid?: boolean
}

/** Any other outline. */
export interface PathItem {
  readonly kind: 'path'
  readonly d: string
  readonly className: string
}

export interface GroupItem {
  readonly kind: 'group'
  readonly className?: string
  readonly data?: Readonly<Record<string, string | undefined>>
  readonly title?: string
  readonly items: readonly Item[]
}

export type Item = TextItem | LineItem | WireItem | RectItem | PathItem | GroupItem

const ASCENT = 0.74
const DESCENT = 0.22

/** The room a text takes, from the top of its capitals to the foot of its descenders. */
export function textBox(item: TextItem): Box {
  const size = TEXT[item.size]
  const w = textWidth(item.text, size, item.bold ? 'bold' : 'regular')
  const x = item.anchor === 'middle' ? item.x - w / 2 : item.anchor === 'end' ? item.x - w : item.x
  return { x, y: item.y - ASCENT * size, w, h: (ASCENT + DESCENT) * size }
}

export const line = (className: string, ...points: Point[]): LineItem => ({ kind: 'line', className, points })

export const text = (x: number, y: number, content: string, more: Partial<TextItem> = {}): TextItem => ({
  kind: 'text',
  x,
  y,
  text: content,
  size: 'label',
  ...more,
})
