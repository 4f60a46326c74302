import { formatAmps, formatOhms } from '../../base/format-quantity.ts'
import type { Conductor, Link, Terminal } from '../../resolve/loom.ts'
import { throughFuses } from '../../solve/reach.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf, unknown } from '../outcome.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const bodyWire = (id: string, from: 'P1.4' | 'P2.4', to: 'P3.1' | 'P3.2') =>
  ({ id, from, to, size: '1.5 mm²', length: '1 m' }) as const

const example = (isLifted: boolean) =>
  exampleLead({
    parts: [rowHousing(4), rowHousing(2)],
    equipment: [
      ...['desk', 'recorder'].map((id) => ({
        ...unitOf(
          id,
          socket('J1', 'row-4', {
            '1': { kind: id === 'desk' ? 'audio-out' : 'audio-in', level: 'line', leg: 'hot', port: 'A' },
            '2': { kind: 'signal-return', port: 'A' },
            '3': { kind: 'shield', name: 'SCREEN' },
            '4': { kind: 'chassis', name: 'CASE' },
          }),
        ),
        joins: [{ pins: ['J1.3' as const, 'J1.4' as const] }],
      })),
      {
        ...unitOf(
          'rack',
          socket('J2', 'row-2', {
            '1': { kind: 'chassis', name: 'BAR' },
            '2': { kind: 'chassis', name: 'BAR' },
          }),
        ),
        joins: [{ pins: ['J2.1', 'J2.2'] }],
      },
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'desk.J1', zone: 'left' },
        { id: 'P2', family: 'row-4', half: 'pin', fits: 'recorder.J1', zone: 'right' },
        { id: 'P3', family: 'row-2', half: 'pin', fits: 'rack.J2' },
      ],
      wires: [bodyWire('A01', 'P1.4', 'P3.1'), bodyWire('A02', 'P2.4', 'P3.2')],
      cables: [
        {
          id: 'W1',
          part: 'screened-1x2x0.22',
          length: '2 m',
          cores: [
            { core: '1a', from: 'P1.1', to: 'P2.1' },
            { core: '1b', from: 'P1.2', to: 'P2.2' },
          ],
          shields: [{ shield: 'screen', from: 'P1.3', ...(isLifted ? {} : { to: 'P2.3' as const }) }],
        },
      ],
    },
  })

/** A difference between two grounds that is found in any vehicle or building, in V, to show what a loop carries. */
const GROUND_VOLTS = 0.01

type Screen = Conductor & { readonly from: Terminal; readonly to: Terminal }

const isRadioFrequency = ({ half }: Terminal): boolean =>
  [...(half?.pins.values() ?? [])].some(({ does }) => does.kind === 'rf')

/** A screen with both ends landed and no reason given. The outer of a coaxial cable is a conductor and not a screen. */
function isLandedTwice(conductor: Conductor): conductor is Screen {
  const { kind, from, to, cable, source } = conductor
  if (kind !== 'shield' || !from || !to || from === to) return false
  if (cable?.part?.use === 'coax' || isRadioFrequency(from) || isRadioFrequency(to)) return false
  return !('bothEnds' in source && source.bothEnds)
}

/** The way from one end of a screen to the other outside its own cable. */
function wayRound({ paths }: RuleContext, { cable, from, to }: Screen): readonly Link[] | undefined {
  return paths.between(
    from,
    to,
    (link, at) => throughFuses(link, at) && (cable === undefined || link.conductor?.cable !== cable),
  )
}

/** The grounds passed on the way, in order: pins of equipment that are chassis or supply return. */
function groundsOn(links: readonly Link[]): readonly string[] {
  const pins = links.flatMap(({ a, b }) => [a, b])
  const grounds = pins.filter(
    ({ on, does }) => on === 'equipment' && (does.kind === 'chassis' || does.kind === 'return'),
  )
  return [...new Set(grounds.map(({ address }) => address))]
}

function loop(context: RuleContext, screen: Screen, links: readonly Link[]): Outcome {
  const { from, to, cable } = screen
  const own = context.loom.links.find((link) => link.conductor === screen)
  const ohms = own && context.solution.linkOhms[own.index]?.ohms
  const grounds = groundsOn(links)
  const wires = links.flatMap((link) => (link.conductor ? [link.conductor.id] : []))
  const current =
    ohms === undefined
      ? ''
      : ` At ${formatOhms(ohms)}, 10 mV between the grounds already drive ${formatAmps(GROUND_VOLTS / ohms)} through it.`
  return found({
    subject: screen.address,
    what: `The screen ${screen.id}${cable ? ` of ${cable.id}` : ''} is grounded at both ends, ${from.address} and ${to.address}, and closes a loop`,
    why: `The grounds of the two meet without it: ${listOf(grounds, 8)}${
      wires.length > 0 ? `, by ${listOf(wires)}` : ''
    }.${current} It comes out as hum, alternator whine or data errors.`,
    fix: `Land it at ${from.address} only, and cut it back and sleeve it at ${to.address}; if both ends are meant, give the reason as “bothEnds”.`,
    facts: {
      nearEnd: { value: from.address },
      farEnd: { value: to.address },
      ...(ohms === undefined ? {} : { screen: { value: ohms, unit: 'Ω' } }),
    },
    at: screen.at,
    marks: [screen.address, from.address, to.address],
  })
}

/** The pin of the equipment a screen lands on. */
function landing({ paths }: RuleContext, end: Terminal): Terminal | undefined {
  return end.on === 'equipment' ? end : paths.nets.matesOf(end)[0]
}

function judge(context: RuleContext, screen: Screen): Outcome | undefined {
  const { from, to } = screen
  const links = wayRound(context, screen)
  if (links && groundsOn(links).length > 0) return loop(context, screen, links)
  const [near, far] = [landing(context, from), landing(context, to)]
  const isOpen = context.loom.kind === 'harness' && [near, far].every((pin) => pin?.does.kind === 'chassis')
  if (!isOpen || near?.half?.unit === far?.half?.unit) return undefined
  return unknown(
    screen.address,
    `needs an installation that shows how ${near?.half?.unit?.id} and ${far?.half?.unit?.id} are grounded`,
    screen.at,
  )
}

export const screenBothEnds: Rule = {
  id: 'screen-both-ends',
  title: 'A screen landed at both ends between two grounds is chosen, not an accident',
  family: 'grounding',
  level: 'warning',
  covers: ['G2'],
  reason:
    'Two grounds are never at the same voltage. A screen that joins them carries the difference as a current, all along the signal it is to protect. Some systems want that, and then somebody says so.',
  remedy: 'Land the screen at one end, or state why it is landed at both.',
  needs: 'where the screen lands, and how both units are grounded',
  sources: ['RaneNote 151', 'common practice; kit made to AES48 may choose both ends'],
  examples: { trips: example(false), passes: example(true) },
  *check(context) {
    if (context.loom.settings.shields === 'both-ends') return
    for (const conductor of context.loom.conductors) {
      const outcome = isLandedTwice(conductor) ? judge(context, conductor) : undefined
      if (outcome) yield outcome
    }
  },
}
