import fc from 'fast-check'
import type { WireSize } from '../../src/base/wire-size.ts'
import type { DocumentInput } from '../../src/describe/document.ts'

type Content = Omit<DocumentInput, 'loomwright'>
type Harness = NonNullable<Content['harnesses']>[number]
type Wire = NonNullable<Harness['wires']>[number]

/** A supply job of random shape: a feed tree and a return tree of splices, fuses, cross links, loads and bleeders. */
export interface RandomJob {
  readonly volts: number
  readonly feed: readonly Branch[]
  readonly back: readonly Branch[]
  readonly loads: readonly Load[]
  readonly bleeders: readonly { readonly ohms: number; readonly feed: number; readonly back: number }[]
}

interface Branch {
  readonly onto: number
  readonly size: WireSize
  readonly mm: number
  readonly fuse: boolean
  /** A second way to another splice, which makes a mesh. */
  readonly also: number | undefined
}

interface Load {
  readonly feed: number
  readonly back: number
  readonly mm: number
  readonly size: WireSize
  readonly amps?: number
  readonly watts?: number
}

const size = fc.constantFrom<WireSize>(
  '0.5 mm²',
  '0.75 mm²',
  '1.5 mm²',
  '2.5 mm²',
  '6 mm²',
  '18 AWG',
  '12 AWG',
)
const mm = fc.integer({ min: 20, max: 9000 })

const branch: fc.Arbitrary<Branch> = fc.record({
  onto: fc.nat(1000),
  size,
  mm,
  fuse: fc.boolean(),
  also: fc.option(fc.nat(1000), { nil: undefined, freq: 3 }),
})

const load: fc.Arbitrary<Load> = fc
  .record({
    feed: fc.nat(1000),
    back: fc.nat(1000),
    mm,
    size,
    tenths: fc.integer({ min: 0, max: 25 }),
    power: fc.boolean(),
  })
  .map(({ tenths, power, ...rest }) => ({ ...rest, ...(power ? { watts: tenths } : { amps: tenths / 10 }) }))

export const randomJob: fc.Arbitrary<RandomJob> = fc.record({
  volts: fc.constantFrom(12, 13.8, 24, 28),
  feed: fc.array(branch, { minLength: 1, maxLength: 8 }),
  back: fc.array(branch, { minLength: 1, maxLength: 6 }),
  loads: fc.array(load, { minLength: 1, maxLength: 6 }),
  bleeders: fc.array(
    fc.record({ ohms: fc.integer({ min: 5, max: 4700 }), feed: fc.nat(1000), back: fc.nat(1000) }),
    { maxLength: 3 },
  ),
})

const one = ['1']

/** The description of a random job. `stretch` scales every length, `swap` turns every wire end for end. */
export function describeJob(
  job: RandomJob,
  options: { stretch?: number; swap?: boolean; current?: number } = {},
): Content {
  const stretch = options.stretch ?? 1
  const wires: Wire[] = []
  const components: NonNullable<Harness['components']>[number][] = []
  const run = (from: string, to: string, gauge: WireSize, lengthMm: number): void => {
    const ends = options.swap ? { from: to, to: from } : { from, to }
    wires.push({ id: `W${wires.length + 1}`, ...ends, size: gauge, length: `${lengthMm * stretch} mm` })
  }
  tree('F', 'R1', job.feed, run, components)
  tree('B', 'R2', job.back, run, components)
  const feedAt = (index: number): string => `F${index % job.feed.length}`
  const backAt = (index: number): string => `B${index % job.back.length}`
  job.loads.forEach((entry, index) => {
    run(feedAt(entry.feed), `P${index}.1`, entry.size, entry.mm)
    run(`P${index}.2`, backAt(entry.back), entry.size, entry.mm)
  })
  job.bleeders.forEach((entry, index) => {
    components.push({ kind: 'resistor', id: `X${index}`, ohms: `${entry.ohms} Ω` })
    run(feedAt(entry.feed), `X${index}.1`, '0.5 mm²', 100)
    run(`X${index}.2`, backAt(entry.back), '0.5 mm²', 100)
  })
  return {
    parts: [
      { kind: 'connector', id: 'test-post', title: 'Post', pins: one, style: 'stud', manyWires: true },
      { kind: 'connector', id: 'test-eye', title: 'Ring', pins: one, style: 'ring' },
      { kind: 'connector', id: 'test-two', title: 'Plug', pins: ['1', '2'], style: 'housing' },
    ],
    equipment: [
      {
        id: 'cell',
        title: 'Battery',
        role: 'battery',
        connectors: [
          {
            id: 'P',
            family: 'test-post',
            pins: { '1': { kind: 'supply-out', volts: `${job.volts} V`, battery: true } },
          },
          { id: 'N', family: 'test-post', pins: { '1': { kind: 'return' } } },
        ],
      },
      ...job.loads.map((entry, index) => ({
        id: `load-${index}`,
        title: 'Load',
        connectors: [
          {
            id: 'J',
            family: 'test-two',
            pins: {
              '1': {
                kind: 'supply-in' as const,
                ...(entry.watts === undefined
                  ? { amps: `${(entry.amps ?? 0) * (options.current ?? 1)} A` as const }
                  : { watts: `${entry.watts * (options.current ?? 1)} W` as const }),
              },
              '2': { kind: 'return' as const },
            },
          },
        ],
      })),
    ],
    harnesses: [
      {
        id: 'net',
        title: 'Random supply',
        connectors: [
          { id: 'R1', family: 'test-eye', fits: 'cell.P' },
          { id: 'R2', family: 'test-eye', fits: 'cell.N' },
          ...job.loads.map((_, index) => ({ id: `P${index}`, family: 'test-two', fits: `load-${index}.J` })),
        ],
        splices: [
          ...job.feed.map((_, index) => ({ id: `F${index}` })),
          ...job.back.map((_, index) => ({ id: `B${index}` })),
        ],
        components,
        wires,
      },
    ],
  }
}

function tree(
  prefix: string,
  root: string,
  branches: readonly Branch[],
  run: (from: string, to: string, gauge: WireSize, lengthMm: number) => void,
  components: NonNullable<Harness['components']>[number][],
): void {
  branches.forEach((entry, index) => {
    const parent = index === 0 ? root : `${prefix}${entry.onto % index}`
    if (entry.fuse) {
      const id = `${prefix}U${index}`
      components.push({ kind: 'fuse', id, rating: '20 A' })
      run(parent, `${id}.in`, entry.size, entry.mm)
      run(`${id}.out`, `${prefix}${index}`, entry.size, entry.mm / 2)
    } else run(parent, `${prefix}${index}`, entry.size, entry.mm)
    if (entry.also !== undefined && index > 0)
      run(`${prefix}${entry.also % index}`, `${prefix}${index}`, '0.75 mm²', entry.mm)
  })
}
