import { naturalOrder } from '../base/natural-order.ts'

const isWhole = (text: string) => /^\d{1,6}$/.test(text)

/** Pins for people: in natural order, three or more neighbours as a range. `1, 5, 7–10`. */
export function pinList(pins: readonly string[]): string {
  const sorted = [...pins].sort(naturalOrder)
  const runs: string[][] = []
  for (const pin of sorted) {
    const last = runs.at(-1)?.at(-1)
    if (last !== undefined && isWhole(last) && isWhole(pin) && Number(pin) === Number(last) + 1)
      runs.at(-1)?.push(pin)
    else runs.push([pin])
  }
  return runs.map((run) => (run.length > 2 ? `${run[0]}–${run.at(-1)}` : run.join(', '))).join(', ')
}
