import type { Half } from '../resolve/loom.ts'

/** Neighbours are the pins within this factor of the smallest pitch on the face: the diagonal of a square grid is left out, a staggered row is in. */
const REACH = 1.35

/**
 * Pairs of pins that a stray strand or a bent pin can bridge: neighbours on the true face, or next in order where the
 * geometry is not known.
 */
export function adjacentPins(half: Half): (readonly [string, string])[] {
  const names = [...half.pins.keys()].filter((name) => name !== 'shell')
  const spots = half.family?.face?.pins
  const placed = names.filter((name) => spots?.[name] !== undefined)
  if (!spots || placed.length < 2 || half.family?.face?.outline.shape === 'jack')
    return names.slice(1).map((name, index) => [names[index] ?? name, name] as const)
  const pairs = placed.flatMap((a, index) =>
    placed.slice(index + 1).map((b) => {
      const [from, to] = [spots[a], spots[b]]
      return {
        a,
        b,
        mm: from && to ? Math.hypot(from.xMm - to.xMm, from.yMm - to.yMm) : Number.POSITIVE_INFINITY,
      }
    }),
  )
  // A pin far from all others still has a nearest neighbour, so each pin is judged by its own pitch.
  const pitch = new Map(
    placed.map((name) => [
      name,
      Math.min(...pairs.filter((p) => p.a === name || p.b === name).map((p) => p.mm)),
    ]),
  )
  return pairs
    .filter(({ a, b, mm }) => mm <= REACH * Math.max(pitch.get(a) ?? 0, pitch.get(b) ?? 0))
    .map(({ a, b }) => [a, b] as const)
}
