import type { Conductor, Half } from '../../resolve/loom.ts'
import { wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import { twoLegs } from '../queries/differential.ts'
import type { Rule, RuleContext } from '../rule.ts'

const port = {
  family: 'modular-8p8c',
  pins: Object.fromEntries(
    ['1', '2', '3', '6'].map((pin) => [
      pin,
      { kind: 'data' as const, standard: 'ethernet' as const, line: `L${pin}` },
    ]),
  ),
}

const example = (third: 'TP2' | 'TP1') =>
  wired({
    units: { switch: port, radio: port },
    runs: [
      ['switch.1', 'radio.1', { size: '0.22 mm²', pair: 'TP1' }],
      ['switch.2', 'radio.2', { size: '0.22 mm²', pair: third === 'TP2' ? 'TP1' : 'TP2' }],
      ['switch.3', 'radio.3', { size: '0.22 mm²', pair: third }],
      ['switch.6', 'radio.6', { size: '0.22 mm²', pair: 'TP2' }],
    ],
  })

const PAIRS = [
  ['1', '2'],
  ['3', '6'],
  ['4', '5'],
  ['7', '8'],
] as const

const isLan = (half: Half): boolean =>
  half.side === 'equipment' &&
  half.familyId.startsWith('modular-8p8c') &&
  [...half.pins.values()].some(({ does }) => does.kind === 'data' && does.standard === 'ethernet')

function wireAt({ paths }: RuleContext, half: Half, name: string): Conductor | undefined {
  const pin = half.pins.get(name)
  return pin && paths.nets.conductorsAt(pin)[0]
}

const farName = (conductor: Conductor, half: Half): string | undefined => {
  const near = conductor.from?.half === half.mate ? conductor.from : conductor.to
  const far = near === conductor.from ? conductor.to : conductor.from
  return far?.name
}

export const lanPairs: Rule = {
  id: 'lan-pairs',
  title: 'Network leads keep pins 1-2, 3-6, 4-5 and 7-8 on one pair each',
  family: 'data',
  level: 'warning',
  covers: ['D8'],
  reason:
    'A lead with split pairs rings out perfectly and still fails: each signal rides with half of another one, and crosstalk eats it at speed.',
  remedy: 'Terminate again by T568A or T568B, the same at both ends.',
  needs: 'pairs of the conductors, and ports described as "ethernet"',
  sources: ['TIA-568', 'cable-tester manuals on split pairs'],
  examples: { trips: example('TP1'), passes: example('TP2') },
  *check(context) {
    const told = new Set<string>()
    for (const half of context.loom.halves.filter(isLan)) {
      const judged = new Set(twoLegs(half).flatMap(({ hot, cold }) => [hot.name, cold.name]))
      for (const [one, two] of PAIRS) {
        const [a, b] = [wireAt(context, half, one), wireAt(context, half, two)]
        if (!a || !b || told.has(a.address)) continue
        const split = !judged.has(one) && (a.pair === undefined || a.pair !== b.pair)
        const ends = [farName(a, half), farName(b, half)]
        const crossed = !PAIRS.some(([x, y]) => x === ends[0] && y === ends[1])
        if (!split && !crossed) continue
        told.add(a.address)
        yield found({
          subject: `${half.address}.${one}`,
          what: split
            ? `Pins ${one} and ${two} of ${half.address} are not one twisted pair`
            : `Pins ${one} and ${two} of ${half.address} end at ${ends.join(' and ')}, which are no pair`,
          why: split
            ? `${a.id} rides on ${a.pair ?? 'no pair'} and ${b.id} on ${b.pair ?? 'no pair'}; continuity is perfect all the same.`
            : 'The far port drives and hears its pairs by pin number.',
          fix: 'Terminate again by T568A or T568B, the same at both ends.',
          facts: { pins: { value: `${one} ${two}` } },
          at: a.at,
          cause: `lan:${half.mate?.address ?? half.address}`,
          marks: [a.address, b.address],
        })
      }
    }
  },
}
