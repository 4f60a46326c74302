import type { Conductances } from './conductances.ts'

const TOLERANCE = 1e-14

/**
 * Volts of the free nodes by conjugate gradients with the diagonal as preconditioner; other nodes are held at zero and
 * their share must be in `right`. For networks so meshed that elimination fills up.
 */
export function conjugateGradient(
  size: number,
  edges: Conductances,
  free: (node: number) => boolean,
  right: Float64Array,
): Float64Array {
  const diagonal = diagonalOf(size, edges)
  const x = new Float64Array(size)
  const r = Float64Array.from(right)
  const z = r.map((value, node) => value / (diagonal[node] || 1))
  const p = Float64Array.from(z)
  const target = TOLERANCE * TOLERANCE * dot(right, z)
  let rz = dot(r, z)
  const most = 20 * size + 1000
  for (let round = 0; round < most && rz > target && rz > 0; round++) {
    const ap = multiply(edges, diagonal, free, p)
    const alpha = rz / dot(p, ap)
    for (let node = 0; node < size; node++) {
      x[node] = (x[node] ?? 0) + alpha * (p[node] ?? 0)
      r[node] = (r[node] ?? 0) - alpha * (ap[node] ?? 0)
      z[node] = (r[node] ?? 0) / (diagonal[node] || 1)
    }
    const next = dot(r, z)
    const beta = next / rz
    for (let node = 0; node < size; node++) p[node] = (z[node] ?? 0) + beta * (p[node] ?? 0)
    rz = next
  }
  return x
}

function diagonalOf(size: number, edges: Conductances): Float64Array {
  const diagonal = new Float64Array(size)
  edges.siemens.forEach((g, index) => {
    const [a, b] = [edges.a[index] ?? 0, edges.b[index] ?? 0]
    if (a === b) return
    diagonal[a] = (diagonal[a] ?? 0) + g
    diagonal[b] = (diagonal[b] ?? 0) + g
  })
  return diagonal
}

function multiply(
  edges: Conductances,
  diagonal: Float64Array,
  free: (node: number) => boolean,
  p: Float64Array,
): Float64Array {
  const out = p.map((value, node) => (free(node) ? (diagonal[node] ?? 0) * value : 0))
  for (let index = 0; index < edges.siemens.length; index++) {
    const [a, b] = [edges.a[index] ?? 0, edges.b[index] ?? 0]
    if (a === b || !free(a) || !free(b)) continue
    const g = edges.siemens[index] ?? 0
    out[a] = (out[a] ?? 0) - g * (p[b] ?? 0)
    out[b] = (out[b] ?? 0) - g * (p[a] ?? 0)
  }
  return out
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let index = 0; index < a.length; index++) sum += (a[index] ?? 0) * (b[index] ?? 0)
  return sum
}
