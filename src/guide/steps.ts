import { formatAmps, formatCelsius, formatLength } from '../base/format-quantity.ts'
import { sortNaturally } from '../base/natural-order.ts'
import type { ComponentUse, Loom, LoomUse, Unit } from '../resolve/loom.ts'
import { groupBy } from '../sheets/group-by.ts'
import { halfName, pinName } from '../sheets/names.ts'
import type { Solution } from '../solve/solution.ts'
import { connectOrder, type Joining, joiningText, type Turn } from './connect-order.ts'
import { howToJoin } from './how-to-join.ts'
import type { PhaseId } from './phases.ts'

/** One thing to do, on one line. */
export interface GuideStep {
  readonly text: string
  /** Address of what it is about, for a link and a picture. */
  readonly address?: string
}

const step = (text: string, address?: string): GuideStep => ({
  text,
  ...(address === undefined ? {} : { address }),
})

/** The general steps of an installation by phase. */
export function stepsOf(
  loom: Loom,
  solution: Solution | undefined,
): ReadonlyMap<PhaseId, readonly GuideStep[]> {
  const order = connectOrder(loom)
  const turn = (wanted: Turn) => order.filter((one) => one.turn === wanted)
  return new Map<PhaseId, readonly GuideStep[]>([
    ['prepare', prepareSteps(loom)],
    ['isolate', isolateSteps(loom)],
    ['open-up', openUpSteps(loom)],
    ['mount', loom.units.filter(isMounted).map(mountStep)],
    ['antenna', antennaSteps(turn('antenna'))],
    ['route', [...loom.looms.flatMap((use) => routeSteps(loom, use)), ...clipSteps(loom)]],
    ['ground', groundSteps(loom, turn('ground'))],
    ['loads', turn('loads').map(joinStep)],
    ['signals', [...turn('signals').map(joinStep), ...freeEnds(loom)]],
    ['supply', supplySteps(loom, order)],
    ['power-up', powerUpSteps(loom, solution)],
    ['test', testSteps(loom, solution)],
    ['refit', [step('Trim back, every clip home. Nothing rattles, rubs or hangs.')]],
    ['hand-over', handOverSteps()],
  ])
}

function prepareSteps(loom: Loom): GuideStep[] {
  const looms = loom.looms.map(
    (use) => `${use.id}${use.harness.revision ? ` rev ${use.harness.revision}` : ''}`,
  )
  return [
    step('Photograph the place as you find it: dents, warning lamps, fault codes, odometer or hours.'),
    step(
      `Hold the label of each loom against this paper: ${looms.join(', ') || 'no loom'}. If revision or match code differs, stop.`,
    ),
    step('Agree the positions of controls, loudspeakers and antenna with the person who will use them.'),
  ]
}

function isolateSteps(loom: Loom): GuideStep[] {
  const batteries = loom.units.filter((unit) => unit.equipment.role === 'battery')
  if (batteries.length === 0)
    return [step('Switch the supply off where it is fed, lock or label it, and prove it dead with a meter.')]
  return [
    step('Write down radio codes and settings that are lost without supply.'),
    ...batteries.map((unit) =>
      step(`Take the negative off ${unitName(unit)} first, and keep it off.`, unit.id),
    ),
    step('Take every fuse of the new loom out, and keep them in your pocket.'),
    step('Prove dead with a meter: no volts between the positive lead and the chassis or negative bar.'),
  ]
}

const openUpSteps = (loom: Loom): GuideStep[] =>
  loom.setting === 'vehicle' || loom.setting === 'boat'
    ? [step('Remove trim along the route. Bag and label the fixings.')]
    : []

/** What is already there, or is only a place for a lead, is not mounted. */
const isMounted = ({ equipment }: Unit): boolean =>
  equipment.role !== 'battery' && equipment.role !== 'chassis' && equipment.role !== 'antenna'

const unitName = (unit: Unit): string => (unit.title === unit.id ? unit.id : `${unit.id} (${unit.title})`)

