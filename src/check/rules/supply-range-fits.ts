import { formatVolts } from '../../base/format-quantity.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (cranking: '6.5 V' | '9.5 V') =>
  wired({
    units: {
      supply: cell({ volts: '12..14.4 V', cranking }),
      tracker: load('1 A', { volts: '9..15.6 V', survivesCranking: true }),
    },
    components: [{ id: 'F1', kind: 'fuse', rating: '2 A' }],
    runs: [
      ['supply.1', 'F1.in', { size: '1 mm²', length: '0.1 m' }],
      ['F1.out', 'tracker.1', { size: '1 mm²' }],
      ['tracker.2', 'supply.2', { size: '1 mm²' }],
    ],
  })

export const supplyRangeFits: Rule = {
  id: 'supply-range-fits',
  title: 'A load works down to the lowest voltage of its supply',
  family: 'power',
  level: 'warning',
  covers: ['W16'],
  reason:
    'A supply sags to 6 or 7 V while an engine starts. Equipment that needs more resets just then: a tracker loses its position, a radio its call.',
  remedy: 'Equipment with the wider range, or a supply that holds up while the engine cranks.',
  needs: 'the voltage ranges of supplies and loads, and "cranking" of the supply',
  sources: ['truck converter guides, as reported', 'common practice'],
  examples: { trips: example('6.5 V'), passes: example('9.5 V') },
  *check({ loom, paths }) {
    for (const load of loom.terminals) {
      const { does } = load
      if (load.on !== 'equipment' || does.kind !== 'supply-in' || !does.volts) continue
      for (const { source } of paths.supply.supplies(load)) {
        const supply = source.does
        if (supply.kind !== 'supply-out' || !supply.volts) continue
        const sags = does.survivesCranking === true && supply.cranking !== undefined
        const lowest = sags
          ? Math.min(supply.volts.min, supply.cranking ?? supply.volts.min)
          : supply.volts.min
        if (lowest >= does.volts.min) continue
        const cranks = lowest < supply.volts.min
        yield found({
          subject: load.address,
          what: `${load.address} works from ${formatVolts(does.volts.min)} up and gets ${formatVolts(lowest)}${cranks ? ' while the engine cranks' : ''}`,
          why: `${source.address} falls ${formatVolts(does.volts.min - lowest)} below what it needs, before any loss in the wires.`,
          fix: 'Use a supply that holds up, or equipment with a lower limit.',
          facts: {
            source: { value: source.address },
            lowest: { value: lowest, unit: 'V' },
            limit: { value: does.volts.min, unit: 'V' },
          },
          at: load.at,
          marks: [load.address, source.address],
        })
        break
      }
    }
  },
}
