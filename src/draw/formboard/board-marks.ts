import type { Branch } from '../../describe/harness.ts'
import { UNITS_PER_MM } from '../metrics.ts'
import { type Item, line, type Point } from '../scene.ts'

type Mark = NonNullable<Branch['marks']>[number]

const WORDS = {
  tie: 'Tie',
  clip: 'Clip',
  grommet: 'Grommet',
  gland: 'Gland',
  hole: 'Bare hole',
  tape: 'Tape',
  sleeve: 'Sleeve',
} as const

/** A frame along a branch: points by how far along and how far beside, in units. */
export type Along = (along: number, beside?: number) => Point

export function alongBranch(a: Point, b: Point): Along {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1
  const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length]
  return (along, beside = 0) => [a[0] + ux * along - uy * beside, a[1] + uy * along + ux * beside]
}

const rounded = (value: number): string => String(Math.round(value))

/** What a mark says: `Tie at 200`, `Sleeve 20 to 380`, in mm from the start of its branch. */
export function markWords(mark: Mark, branch: Branch): string {
  const stretch = mark.kind === 'sleeve' || mark.kind === 'tape'
  const span = stretch
    ? `${rounded(mark.at)} to ${rounded(mark.to ?? branch.length)}`
    : `at ${rounded(mark.at)}`
  return `${WORDS[mark.kind]} ${span}${mark.note ? ` · ${mark.note}` : ''}`
}

const ringRound = (p: Along, at: number, radius: number, sides = 24): Point[] =>
  Array.from({ length: sides + 1 }, (_, i) => {
    const angle = (i / sides) * 2 * Math.PI
    return p(at + radius * Math.cos(angle), radius * Math.sin(angle))
  })

/** Extent of a mark along its branch, in mm, kept on the branch. */
export function markSpanMm(mark: Mark, branch: Branch): readonly [number, number] {
  const keep = (value: number) => Math.min(branch.length, Math.max(0, value))
  const stretch = mark.kind === 'sleeve' || mark.kind === 'tape'
  const ends = [keep(mark.at), keep(stretch ? (mark.to ?? branch.length) : mark.at)] as const
  return ends[0] <= ends[1] ? ends : [ends[1], ends[0]]
}

/** Told apart by shape: tie two strokes, clip a U, grommet two rings, gland a ring in a hexagon, bare hole one ring, sleeve two lines, tape two lines with slants. `perMm` is the scale, `size` that of the marks. */
export function markItems(mark: Mark, branch: Branch, p: Along, perMm: number, size = 1): Item[] {
  const [from, to] = markSpanMm(mark, branch).map((value) => value * perMm) as [number, number]
  const mm = (value: number): number => value * UNITS_PER_MM * size
  const half = mm(3)
  const stroke = (at: number, lean = 0) => line('lw-symbol', p(at - lean, -half), p(at + lean, half))
  switch (mark.kind) {
    case 'tie':
      return [stroke(from - mm(0.8)), stroke(from + mm(0.8))]
    case 'clip':
      return [
        line(
          'lw-symbol',
          p(from - half, half),
          p(from - half, -half),
          p(from + half, -half),
          p(from + half, half),
        ),
      ]
    case 'grommet':
      return [
        line('lw-symbol', ...ringRound(p, from, half)),
        line('lw-symbol', ...ringRound(p, from, half * 1.5)),
      ]
    case 'gland':
      return [
        line('lw-symbol', ...ringRound(p, from, half)),
        line('lw-symbol', ...ringRound(p, from, half * 1.6, 6)),
      ]
    case 'hole':
      return [line('lw-symbol', ...ringRound(p, from, half * 1.5))]
    case 'sleeve':
      return [
        line('lw-symbol', p(from, -mm(2)), p(to, -mm(2)), p(to, mm(2)), p(from, mm(2)), p(from, -mm(2))),
      ]
    case 'tape': {
      const count = Math.max(1, Math.floor((to - from) / mm(12)))
      const slants = Array.from({ length: count }, (_, i) =>
        stroke(from + ((i + 0.5) / count) * (to - from), mm(1.5)),
      )
      return [stroke(from), ...slants, stroke(to)]
    }
  }
}
