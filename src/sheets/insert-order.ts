import type { Half } from '../resolve/loom.ts'

/**
 * Number of each of the given pins in the order in which cavities are filled, from 1: the ones nearest the middle of the face
 * first, because fingers and tool no longer reach them later; pin order where the face is not known. Common practice.
 */
export function insertOrder(half: Half, pins: readonly string[]): ReadonlyMap<string, number> {
  const spots = half.family?.face?.pins ?? {}
  const all = Object.values(spots)
  const middle = (axis: 'xMm' | 'yMm') => {
    const values = all.map((spot) => spot[axis])
    return (Math.min(...values) + Math.max(...values)) / 2
  }
  const x = middle('xMm')
  const y = middle('yMm')
  const tenths = (pin: string): number => {
    const spot = spots[pin]
    // Rounded, so that mirror-image cavities tie and keep their pin order.
    return spot && all.length > 2 ? Math.round(10 * Math.hypot(spot.xMm - x, spot.yMm - y)) : 0
  }
  const ordered = pins.map((pin, index) => ({ pin, index, far: tenths(pin) }))
  ordered.sort((a, b) => a.far - b.far || a.index - b.index)
  return new Map(ordered.map(({ pin }, index) => [pin, index + 1]))
}
