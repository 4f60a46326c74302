import type { Conductor, Terminal } from '../../resolve/loom.ts'
import { throughMetal } from '../../solve/reach.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found } from '../outcome.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (to: 'P1.2' | 'P1.3') =>
  exampleLead({
    parts: [rowHousing(3, { manyWires: true })],
    equipment: [
      unitOf(
        'mixer',
        socket('J1', 'row-3', {
          '1': { kind: 'audio-in', level: 'line', leg: 'single', port: 'IN' },
          '2': { kind: 'signal-return', name: 'IN 0V', port: 'IN' },
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
          shields: [{ shield: 'screen', from: to }],
        },
      ],
    },
  })

/** Pins of equipment that one end of a screen reaches without the screen itself, nearest first. */
function reached({ paths }: RuleContext, screen: Conductor, end: Terminal): readonly Terminal[] {
  const tree = paths.from(end, (link, from) => link.conductor !== screen && throughMetal(link, from))
  return tree.order.filter(({ on }) => on === 'equipment')
}

function misplaced(screen: Conductor, end: Terminal, pin: Terminal, chassis: Terminal): Outcome {
  return found({
    subject: screen.address,
    what: `The screen ${screen.id} lands on signal 0 V, ${pinWords(pin)}`,
    why: `What the screen picks up runs through the board to the case, and comes out in the audio. ${chassis.address} is the case, in the same connector.`,
    fix: `Take it off ${end.address} and land it on the contact for ${chassis.address}.`,
    facts: { landing: { value: pin.address }, chassis: { value: chassis.address } },
    at: screen.at,
    marks: [screen.address, pin.address, chassis.address],
  })
}

function judge(context: RuleContext, screen: Conductor, end: Terminal): Outcome | undefined {
  const [pin, ...others] = reached(context, screen, end)
  // Where no other conductor goes back to the far unit the screen is the return, and belongs there.
  if (pin?.does.kind !== 'signal-return' || others.every(({ half }) => half?.unit === pin.half?.unit))
    return undefined
  const pins = [...(pin.half?.pins.values() ?? [])]
  const chassis =
    pins.find(({ does }) => does.kind === 'shield') ?? pins.find(({ does }) => does.kind === 'chassis')
  return chassis && misplaced(screen, end, pin, chassis)
}

export const screenOnChassis: Rule = {
  id: 'screen-on-chassis',
  title: 'A screen lands on the chassis, not on signal 0 V',
  family: 'grounding',
  level: 'warning',
  covers: ['G3'],
  reason:
    'A screen that ends on signal 0 V brings what it has caught into the board it is to protect. On the case, at the entry, the same current goes round the outside.',
  remedy: 'Land the screen on the shell, the chassis lug or the pin for the screen.',
  needs: 'where the screen lands, and which pin of that connector is the chassis',
  sources: ['AES48, as reported', 'common practice'],
  examples: { trips: example('P1.2'), passes: example('P1.3') },
  *check(context) {
    for (const conductor of context.loom.conductors) {
      if (conductor.kind !== 'shield' || conductor.cable?.part?.use === 'coax') continue
      for (const end of [conductor.from, conductor.to]) {
        const outcome = end && judge(context, conductor, end)
        if (outcome) yield outcome
      }
    }
  },
}
