import type { CableUse } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (isBonded: boolean) =>
  exampleLead({
    parts: [rowHousing(3)],
    equipment: [
      unitOf(
        'mixer',
        socket('J1', 'row-3', {
          '1': { kind: 'audio-in', level: 'line', leg: 'single', port: 'IN' },
          '2': { kind: 'signal-return', port: 'IN' },
          '3': { kind: 'chassis', name: 'CASE' },
        }),
      ),
      unitOf(
        'player',
        socket('J2', 'row-3', {
          '1': { kind: 'audio-out', level: 'line', leg: 'single', port: 'OUT' },
          '2': { kind: 'signal-return', port: 'OUT' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-3', half: 'pin', fits: 'mixer.J1' },
        { id: 'P2', family: 'row-3', half: 'pin', fits: 'player.J2' },
      ],
      cables: [
        {
          id: 'W1',
          part: 'screened-1x2x0.22',
          length: '2 m',
          cores: [
            { core: '1a', from: 'P1.1', to: 'P2.1' },
            { core: '1b', from: 'P1.2', to: 'P2.2' },
          ],
          shields: isBonded ? [{ shield: 'screen', from: 'P1.3' }] : [],
        },
      ],
    },
  })

/** Where a screen could land: ends of the cable whose equipment has a pin for it. */
function landings(cable: CableUse): readonly string[] {
  const halves = new Set(cable.conductors.flatMap(({ from, to }) => [from?.half, to?.half]))
  return [...halves].flatMap((half) => {
    const pin = [...(half?.pins.values() ?? [])].find(
      ({ does }) => does.kind === 'chassis' || does.kind === 'shield',
    )
    return pin ? [pin.address] : []
  })
}

function floating(cable: CableUse, shield: string): Outcome {
  const [place] = landings(cable)
  return found({
    subject: cable.address,
    what: `The ${shield} of ${cable.id} is landed at neither end`,
    why: 'A screen that floats takes up the field and hands it on to every core: no better than none, and often worse.',
    ...(place ? {} : { level: 'note' as const }),
    fix: place
      ? `Land it at ${place}, and cut it back at the other end.`
      : 'Neither end has a pin for it: bring it out to the case at one end, or use a cable without a screen.',
    facts: { cable: { value: cable.address }, shield: { value: shield } },
    at: cable.at,
    marks: [cable.address],
  })
}

export const screenBonded: Rule = {
  id: 'screen-bonded',
  title: 'Every screen is bonded at least once',
  family: 'grounding',
  level: 'warning',
  covers: ['G1'],
  reason:
    'A screen works by carrying what it catches to ground. One that is cut back at both ends floats with the field and couples it into all cores.',
  remedy: 'Land it on the case at one end or at both, as the shop decides.',
  needs: 'the screens of the cable, and where each lands',
  sources: ['RaneNote 151', 'common practice'],
  examples: { trips: example(false), passes: example(true) },
  *check({ loom }) {
    for (const { cables } of loom.looms)
      for (const cable of cables)
        for (const { name } of cable.part?.shields ?? []) {
          const landed = cable.conductors.some(
            ({ kind, core, from, to }) => kind === 'shield' && core === name && (from ?? to) !== undefined,
          )
          if (!landed) yield floating(cable, name)
        }
  },
}
