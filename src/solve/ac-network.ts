import { add, type Complex, complex, magnitude, multiply, reciprocal } from './formulas/complex.ts'

/** A resistance, capacitance or inductance between two nodes; one of the three. Node 0 is the reference. */
export interface AcElement {
  readonly a: number
  readonly b: number
  readonly ohms?: number
  readonly farads?: number
  readonly henries?: number
}

/** A generator of `volts` rms behind `ohms`, between two nodes. */
export interface AcSource {
  readonly a: number
  readonly b: number
  readonly volts: number
  readonly ohms: number
}

/** An ideal transformer: `ratio` volts between p1 and p2 for each volt between s1 and s2, behind `ohms` on the s side. */
export interface AcTransformer {
  readonly p1: number
  readonly p2: number
  readonly s1: number
  readonly s2: number
  readonly ratio: number
  readonly ohms: number
}

/** Admittance of an element at a frequency. */
export function admittance({ ohms, farads, henries }: AcElement, hertz: number): Complex {
  const omega = 2 * Math.PI * hertz
  if (ohms !== undefined) return complex(1 / ohms)
  if (farads !== undefined) return complex(0, omega * farads)
  return reciprocal(complex(0, omega * (henries ?? 0)))
}

const subtract = (a: Complex, b: Complex): Complex => add(a, { re: -b.re, im: -b.im })

/**
 * Volts of each node against node 0 at one frequency: nodal analysis with complex admittances and partial pivoting.
 * Work grows with the cube of the nodes, so it is meant for one audio line at a time. A node that nothing joins is NaN.
 */
export function solveAc(
  nodes: number,
  elements: readonly AcElement[],
  sources: readonly AcSource[],
  hertz: number,
  transformers: readonly AcTransformer[] = [],
): readonly Complex[] {
  const size = nodes - 1
  const zero = complex(0)
  const rows = Array.from({ length: size }, () => Array.from({ length: size + 1 }, () => zero))
  const put = (row: number, column: number, value: Complex): void => {
    const line = rows[row - 1]
    if (line && row > 0 && column > 0) line[column - 1] = add(line[column - 1] ?? zero, value)
  }
  const minus = (value: Complex): Complex => ({ re: -value.re, im: -value.im })
  const join = (a: number, b: number, y: Complex): void => {
    put(a, a, y)
    put(b, b, y)
    put(a, b, minus(y))
    put(b, a, minus(y))
  }
  for (const element of elements) join(element.a, element.b, admittance(element, hertz))
  for (const { p1, p2, s1, s2, ratio, ohms } of transformers) {
    // The current (vp / ratio - vs) / ohms leaves at s1, and its share 1 / ratio enters at p1.
    const turns = [
      [p1, 1 / ratio],
      [p2, -1 / ratio],
      [s1, -1],
      [s2, 1],
    ] as const
    for (const [row, one] of turns)
      for (const [column, two] of turns) put(row, column, complex((one * two) / ohms))
  }
  for (const { a, b, volts, ohms } of sources) {
    join(a, b, complex(1 / ohms))
    put(a, size + 1, complex(volts / ohms))
    put(b, size + 1, complex(-volts / ohms))
  }
  return [zero, ...eliminate(rows, size)]
}

function eliminate(rows: Complex[][], size: number): Complex[] {
  const zero = complex(0)
  const at = (row: number, column: number): Complex => rows[row]?.[column] ?? zero
  const done: number[] = []
  const used = new Set<number>()
  for (let column = 0; column < size; column++) {
    let best = -1
    for (let row = 0; row < size; row++)
      if (!used.has(row) && (best < 0 || magnitude(at(row, column)) > magnitude(at(best, column)))) best = row
    const pivot = magnitude(at(best, column)) > 1e-30 ? best : -1
    done.push(pivot)
    if (pivot < 0) continue
    used.add(pivot)
    const inverse = reciprocal(at(pivot, column))
    for (let row = 0; row < size; row++) {
      const factor = multiply(at(row, column), inverse)
      if (row === pivot || magnitude(factor) === 0) continue
      const line = rows[row]
      if (!line) continue
      for (let k = column; k <= size; k++) line[k] = subtract(at(row, k), multiply(factor, at(pivot, k)))
    }
  }
  return done.map((row, column) =>
    row < 0 ? complex(Number.NaN, Number.NaN) : multiply(at(row, size), reciprocal(at(row, column))),
  )
}
