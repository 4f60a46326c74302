import { formatVolts } from '../../base/format-quantity.ts'
import type { Half, Loom, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import type { Asking, Question } from '../question.ts'
import type { RuleContext } from '../rule.ts'

const example = (answer: 'yes' | 'no') =>
  exampleLead({
    parts: [rowHousing(3)],
    equipment: [
      unitOf('head', {
        ...socket('J1', 'row-3', {
          '1': { kind: 'supply-out', port: 'dc', volts: '12 V', maxAmps: '0.1 A' },
          '2': { kind: 'return', port: 'dc' },
          '3': { kind: 'audio-in', level: 'mic', leg: 'single', element: 'dynamic' },
        }),
        hotPlug: true,
      }),
      unitOf(
        'handset',
        socket('J2', 'row-3', {
          '1': { kind: 'supply-in', port: 'dc', amps: '0.05 A' },
          '2': { kind: 'return', port: 'dc' },
          '3': { kind: 'audio-out', level: 'mic', leg: 'single', element: 'dynamic' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-3', half: 'pin', fits: 'head.J1' },
        { id: 'P2', family: 'row-3', half: 'pin', fits: 'handset.J2' },
      ],
      components: [{ id: 'F1', kind: 'fuse', rating: '0.5 A' }],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'F1.in', size: '0.22 mm²', length: '0.1 m' },
        { id: 'A02', from: 'F1.out', to: 'P2.1', size: '0.22 mm²', length: '1 m' },
        { id: 'A03', from: 'P1.2', to: 'P2.2', size: '0.22 mm²', length: '1 m' },
        { id: 'A04', from: 'P1.3', to: 'P2.3', size: '0.22 mm²', length: '1 m' },
      ],
    },
    more: {
      installations: [
        {
          id: 'desk',
          title: 'Example desk',
          setting: 'building',
          units: [
            { id: 'head', of: 'head' },
            { id: 'handset', of: 'handset' },
          ],
          looms: [{ id: 'lead', of: 'lead' }],
          answers: [{ question: 'live-plug-ground-first', answer, by: 'M. Teal', date: '2026-03-09' }],
        },
      ],
    },
  })

/** Below this nothing is harmed whatever makes first. */
const LEAST_VOLTS = 5
const SIGNALS: ReadonlySet<string> = new Set([
  'audio-in',
  'audio-out',
  'data',
  'switch-in',
  'switch-out',
  'sense',
])
const GROUNDS: ReadonlySet<string> = new Set(['return', 'signal-return', 'chassis', 'shield'])
/** Plugs a user pulls without a tool, where nobody has said whether that happens live. */
const BY_HAND: ReadonlySet<string> = new Set(['modular', 'jack'])

const isPlugged = (half: Half): boolean => {
  if (half.side !== 'equipment' || half.mates.length === 0 || !('hotPlug' in half.source || half.family))
    return false
  const stated = 'hotPlug' in half.source ? half.source.hotPlug : undefined
  return stated ?? BY_HAND.has(half.family?.style ?? '')
}

/** A ground that surely makes first: the family says so of its pin. */
const groundFirst = (half: Half, wired: readonly Terminal[]): boolean =>
  wired.some(({ name, does }) => GROUNDS.has(does.kind) && half.family?.firstMate?.includes(name))

/** The pin with the most volts, where some signal pin of the same plug would see them without a ground. */
function liveBesideSignal(
  { paths }: RuleContext,
  wired: readonly Terminal[],
): { pin: Terminal; volts: number } | undefined {
  if (!wired.some(({ does }) => SIGNALS.has(does.kind))) return undefined
  const live = wired
    .filter(({ does }) => does.kind === 'supply-out' || does.kind === 'supply-in')
    .map((pin) => ({ pin, volts: paths.highestVolts(pin)?.volts ?? 0 }))
    .sort((a, b) => b.volts - a.volts)[0]
  return live && live.volts >= LEAST_VOLTS ? live : undefined
}

/** Equal connectors of equal units are asked about once. */
const typeOf = (half: Half): string => `${half.unit?.equipment.id}.${half.id}`

function alikeIn(loom: Loom, half: Half): number {
  return loom.halves.filter(
    (one) => one.side === 'equipment' && one.mates.length > 0 && typeOf(one) === typeOf(half),
  ).length
}

export const livePlugGroundFirst: Question = {
  id: 'live-plug-ground-first',
  title: 'A joint plugged live makes its ground first, or says power off first',
  family: 'mating',
  level: 'warning',
  covers: ['M8'],
  text: 'Does the ground of this plug make first and break last, or does its label say “power off first”?',
  moment: 'signals',
  reason:
    'While plus is in and ground is not, the whole supply drives through the signal pins: the input of the other unit becomes its return for as long as the plug is half in.',
  remedy:
    'A connector whose ground pin or shell makes first, a switch before the plug, or a label: power off first.',
  applies:
    'each joint with supply and signals together that is stated as plugged live ("hotPlug"), or is a jack or modular plug of which nothing is stated; not where the family has a ground that makes first',
  sources: ['common practice'],
  examples: { trips: example('no'), passes: example('yes') },
  *asked(context): Iterable<Asking> {
    const { loom, paths } = context
    const told = new Set<string>()
    for (const half of loom.halves) {
      if (!isPlugged(half) || told.has(typeOf(half))) continue
      const wired = [...half.pins.values()].filter((pin) => paths.nets.matesOf(pin).length > 0)
      const live = liveBesideSignal(context, wired)
      if (!live || groundFirst(half, wired)) continue
      told.add(typeOf(half))
      const alike = alikeIn(loom, half)
      yield {
        subject: half.address,
        text: `Is ${half.address}${alike > 1 ? ` (and ${alike - 1} alike)` : ''} plugged only with power off, as its label says, or does its ground make first?`,
        why: `${formatVolts(live.volts)} stands on ${live.pin.address} beside signal pins, and nothing says that a ground of ${half.familyId} makes before them.`,
        facts: { volts: { value: live.volts, unit: 'V' } },
        marks: [half.address],
        at: half.at,
      }
    }
  },
}
