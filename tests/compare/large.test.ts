import { expect, test } from 'vitest'
import { compare } from '../../src/compare/compare.ts'
import type { Revision } from '../../src/compare/revision.ts'
import { headline } from '../../src/compare/sentences.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'
import { solve } from '../../src/solve/solve.ts'
import type { Data } from './revisions.ts'

/** A hall with `count` wires: a feed, a return and a signal wire for each of many lamps. */
function hall(count: number, name: (id: string) => string = (id) => id): Data {
  const lamps = Array.from({ length: Math.floor(count / 3) }, (_, n) => n)
  return {
    equipment: [
      {
        id: 'cell',
        title: 'Battery',
        connectors: [
          { id: 'P', family: 'stud-m8', pins: { 1: { kind: 'supply-out', volts: '24 V', battery: true } } },
          { id: 'N', family: 'stud-m8', pins: { 1: { kind: 'return' } } },
        ],
      },
      {
        id: 'lamp',
        title: 'Lamp',
        connectors: [
          {
            id: 'J',
            family: 'rect-2',
            half: 'pin',
            pins: { 1: { kind: 'supply-in', amps: '0.02 A' }, 2: { kind: 'return' } },
          },
        ],
      },
    ],
    harnesses: [
      {
        id: 'hall',
        title: 'Hall',
        connectors: [
          { id: 'R1', family: 'ring-m8', fits: 'cell.P' },
          { id: 'R2', family: 'ring-m8', fits: 'cell.N' },
          ...lamps.map((n) => ({
            id: name(`P${n}`),
            family: 'rect-2',
            half: 'socket' as const,
            fits: 'lamp.J',
          })),
        ],
        splices: lamps.map((n) => ({ id: `S${n}` })),
        wires: lamps.flatMap((n) => [
          {
            id: `F${n}`,
            from: n % 50 === 0 ? 'R1.1' : `S${n - 1}`,
            to: `S${n}`,
            size: '2.5 mm²',
            length: '1 m',
          },
          { id: `B${n}`, from: `${name(`P${n}`)}.2`, to: 'R2.1', size: '1.5 mm²', length: '2 m' },
          { id: `L${n}`, from: `S${n}`, to: `${name(`P${n}`)}.1`, size: '0.75 mm²', length: '0.5 m' },
        ]),
      },
    ],
  }
}

/** Resolved and solved; findings are compared by their names, which takes no time next to the wires. */
function read(data: Data): Revision {
  const { shop } = describeShop([{ name: 'hall.json', data: { loomwright: 1, ...data } }], [])
  const looms = resolveShop(shop).looms.map((loom) => ({ loom, solution: solve(loom) }))
  return {
    shop,
    looms,
    result: { findings: [], notChecked: [], waived: [], heldBack: [], questions: [], rulesRun: [] },
  }
}

test('3,000 wires are compared, one change among them; then with every connector renamed', () => {
  const before = read(hall(3000))
  const changed = hall(3000)
  Object.assign(changed.harnesses?.[0]?.wires?.[100] ?? {}, { size: '1 mm²' })
  const after = read(changed)
  const renamed = read(hall(3000, (id) => `X${id}`))
  const started = performance.now()
  expect(headline(compare(before, after))).toMatch(/^Conductors: 1 changed/)
  const between = performance.now()
  const names = compare(before, renamed).subjects.flatMap((subject) => subject.things)
  const ended = performance.now()
  expect(names.filter(({ was }) => was !== undefined)).toHaveLength(1000)
  expect(names.filter(({ moves }) => moves.length > 0)).toEqual([])
  console.info(
    `3,000 wires compared in ${Math.round(between - started)} ms; with 1,000 connectors renamed in ${Math.round(ended - between)} ms`,
  )
})
