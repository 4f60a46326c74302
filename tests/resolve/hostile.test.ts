import fc from 'fast-check'
import { expect, test } from 'vitest'
import { document } from '../../src/describe/document.ts'
import { makePaths } from '../../src/solve/paths.ts'
import { solve } from '../../src/solve/solve.ts'
import { pickup } from '../solve/pickup.ts'
import { resolved } from './shop-of.ts'

type Json = string | number | boolean | null | Json[] | { [key: string]: Json }

/** Every place of a document that holds text. */
function texts(value: Json, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value === 'string') return [path]
  if (Array.isArray(value)) return value.flatMap((entry, index) => texts(entry, [...path, index]))
  if (value && typeof value === 'object')
    return Object.entries(value).flatMap(([key, entry]) => texts(entry, [...path, key]))
  return []
}

function replace(value: Json, path: readonly (string | number)[], text: string): Json {
  const [key, ...rest] = path
  if (key === undefined) return text
  if (Array.isArray(value))
    return value.map((entry, index) => (index === key ? replace(entry, rest, text) : entry))
  const record = value as { [key: string]: Json }
  return { ...record, [key]: replace(record[key] ?? null, rest, text) }
}

const nasty = [
  '__proto__',
  'constructor',
  'toString',
  '',
  '.',
  'P1.',
  '.1',
  'P1.__proto__',
  'radio.J1.1.1',
  '0 A',
  '0 Ω',
  '0 mm',
]

test('whatever passes the schema is resolved, solved and questioned without a throw', () => {
  const sound = JSON.parse(JSON.stringify(pickup())) as Json
  const places = texts(sound)
  const words = [...new Set(places.map((path) => read(sound, path))), ...nasty]
  let used = 0
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.constantFrom(...places), fc.constantFrom(...words)), {
        minLength: 1,
        maxLength: 6,
      }),
      (slips) => {
        const changed = slips.reduce((doc, [path, word]) => replace(doc, path, word), sound)
        if (!document.safeParse({ loomwright: 1, ...(changed as object) }).success) return
        used++
        const { looms, findings } = resolved(changed as ReturnType<typeof pickup>)
        for (const finding of findings) expect(finding.what).not.toMatch(/undefined|NaN|\[object/)
        for (const loom of looms) {
          const solution = solve(loom)
          expect(solution.states).toHaveLength(loom.states.length)
          expect(solution.drains.length + solution.speakers.length).toBeGreaterThanOrEqual(0)
          const paths = makePaths(loom)
          for (const terminal of loom.terminals) {
            paths.highestVolts(terminal)
            paths.supply.supplies(terminal)
            paths.nets.otherLeg(terminal)
          }
          for (const source of paths.supply.sources) paths.supply.unfused(source)
        }
      },
    ),
    { numRuns: 1500 },
  )
  // Most single slips still pass the schema; if they stopped doing so this test would test nothing.
  expect(used).toBeGreaterThan(150)
})

function read(value: Json, path: readonly (string | number)[]): string {
  let at = value
  for (const key of path) at = (at as { [key: string | number]: Json })[key] ?? null
  return String(at)
}
