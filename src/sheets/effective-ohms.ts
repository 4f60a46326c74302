/** One resistance between two nodes, which may be any whole numbers. */
export interface Edge {
  readonly a: number
  readonly b: number
  readonly ohms: number
}

/** Beyond this a dense elimination would be slow; no bench step needs it. */
const MOST_NODES = 300

/** The nodes that can be reached from one, in order of discovery. */
function reach(edges: readonly Edge[], start: number): number[] {
  const next = new Map<number, number[]>()
  for (const { a, b } of edges) {
    next.set(a, [...(next.get(a) ?? []), b])
    next.set(b, [...(next.get(b) ?? []), a])
  }
  const seen = new Set([start])
  for (const node of seen) for (const to of next.get(node) ?? []) seen.add(to)
  return [...seen]
}

/**
 * Resistance in ohms a meter reads between two nodes of a network, parallel ways included; Infinity when they are not joined,
 * undefined when the network is too large. One ampere is put in at `a` and taken out at `b` (Kirchhoff's current law).
 */
export function effectiveOhms(edges: readonly Edge[], a: number, b: number): number | undefined {
  if (a === b) return 0
  const nodes = reach(edges, a)
  if (!nodes.includes(b)) return Number.POSITIVE_INFINITY
  if (nodes.length > MOST_NODES) return undefined
  // `b` is the reference, so it has no row.
  const rows = new Map(nodes.filter((node) => node !== b).map((node, index) => [node, index]))
  const matrix = Array.from({ length: rows.size }, () => new Float64Array(rows.size + 1))
  for (const edge of edges) stamp(matrix, rows.get(edge.a), rows.get(edge.b), 1 / Math.max(edge.ohms, 1e-9))
  const start = rows.get(a) ?? 0
  const first = matrix[start]
  if (first) first[rows.size] = 1
  return eliminate(matrix)[start]
}

function stamp(matrix: Float64Array[], i: number | undefined, j: number | undefined, siemens: number): void {
  const add = (row: number | undefined, column: number | undefined, value: number) => {
    if (row === undefined || column === undefined) return
    const line = matrix[row]
    if (line) line[column] = (line[column] ?? 0) + value
  }
  add(i, i, siemens)
  add(j, j, siemens)
  add(i, j, -siemens)
  add(j, i, -siemens)
}

/** Gauss with column pivoting; the last column is the right-hand side. */
function eliminate(matrix: Float64Array[]): number[] {
  const size = matrix.length
  for (let column = 0; column < size; column++) {
    const pivotRow = largest(matrix, column)
    const pivot = matrix[pivotRow] as Float64Array
    matrix[pivotRow] = matrix[column] as Float64Array
    matrix[column] = pivot
    for (let row = 0; row < size; row++) {
      const line = matrix[row] as Float64Array
      const factor = row === column ? 0 : (line[column] ?? 0) / (pivot[column] ?? 1)
      if (factor === 0) continue
      for (let k = column; k <= size; k++) line[k] = (line[k] ?? 0) - factor * (pivot[k] ?? 0)
    }
  }
  return matrix.map((line, row) => (line[size] ?? 0) / (line[row] ?? 1))
}

function largest(matrix: readonly Float64Array[], column: number): number {
  let best = column
  for (let row = column; row < matrix.length; row++) {
    if (Math.abs(matrix[row]?.[column] ?? 0) > Math.abs(matrix[best]?.[column] ?? 0)) best = row
  }
  return best
}
