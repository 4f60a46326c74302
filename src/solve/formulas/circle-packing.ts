/** A circle in its place. Millimetres. */
export interface PlacedCircle {
  readonly xMm: number
  readonly yMm: number
  readonly diameterMm: number
}

export interface Packing {
  /** Diameter of the circle round all of them. */
  readonly diameterMm: number
  readonly circles: readonly PlacedCircle[]
}

interface Disc {
  x: number
  y: number
  readonly r: number
}

/** Up to this many circles the packing is squeezed after it is laid; beyond, the gain is below a percent and the work grows. */
const SQUEEZE_UP_TO = 40

/**
 * Packs circles of any diameters into a small round bundle: laid one by one, thickest first, each where it touches two others
 * and lies nearest the middle, then squeezed inwards as long as all of them find room. What it returns is a bundle that can be
 * laid as drawn (nothing overlaps), so its diameter is never less than the smallest possible; for equal circles it stays
 * within 4 % of the best packings known (see the tests). No randomness: the same wires give the same bundle.
 */
export function packCircles(diametersMm: readonly number[]): Packing {
  const radii = diametersMm.filter((diameter) => diameter > 0).map((diameter) => diameter / 2)
  if (radii.length === 0) return { diameterMm: 0, circles: [] }
  const laid = lay(radii.sort((a, b) => b - a))
  const best = laid.length > 2 && laid.length <= SQUEEZE_UP_TO ? squeeze(laid) : laid
  const round = enclosing(best)
  return {
    diameterMm: 2 * round.r,
    circles: best.map(({ x, y, r }) => ({ xMm: x - round.x, yMm: y - round.y, diameterMm: 2 * r })),
  }
}

/** Thickest first; each touches two that lie already and is as near the middle of them as it can be. */
function lay(radii: readonly number[]): Disc[] {
  const discs: Disc[] = []
  for (const r of radii) {
    const [first, second] = discs
    if (!first) discs.push({ x: 0, y: 0, r })
    else if (!second) discs.push({ x: first.r + r, y: 0, r })
    else discs.push(nearest(discs, r))
  }
  return discs
}

function nearest(discs: readonly Disc[], r: number): Disc {
  const middle = enclosing(discs)
  let best: Disc | undefined
  let bestReach = Number.POSITIVE_INFINITY
  for (let i = 0; i < discs.length; i++)
    for (let j = i + 1; j < discs.length; j++)
      for (const place of touching(discs[i] as Disc, discs[j] as Disc, r)) {
        const reach = Math.hypot(place.x - middle.x, place.y - middle.y) + r
        if (reach < bestReach - 1e-9 && discs.every((disc) => apart(disc, place) >= -1e-9)) {
          best = place
          bestReach = reach
        }
      }
  return best ?? { x: middle.x + middle.r + r, y: middle.y, r }
}

const apart = (a: Disc, b: Disc): number => Math.hypot(a.x - b.x, a.y - b.y) - a.r - b.r

/** The two places in which a circle of radius r touches both others; none where they are too far apart. */
function touching(a: Disc, b: Disc, r: number): readonly Disc[] {
  const [toA, toB] = [a.r + r, b.r + r]
  const [dx, dy] = [b.x - a.x, b.y - a.y]
  const distance = Math.hypot(dx, dy)
  if (distance > toA + toB || distance === 0) return []
  const along = (toA ** 2 - toB ** 2 + distance ** 2) / (2 * distance)
  const beside = Math.sqrt(Math.max(0, toA ** 2 - along ** 2))
  const [ux, uy] = [dx / distance, dy / distance]
  const [px, py] = [a.x + ux * along, a.y + uy * along]
  return [
    { x: px - uy * beside, y: py + ux * beside, r },
    { x: px + uy * beside, y: py - ux * beside, r },
  ]
}

/** A circle round all discs, within a ten-thousandth of the smallest: the centre walks towards whichever sticks out most. */
function enclosing(discs: readonly Disc[]): Disc {
  const weight = discs.reduce((sum, { r }) => sum + r * r, 0)
  let x = discs.reduce((sum, disc) => sum + disc.x * disc.r * disc.r, 0) / weight
  let y = discs.reduce((sum, disc) => sum + disc.y * disc.r * disc.r, 0) / weight
  const reach = (disc: Disc) => Math.hypot(disc.x - x, disc.y - y) + disc.r
  let best = { x, y, r: Math.max(...discs.map(reach)) }
  let step = best.r / 2
  for (let turn = 0; turn < 120; turn++) {
    const out = discs.reduce((most, disc) => (reach(disc) > reach(most) ? disc : most))
    const distance = Math.hypot(out.x - x, out.y - y)
    if (distance > 0) {
      x += ((out.x - x) / distance) * step
      y += ((out.y - y) / distance) * step
    }
    const r = Math.max(...discs.map(reach))
    if (r < best.r) best = { x, y, r }
    step *= 0.9
  }
  return best
}

const SHRINKS = 14
const TURNS = 160

/** Tries rounds smaller by halves of what is still in doubt; a try counts only once everything is truly apart. */
function squeeze(laid: readonly Disc[]): readonly Disc[] {
  let best = laid
  let bestR = enclosing(laid).r
  const area = Math.sqrt(laid.reduce((sum, { r }) => sum + r * r, 0))
  let low = Math.max(area, (laid[0]?.r ?? 0) + (laid[1]?.r ?? 0))
  for (let shrink = 0; shrink < SHRINKS && bestR - low > 1e-4 * bestR; shrink++) {
    const target = (low + 3 * bestR) / 4
    const tried = relaxed(best, target)
    const r = enclosing(tried).r
    if (r < bestR) {
      best = tried
      bestR = r
    } else low = target
  }
  return best
}

/** Pushes overlapping discs apart and all of them into a round of radius `target`, then spreads what still overlaps. */
function relaxed(start: readonly Disc[], target: number): readonly Disc[] {
  const middle = enclosing(start)
  const discs = start.map(({ x, y, r }) => ({ x: x - middle.x, y: y - middle.y, r }))
  for (let turn = 0; turn < TURNS; turn++) {
    for (let i = 0; i < discs.length; i++)
      for (let j = i + 1; j < discs.length; j++) part(discs[i] as Disc, discs[j] as Disc)
    for (const disc of discs) {
      const distance = Math.hypot(disc.x, disc.y)
      const over = distance + disc.r - target
      if (over <= 0 || distance === 0) continue
      disc.x -= (disc.x / distance) * over
      disc.y -= (disc.y / distance) * over
    }
  }
  return spread(discs)
}

function part(a: Disc, b: Disc): void {
  const [dx, dy] = [b.x - a.x, b.y - a.y]
  const distance = Math.hypot(dx, dy)
  const over = a.r + b.r - distance
  if (over <= 0) return
  const [ux, uy] = distance > 0 ? [dx / distance, dy / distance] : [1, 0]
  a.x -= (ux * over) / 2
  a.y -= (uy * over) / 2
  b.x += (ux * over) / 2
  b.y += (uy * over) / 2
}

/** Scales the places, not the discs, until the worst overlap is gone. */
function spread(discs: readonly Disc[]): readonly Disc[] {
  let scale = 1
  for (let i = 0; i < discs.length; i++)
    for (let j = i + 1; j < discs.length; j++) {
      const [a, b] = [discs[i] as Disc, discs[j] as Disc]
      const distance = Math.hypot(a.x - b.x, a.y - b.y)
      if (distance > 0) scale = Math.max(scale, (a.r + b.r) / distance)
    }
  return discs.map(({ x, y, r }) => ({ x: x * scale, y: y * scale, r }))
}
