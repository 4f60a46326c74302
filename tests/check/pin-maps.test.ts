import { expect, test } from 'vitest'
import { pinMaps } from '../../src/check/queries/pin-maps.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { Loom, Terminal, Unit } from '../../src/resolve/loom.ts'
import { walk } from '../../src/solve/reach.ts'
import { hall } from '../bench/make-shop.mjs'
import { resolved } from '../demos/demo-shop.ts'
import { resolveDocument } from './check-document.ts'

/** The same question answered pin by pin, one walk for each. */
function pinByPin(loom: Loom, fewest: number): string[] {
  const maps: string[] = []
  for (const half of loom.halves) {
    if (half.side !== 'equipment' || half.mates.length === 0) continue
    const byUnit = new Map<Unit, Map<Terminal, Terminal | undefined>>()
    for (const pin of half.pins.values()) {
      const { order } = walk(
        loom,
        pin,
        ({ kind }, from) =>
          (kind === 'conductor' || kind === 'mate') && (from === pin || from.on !== 'equipment'),
      )
      for (const other of order) {
        const unit = other.half?.unit
        if (other.on !== 'equipment' || !unit || unit === half.unit) continue
        const map = byUnit.get(unit) ?? new Map<Terminal, Terminal | undefined>()
        byUnit.set(unit, map.set(pin, map.has(pin) ? undefined : other))
      }
    }
    for (const [unit, found] of byUnit) {
      const leads = [...found].filter((entry): entry is [Terminal, Terminal] => entry[1] !== undefined)
      if (leads.length >= fewest) maps.push(written(half.address, unit.id, leads))
    }
  }
  return maps.sort()
}

const written = (half: string, unit: string, leads: readonly (readonly [Terminal, Terminal])[]): string =>
  `${half} to ${unit}: ${leads.map(([from, to]) => `${from.name}=${to.address}`).join(' ')}`

test.each([1, 2, 3, 5])('maps of %i pins and more are those that single walks give', (fewest) => {
  const looms = [...resolved.looms, ...resolveDocument(hall(60) as DocumentInput).looms]
  let count = 0
  for (const loom of looms) {
    const found = pinMaps(loom, fewest).map(({ half, unit, leads }) =>
      written(half.address, unit.id, [...leads]),
    )
    expect(found.sort()).toEqual(pinByPin(loom, fewest))
    count += found.length
  }
  expect(count).toBeGreaterThan(fewest < 5 ? 20 : 5)
})
