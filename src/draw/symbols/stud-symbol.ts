import { type Item, line } from '../scene.ts'
import type { StudBlock } from '../sheet-model.ts'

/** Room a stud symbol takes below the point it hangs from. */
export const STUD_SYMBOL_HEIGHT = 20

/** Frame or chassis, earth, or plain terminal (IEC 60617), hanging from a point. */
export function studSymbol(kind: StudBlock['symbol'], x: number, y: number): Item[] {
  const foot = y + 9
  const stem = line('lw-symbol', [x, y], [x, foot])
  if (kind === 'chassis')
    return [
      stem,
      line('lw-bold', [x - 13, foot], [x + 13, foot]),
      ...[-13, -4.5, 4, 12.5].map((dx) => line('lw-symbol', [x + dx, foot], [x + dx - 5, foot + 7])),
    ]
  if (kind === 'earth')
    return [
      stem,
      line('lw-bold', [x - 12, foot], [x + 12, foot]),
      line('lw-symbol', [x - 8, foot + 4], [x + 8, foot + 4]),
      line('lw-symbol', [x - 4, foot + 8], [x + 4, foot + 8]),
    ]
  const r = 4
  return [
    {
      kind: 'path',
      className: 'lw-symbol lw-paper',
      d: `M${x - r} ${foot}a${r} ${r} 0 1 1 ${2 * r} 0a${r} ${r} 0 1 1 ${-2 * r} 0Z`,
    },
  ]
}
