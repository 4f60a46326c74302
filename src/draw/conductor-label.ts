import { FLAG_ROOM, flagMarks } from './flag-mark.ts'
import { TEXT } from './metrics.ts'
import { type Item, text } from './scene.ts'
import { type Conductor, printed } from './sheet-model.ts'
import { textWidth } from './text-width.ts'

const GAP = 5

const details = (conductor: Conductor) =>
  [conductor.colour, conductor.size].filter((part) => part !== undefined && part !== '').join(' ')

/** Width of a conductor's text with its marks. */
export function labelWidth(conductor: Conductor): number {
  const rest = details(conductor)
  return (
    textWidth(printed(conductor), TEXT.label, 'bold') +
    (rest === '' ? 0 : GAP + textWidth(rest, TEXT.label)) +
    FLAG_ROOM * (conductor.flags?.length ?? 0)
  )
}

/** Number in bold, then colour and size, then marks, starting at `x` on the baseline `y`. */
export function drawLabel(conductor: Conductor, x: number, y: number): Item[] {
  const rest = details(conductor)
  const id = text(x, y, printed(conductor), { bold: true })
  let to = x + textWidth(printed(conductor), TEXT.label, 'bold')
  const items: Item[] = [id]
  if (rest !== '') {
    items.push(text(to + GAP, y, rest))
    to += GAP + textWidth(rest, TEXT.label)
  }
  return [...items, ...flagMarks(conductor.flags, to + 10, y - 4)]
}
