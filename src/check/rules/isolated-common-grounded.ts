import type { Half, Terminal } from '../../resolve/loom.ts'
import { throughFuses } from '../../solve/reach.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf } from '../outcome.ts'
import { conductorsOf } from '../queries/conductor-words.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (to: '3' | '4') => {
  const line = (name: 'A' | 'B', direction: 'in' | 'out') =>
    ({
      kind: 'data',
      standard: 'iec-61162-1',
      line: name,
      direction,
      port: 'position',
      isolated: true,
    }) as const
  return exampleLead({
    parts: [rowHousing(4)],
    equipment: [
      unitOf(
        'talker',
        socket('J1', 'row-4', {
          '1': line('A', 'out'),
          '2': line('B', 'out'),
          '3': { kind: 'signal-return', port: 'position', isolated: true, name: 'C' },
        }),
      ),
      unitOf(
        'listener',
        socket('J2', 'row-4', {
          '1': line('A', 'in'),
          '2': line('B', 'in'),
          '3': { kind: 'signal-return', port: 'position', isolated: true, name: 'C' },
          '4': { kind: 'return' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'talker.J1' },
        { id: 'P2', family: 'row-4', half: 'pin', fits: 'listener.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.25 mm²', pair: 'TP1' },
        { id: 'A02', from: 'P1.2', to: 'P2.2', size: '0.25 mm²', pair: 'TP1' },
        { id: 'A03', from: 'P1.3', to: `P2.${to}`, size: '0.25 mm²' },
      ],
    },
  })
}

const isIsolated = ({ does }: Terminal): boolean => 'isolated' in does && does.isolated === true

/**
 * Whether a pin is the common of an isolated data port. The emitter of an optocoupler output is isolated too, but is meant to
 * take the ground of whatever it switches.
 */
function isDataCommon(pin: Terminal): boolean {
  const { does, half } = pin
  if ((does.kind !== 'signal-return' && does.kind !== 'return') || !isIsolated(pin)) return false
  return dataPins(half).some((data) => isIsolated(data) && data.does.port === does.port)
}

const dataPins = (half: Half | undefined): readonly Terminal[] =>
  [...(half?.pins.values() ?? [])].filter((pin) => pin.does.kind === 'data')

function judge({ paths }: RuleContext, pin: Terminal): Outcome | undefined {
  const ground = paths.nets.groundAt(paths.nets.net(pin))
  if (!ground) return undefined
  const wires = conductorsOf(paths.between(pin, ground, throughFuses) ?? [])
  const [first] = wires
  const standard = dataPins(pin.half).flatMap(({ does }) => (does.kind === 'data' ? [does.standard] : []))[0]
  return found({
    subject: pin.address,
    what: `The isolated common ${pinWords(pin)} is tied to ground at ${ground.address}`,
    why: `${listOf([...new Set(wires.map(({ id }) => id))]) || 'A contact'} leads it there, and the isolation of the ${standard ?? 'data'} port is lost: the data lines see every volt between the two grounds.`,
    fix: `Take ${first?.id ?? 'it'} to the common (C) of the other end of the port, and nowhere else.`,
    facts: { common: { value: pin.address }, ground: { value: ground.address } },
    at: first?.at ?? pin.at,
    marks: [pin.address, ground.address, ...wires.map(({ address }) => address)],
  })
}

export const isolatedCommonGrounded: Rule = {
  id: 'isolated-common-grounded',
  title: 'The common of an isolated port keeps off ship or vehicle ground',
  family: 'grounding',
  level: 'warning',
  covers: ['G9'],
  reason:
    'A listener with an optocoupler is there so that two units with different grounds can talk. Its common tied to ground undoes that, and the first surge goes through the port.',
  remedy: 'A conductor of its own from common to common.',
  needs: 'which pins are isolated, and the ports they belong to',
  sources: [
    'IEC 61162-1 and IEC 60945, as quoted in installation manuals: C is not to be joined to ship ground',
  ],
  examples: { trips: example('4'), passes: example('3') },
  *check(context) {
    for (const pin of context.loom.terminals) {
      if (pin.on !== 'equipment' || !isDataCommon(pin)) continue
      const outcome = judge(context, pin)
      if (outcome) yield outcome
    }
  },
}
