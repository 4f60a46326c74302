import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { conjugateGradient } from '../../src/solve/conjugate-gradient.ts'
import { prepareNodal } from '../../src/solve/nodal.ts'
import { gauss } from './dense.ts'

interface Net {
  size: number
  a: number[]
  b: number[]
  siemens: number[]
  isFixed: number[]
  fixed: number[]
  inject: number[]
}

/** A connected network with micro-ohms beside kilo-ohms. */
const network: fc.Arbitrary<Net> = fc.integer({ min: 2, max: 14 }).chain((size) =>
  fc
    .record({
      parents: fc.array(fc.nat(1000), { minLength: size, maxLength: size }),
      extra: fc.array(fc.tuple(fc.nat(1000), fc.nat(1000)), { maxLength: size }),
      decades: fc.array(fc.double({ min: -3, max: 3, noNaN: true }), {
        minLength: 3 * size,
        maxLength: 3 * size,
      }),
      held: fc.array(fc.nat(1000), { minLength: 1, maxLength: 3 }),
      inject: fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: size, maxLength: size }),
      fixed: fc.array(fc.double({ min: -30, max: 30, noNaN: true }), { minLength: size, maxLength: size }),
    })
    .map(({ parents, extra, decades, held, inject, fixed }) => {
      const a: number[] = []
      const b: number[] = []
      for (let node = 1; node < size; node++) {
        a.push(node)
        b.push((parents[node] ?? 0) % node)
      }
      for (const [from, to] of extra) {
        if (from % size === to % size) continue
        a.push(from % size)
        b.push(to % size)
      }
      const isFixed = new Array<number>(size).fill(0)
      for (const node of held) isFixed[node % size] = 1
      return { size, a, b, siemens: a.map((_, index) => 10 ** (decades[index] ?? 0)), isFixed, fixed, inject }
    }),
)

function dense(net: Net): number[] {
  const matrix = Array.from({ length: net.size }, () => new Array<number>(net.size).fill(0))
  const right = [...net.inject]
  const add = (row: number, column: number, value: number): void => {
    const line = matrix[row]
    if (line) line[column] = (line[column] ?? 0) + value
  }
  net.siemens.forEach((g, index) => {
    const [a, b] = [net.a[index] ?? 0, net.b[index] ?? 0]
    add(a, a, g)
    add(b, b, g)
    add(a, b, -g)
    add(b, a, -g)
  })
  net.isFixed.forEach((held, node) => {
    if (!held) return
    matrix[node] = Array.from({ length: net.size }, (_, column) => Number(column === node))
    right[node] = net.fixed[node] ?? 0
  })
  return gauss(matrix, right)
}

const scale = (volts: readonly number[]): number => Math.max(1e-3, ...volts.map(Math.abs))

describe('nodal analysis', () => {
  test('agrees with Gaussian elimination of the full matrix', () => {
    fc.assert(
      fc.property(network, (net) => {
        const got = prepareNodal(net.size, net, net.isFixed).solve(net.inject, net.fixed)
        const want = dense(net)
        for (let node = 0; node < net.size; node++)
          expect(Math.abs((got[node] ?? 0) - (want[node] ?? 0))).toBeLessThan(1e-9 * scale(want))
      }),
      { numRuns: 500 },
    )
  })

  test('agrees with conjugate gradients', () => {
    fc.assert(
      fc.property(network, (net) => {
        const zero = net.fixed.map(() => 0)
        const direct = prepareNodal(net.size, net, net.isFixed).solve(net.inject, zero)
        const right = Float64Array.from(net.inject, (amps, node) => (net.isFixed[node] ? 0 : amps))
        const iterated = conjugateGradient(net.size, net, (node) => !net.isFixed[node], right)
        for (let node = 0; node < net.size; node++)
          expect(Math.abs((iterated[node] ?? 0) - (direct[node] ?? 0))).toBeLessThan(
            1e-6 * scale([...direct]),
          )
      }),
      { numRuns: 200 },
    )
  })

  test('goes over to iteration where elimination would fill up, with the same result', () => {
    // A cube of resistors, far from a tree: 14 × 14 × 14 nodes.
    const side = 14
    const at = (x: number, y: number, z: number): number => (x * side + y) * side + z
    const a: number[] = []
    const b: number[] = []
    for (let x = 0; x < side; x++)
      for (let y = 0; y < side; y++)
        for (let z = 0; z < side; z++)
          for (const [dx, dy, dz] of [
            [1, 0, 0],
            [0, 1, 0],
            [0, 0, 1],
            [1, 1, 1],
            [3, 5, 7],
          ] as const)
            if (x + dx < side && y + dy < side && z + dz < side) {
              a.push(at(x, y, z))
              b.push(at(x + dx, y + dy, z + dz))
            }
    const size = side ** 3
    const net = { a, b, siemens: a.map((_, index) => 1 + (index % 7)) }
    const isFixed = new Uint8Array(size)
    isFixed[0] = 1
    const inject = new Float64Array(size)
    inject[size - 1] = 2
    const nodal = prepareNodal(size, net, isFixed)
    expect(nodal.method).toBe('iterative')
    const volts = nodal.solve(inject, new Float64Array(size))
    const out = new Float64Array(size)
    net.siemens.forEach((g, index) => {
      const [i, j] = [a[index] ?? 0, b[index] ?? 0]
      const amps = g * ((volts[i] ?? 0) - (volts[j] ?? 0))
      out[i] = (out[i] ?? 0) + amps
      out[j] = (out[j] ?? 0) - amps
    })
    for (let node = 1; node < size; node++) expect(out[node]).toBeCloseTo(inject[node] ?? 0, 8)
    expect(out[0]).toBeCloseTo(-2, 8)
  })

  test('leaves a floating part unknown and the rest solved', () => {
    const nodal = prepareNodal(5, { a: [0, 3], b: [1, 4], siemens: [1, 1] }, [1, 0, 0, 0, 0])
    const volts = nodal.solve([0, 2, 0, 1, -1], [10, 0, 0, 0, 0])
    expect([...nodal.floating]).toEqual([0, 0, 1, 1, 1])
    expect([...volts]).toEqual([10, 12, Number.NaN, Number.NaN, Number.NaN])
  })

  test('keeps a microvolt across a micro-ohm joint beside kilo-ohms', () => {
    const net = { a: [0, 1, 2], b: [1, 2, 3], siemens: [1e6, 1e-4, 1e6] }
    const volts = prepareNodal(4, net, [1, 0, 0, 0]).solve([0, 0, 0, 1e-3], [0, 0, 0, 0])
    expect((volts[1] ?? 0) / 1e-9).toBeCloseTo(1, 12)
  })
})