const mountStep = (unit: Unit): GuideStep =>
  step(
    `Mount ${unitName(unit)}${unit.zone ? `, place: ${unit.zone}` : ''}. Try the plugs before the last screw.`,
    unit.id,
  )

function antennaSteps(joins: readonly Joining[]): GuideStep[] {
  if (joins.length === 0) return []
  return [
    step('Run the coax before the loom: no kink, no crush, the bend no tighter than the cable allows.'),
    step(
      'Check each coax plug with a meter before it is joined: centre to centre closed, centre to braid open.',
    ),
    ...joins.map(joinStep),
  ]
}

function routeSteps(loom: Loom, use: LoomUse): GuideStep[] {
  const zones = 'zones' in loom.source ? (loom.source.zones ?? []) : []
  const named = new Set(
    [
      ...use.halves.map((half) => half.zone),
      ...loom.conductors.filter((c) => c.loom === use).map((c) => c.zone),
    ].filter((zone) => zone !== undefined),
  )
  const hot = zones.filter((zone) => named.has(zone.id))
  return [
    step(
      `Lay ${use.harness.title} (${use.id}) along the route before you fix anything: every plug must reach its place with slack for two new ends.`,
    ),
    ...hot.map((zone) => {
      const words = [
        zone.hottest === undefined ? '' : `up to ${formatCelsius(zone.hottest)}`,
        zone.wet ? 'wet' : '',
        zone.salt ? 'salt' : '',
        zone.vibration ? 'vibration' : '',
      ].filter((text) => text !== '')
      return step(
        `Through ${zone.id}${words.length > 0 ? ` (${words.join(', ')})` : ''}: sleeve it and keep it off hot, sharp and moving parts.`,
      )
    }),
    ...use.cables.flatMap((cable) =>
      cable.source.bend === undefined
        ? []
        : [
            step(
              `${cable.id}: tightest bend on this route ${formatLength(cable.source.bend)} inside radius.`,
              cable.address,
            ),
          ],
    ),
  ]
}

const clipSteps = (loom: Loom): GuideStep[] =>
  loom.looms.length === 0
    ? []
    : [
        step(
          'A grommet in every hole. Clip so that nothing can rub, within a hand’s width of each plug. Keep signal and coax apart from power where they run side by side.',
        ),
      ]

/** Guidance differs, so the shop decides; what it decided is printed where the ring is fitted. */
const WASHERS = {
  forbid: 'No toothed washer under a ring: flat washer, ring, spring washer, nut.',
  allow:
    'One toothed washer between metal and ring where the shop allows it, teeth into bright metal; grease over.',
} as const

function groundSteps(loom: Loom, joins: readonly Joining[]): GuideStep[] {
  const grounds = joins.filter((one) => !one.batteryNegative)
  if (grounds.length === 0) return []
  const byStud = groupBy(grounds, (one) => halfName(one.onto))
  return [
    step(
      'Each ground on bare metal: clean, bright, then protected. Never on paint, a hinge or a moving panel.',
    ),
    step(WASHERS[loom.settings.starWashers]),
    ...[...byStud].flatMap(([stud, rings]) =>
      rings.length > 1
        ? [
            step(
              `${stud}: ${sortNaturally(
                rings.map((one) => halfName(one.plug)),
                (name) => name,
              ).join(', ')} together, thickest ring at the bottom; torque as the stud’s maker says.`,
              rings[0]?.onto.address,
            ),
          ]
        : rings.map((one) => step(`${joiningText(one)}. Torque as the stud’s maker says.`, one.plug.address)),
    ),
    step('Measure each ground to the battery’s negative lead: below 0.1 Ω.'),
  ]
}

const joinStep = (joining: Joining): GuideStep =>
  step(`${joiningText(joining)}. ${howToJoin(joining)}`, joining.plug.address)

