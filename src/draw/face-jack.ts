import type { FaceGeometry } from '../describe/part.ts'
import { facePin, type PinMark } from './face-pin.ts'
import { TEXT } from './metrics.ts'
import { type Box, type Item, line, text } from './scene.ts'
import { textWidth } from './text-width.ts'

const WORDS: Readonly<Record<string, string>> = {
  T: 'tip',
  R: 'ring',
  R1: 'ring 1',
  R2: 'ring 2',
  S: 'sleeve',
}
const LENGTH = 300
const HANDLE = 90
export const JACK_SIZE = { w: LENGTH + HANDLE + 60, h: 190 } as const

/** A concentric plug from the side, its tip to the left, each contact named where it is. */
export function jackView(
  outline: Extract<FaceGeometry['outline'], { shape: 'jack' }>,
  title: readonly [string, string],
  pins: ReadonlyMap<string, PinMark>,
  at: Box,
): Item[] {
  const { rings } = outline
  const d = Math.max(34, Math.min(60, (outline.dMm / outline.lengthMm) * LENGTH))
  const x0 = at.x + 30
  const y = at.y + 128
  // Tip and rings are short, the sleeve takes what is left.
  const short = Math.min(62, (LENGTH * 0.62) / Math.max(1, rings.length - 1))
  const items: Item[] = [
    text(at.x + at.w / 2, at.y + 16, title[0], { size: 'title', bold: true, anchor: 'middle' }),
    text(at.x + at.w / 2, at.y + 32, title[1], { size: 'small', anchor: 'middle' }),
    { kind: 'rect', className: 'lw-box', x: x0 + LENGTH, y: y - d * 0.8, w: HANDLE, h: d * 1.6, radius: 6 },
    text(x0 + LENGTH + HANDLE / 2, y + 4, 'handle', { size: 'small', anchor: 'middle' }),
  ]
  let x = x0
  for (const [i, name] of rings.entries()) {
    const last = i === rings.length - 1
    const to = last ? x0 + LENGTH : x + short
    if (i === 0) {
      const waist = to - 14
      items.push({
        kind: 'path',
        className: 'lw-box',
        d: `M${x} ${y}L${x + 20} ${y - d * 0.42}Q${x + 26} ${y - d / 2} ${x + 32} ${y - d * 0.44}L${waist} ${y - d * 0.3}L${to} ${y - d / 2}V${y + d / 2}L${waist} ${y + d * 0.3}L${x + 32} ${y + d * 0.44}Q${x + 26} ${y + d / 2} ${x + 20} ${y + d * 0.42}Z`,
      })
    } else items.push({ kind: 'rect', className: 'lw-box', x, y: y - d / 2, w: to - x, h: d })
    if (!last) items.push({ kind: 'rect', className: 'lw-ink', x: to, y: y - d / 2, w: 5, h: d })
    const middle = i === 0 ? x + short * 0.45 : last ? Math.min((x + to) / 2, x + 60) : (x + to) / 2
    const words = WORDS[name]
    items.push(line('lw-thin', [middle, y], [middle, y - d / 2 - 22]))
    items.push(
      facePin(
        pins.get(name) ?? { name, state: 'unstated', first: false, chosen: false },
        middle,
        y - d / 2 - 34,
        12,
      ),
    )
    if (words && textWidth(words, TEXT.small) < short + 30)
      items.push(text(middle, y + d / 2 + 16, words, { size: 'small', anchor: 'middle' }))
    x = last ? to : to + 5
  }
  return items
}
