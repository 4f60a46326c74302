import type { Loom, Terminal } from '../../resolve/loom.ts'
import { isBattery } from '../../solve/supply-paths.ts'
import { load, wired } from '../examples/wired.ts'
import { count, found, listOf } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const half = (port: string) => ({
  role: 'battery' as const,
  pins: {
    '1': {
      kind: 'supply-out' as const,
      port,
      volts: '12 V' as const,
      feed: 'switched' as const,
      maxAmps: '1 A' as const,
    },
    '2': { kind: 'return' as const, port },
  },
})

const example = (middle: boolean) =>
  wired({
    units: { lower: half('lower'), upper: half('upper'), radio: load('0.5 A') },
    components: [
      { id: 'F0', kind: 'fuse', rating: '5 A' },
      { id: 'F1', kind: 'fuse', rating: '2 A' },
    ],
    splices: ['SP1'],
    runs: [
      ['lower.1', 'F0.in', { size: '2.5 mm²', length: '0.05 m' }],
      ['F0.out', 'SP1', { size: '2.5 mm²', length: '0.05 m' }],
      ['SP1', 'upper.2', { size: '2.5 mm²', length: '0.05 m' }],
      [middle ? 'SP1' : 'upper.1', 'F1.in', { size: '2.5 mm²', length: '0.1 m' }],
      ['F1.out', 'radio.1', { size: '2.5 mm²' }],
      ['radio.2', 'lower.2', { size: '2.5 mm²' }],
    ],
  })

/** Battery plus pins whose circuit holds the minus of another battery: the middle of a bank. */
function middles(loom: Loom): readonly Terminal[] {
  return loom.terminals.filter((plus) => {
    if (plus.on !== 'equipment' || plus.does.kind !== 'supply-out' || !isBattery(plus)) return false
    const circuit = loom.circuits[loom.circuitOf[loom.netOf[plus.index] ?? -1] ?? -1]
    return (
      circuit?.terminals.some(
        (pin) =>
          pin.does.kind === 'return' &&
          pin.half?.unit !== plus.half?.unit &&
          pin.half?.unit?.halves.some((entry) => [...entry.pins.values()].some(isBattery)),
      ) ?? false
    )
  })
}

export const bankMiddleLoaded: Rule = {
  id: 'bank-middle-loaded',
  title: 'Nothing hangs on the middle of a 24 V bank',
  family: 'power',
  level: 'stop',
  covers: ['W17'],
  reason:
    'A load on one battery of a series pair discharges that one and overcharges the other. When an isolator in the earth lead opens, the load is fed backwards from the upper battery.',
  remedy: 'Feed 12 V equipment from a 24 V to 12 V converter across the whole bank.',
  needs: 'which units are batteries, and how they are joined',
  sources: ['isolator maker’s technical note on centre taps, as reported'],
  examples: { trips: example(true), passes: example(false) },
  *check({ loom, paths }) {
    for (const middle of middles(loom)) {
      const loads = paths.supply
        .tree(middle)
        .order.filter((pin) => pin.on === 'equipment' && pin.does.kind === 'supply-in')
      const first = loads[0]
      if (!first) continue
      yield found({
        subject: first.address,
        what: `${count(loads.length, 'load')} on the middle of the bank at ${middle.address}: ${listOf(loads.map((pin) => pin.address))}`,
        why: 'The lower battery alone feeds them and is never charged as the upper one is; with the earth lead open they are fed backwards.',
        fix: 'Feed them from a converter across the whole bank.',
        facts: { loads: { value: loads.length }, middle: { value: middle.address } },
        at: first.at,
        marks: [middle.address, ...loads.map((pin) => pin.address)],
      })
    }
  },
}