/** Plugs that mate with nothing here are capped, or they find something by themselves. */
function freeEnds(loom: Loom): GuideStep[] {
  const free = loom.looms.flatMap((use) => use.halves).filter((half) => !half.mate)
  return free.map((half) =>
    step(`${halfName(half)} stays free: cap it, label it, tie it back.`, half.address),
  )
}

function supplySteps(loom: Loom, order: readonly Joining[]): GuideStep[] {
  const fuses = loom.components.filter((component) => component.source.kind === 'fuse')
  const supplies = order.filter((one) => one.turn === 'supply')
  return [
    ...supplies.map((one) => step(`Fuses out: ${joiningText(one)}.`, one.plug.address)),
    ...order
      .filter((one) => one.batteryNegative)
      .map((one) => step(`${joiningText(one)}.`, one.plug.address)),
    ...loom.units
      .filter((unit) => unit.equipment.role === 'battery')
      .map((unit) =>
        step(
          `Battery negative back on ${unitName(unit)}. Nothing may spark: if it does, stop and look.`,
          unit.id,
        ),
      ),
    ...fuses.map(fuseStep),
  ]
}

function fuseStep(fuse: ComponentUse): GuideStep {
  const rating = fuse.source.kind === 'fuse' ? (fuse.source.rating ?? fuse.fusePart?.rating) : undefined
  const name = `${fuse.unit ? `${fuse.unit.id} ` : ''}${fuse.id}`
  const title = fuse.source.title ? ` (${fuse.source.title})` : ''
  return step(
    `Last: fuse ${name}${title}, ${rating === undefined ? 'rating not stated' : formatAmps(rating)} and no other. One at a time, watching the meter.`,
    fuse.address,
  )
}

function powerUpSteps(loom: Loom, solution: Solution | undefined): GuideStep[] {
  const states = (solution?.states ?? []).map((one) => one.state.title)
  return [
    step(
      'First power through a bench supply with a current limit, or a small fuse in place of the main one.',
    ),
    step(
      `Bring it up one state at a time${states.length > 0 ? `: ${states.join(', ')}` : ''}. Compare each figure before you go on.`,
    ),
    step('Anything over by a quarter, warm, or smelling: off, and find out why.'),
    ...(loom.setting === 'vehicle' ? [step('No new warning lamp may stay on.')] : []),
  ]
}

function testSteps(loom: Loom, solution: Solution | undefined): GuideStep[] {
  const bridged = loom.terminals.filter(
    ({ on, does }) => on === 'equipment' && does.kind === 'audio-out' && does.bridged === true,
  )
  const keyed = loom.terminals.filter(
    ({ on, does }) => on === 'equipment' && does.kind === 'switch-in' && does.purpose === 'key',
  )
  const rf = loom.terminals.some(({ does }) => does.kind === 'rf')
  return [
    ...((solution?.speakers.length ?? 0) > 0
      ? [step('Before the first sound: measure each loudspeaker line against the figure below.')]
      : []),
    ...bridged.map((pin) =>
      step(
        `${pinName(pin)} is one leg of a bridge-tied output: prove it open to chassis, above 1 kΩ. Test equipment joins it only through an isolation transformer.`,
        pin.address,
      ),
    ),
    ...keyed.map((pin) =>
      step(
        `${pinName(pin)} keys the transmitter: unplug its lead and see that nothing is on air.`,
        pin.address,
      ),
    ),
    ...(rf
      ? [
          step(
            'First transmit into the dummy load, then into the antenna: write forward and reflected power down with the cable length.',
          ),
          step(
            'Watch the vehicle, vessel or room while transmitting on each band: lamps, wipers, engine, other equipment.',
          ),
        ]
      : []),
    step('Work every control, key, microphone and loudspeaker once, with the person who will use them.'),
  ]
}

const handOverSteps = (): GuideStep[] => [
  step('Photograph the work as you leave it: each plug, ground and fuse.'),
  step('Write down everything that differs from this paper: it becomes the next revision.'),
  step('Show the user. Both sign. One copy stays with the installation.'),
]
