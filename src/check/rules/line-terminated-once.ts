import { formatDecibels, formatOhms } from '../../base/format-quantity.ts'
import type { Net, Terminal } from '../../resolve/loom.ts'
import { parallelOhms } from '../../solve/formulas/impedance.ts'
import { partyLineErrorDb } from '../../solve/formulas/party-line.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { count, found } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (resistors: number) =>
  exampleLead({
    parts: [rowHousing(3)],
    equipment: ['alpha', 'beta'].map((id) => ({
      ...unitOf(
        id,
        socket('J1', 'row-3', {
          '1': { kind: 'signal-return' },
          '3': { kind: 'audio-in', level: 'line', leg: 'single', ohms: '15 kΩ', port: 'A' },
        }),
      ),
      role: 'intercom' as const,
    })),
    harness: {
      connectors: [
        { id: 'P1', family: 'row-3', half: 'pin', fits: 'alpha.J1' },
        { id: 'P2', family: 'row-3', half: 'pin', fits: 'beta.J1' },
      ],
      splices: [{ id: 'SP1' }, { id: 'SP2' }],
      components: Array.from({ length: resistors }, (_, index) => ({
        id: `T${index + 1}`,
        kind: 'resistor' as const,
        ohms: '200 Ω' as const,
        terminates: true,
      })),
      wires: [
        { id: 'A01', from: 'P1.3', to: 'SP1', size: '0.22 mm²' },
        { id: 'A02', from: 'SP1', to: 'P2.3', size: '0.22 mm²' },
        { id: 'A03', from: 'P1.1', to: 'SP2', size: '0.22 mm²' },
        { id: 'A04', from: 'SP2', to: 'P2.1', size: '0.22 mm²' },
        ...Array.from({ length: resistors }, (_, index) => [
          { id: `B${index + 1}`, from: 'SP1', to: `T${index + 1}.1`, size: '0.22 mm²' as const },
          { id: `C${index + 1}`, from: `T${index + 1}.2`, to: 'SP2', size: '0.22 mm²' as const },
        ]).flat(),
      ],
    },
  })

/** The one terminator that a channel of a powered party line is set up for: common practice. */
const NOMINAL_OHMS = 200
/** A pin of this impedance or less is terminated inside its unit; stations bridge the line with kilohms. */
const TERMINATES_BELOW = 1000

/** Stations on a net: pins of intercom units that speak and listen on one wire. */
const stationsOn = (net: Net): readonly Terminal[] =>
  net.terminals.filter(
    ({ on, does, half }) =>
      on === 'equipment' &&
      half?.unit?.equipment.role === 'intercom' &&
      (does.kind === 'audio-in' || does.kind === 'audio-out') &&
      does.level === 'line' &&
      does.leg !== 'hot' &&
      does.leg !== 'cold',
  )

const ohmsOf = ({ does }: Terminal): number | undefined => ('ohms' in does ? does.ohms : undefined)

interface Terminator {
  readonly address: string
  readonly ohms: number
}

function terminators(net: Net, stations: readonly Terminal[]): readonly Terminator[] {
  const resistors = net.terminals.flatMap(({ component }) => {
    if (component?.source.kind !== 'resistor' || !component.source.terminates) return []
    return [{ address: component.address, ohms: component.source.ohms ?? NOMINAL_OHMS }]
  })
  const inside = stations.flatMap((pin) => {
    const ohms = ohmsOf(pin)
    return ohms !== undefined && ohms <= TERMINATES_BELOW ? [{ address: pin.address, ohms }] : []
  })
  return [...new Map([...resistors, ...inside].map((each) => [each.address, each])).values()]
}

function wrongCount(net: Net, stations: readonly Terminal[], ends: readonly Terminator[]): Outcome {
  const bridging = stations.flatMap((pin) => {
    const ohms = ohmsOf(pin)
    return ohms !== undefined && ohms > TERMINATES_BELOW ? [ohms] : []
  })
  const judged = ends.length > 0 || bridging.length > 0
  const errorDb = judged
    ? partyLineErrorDb(
        ends.map((each) => each.ohms),
        bridging,
        NOMINAL_OHMS,
      )
    : undefined
  const error = errorDb === undefined ? '' : `, ${formatDecibels(errorDb)} off level`
  const first = stations[0]?.address ?? net.name
  const places = ends.map((each) => `${each.address} ${formatOhms(each.ohms)}`).join(', ')
  return found({
    subject: ends[1]?.address ?? first,
    what:
      ends.length === 0
        ? `The line ${net.name} is not terminated${error}`
        : `The line ${net.name} is terminated ${ends.length} times${error}`,
    why:
      ends.length === 0
        ? `${count(stations.length, 'station')} and no ${formatOhms(NOMINAL_OHMS)} across the line: it is too loud and may howl.`
        : `${places} in parallel are ${formatOhms(parallelOhms(ends.map((each) => each.ohms)))}; the stations are set for ${formatOhms(NOMINAL_OHMS)}.`,
    fix:
      ends.length === 0
        ? `Fit one ${formatOhms(NOMINAL_OHMS)} terminator, by custom in the master station or the last box.`
        : `Keep one and remove ${count(ends.length - 1, 'terminator')}.`,
    assumed: [`one ${formatOhms(NOMINAL_OHMS)} terminator a channel`],
    facts: {
      line: { value: net.name },
      terminators: { value: ends.length },
      ...(errorDb === undefined || !Number.isFinite(errorDb)
        ? {}
        : { error: { value: errorDb, unit: 'dB' } }),
    },
    at: net.conductors[0]?.at ?? stations[0]?.at ?? { doc: '', path: [] },
    marks: [...stations.map((pin) => pin.address), ...ends.map((each) => each.address)],
  })
}

export const lineTerminatedOnce: Rule = {
  id: 'line-terminated-once',
  title: 'A party line is terminated once',
  family: 'audio',
  level: 'warning',
  covers: ['A11'],
  reason:
    'The stations of a powered party line drive it with a current, and its one terminator turns that into the level. Two halve it; none makes it howl.',
  remedy: 'Leave exactly one terminator on each channel.',
  needs: 'role "intercom" of the stations, and resistors that say they terminate',
  sources: ['system guides of powered party lines, as reported', 'common practice'],
  examples: { trips: example(2), passes: example(1) },
  *check({ loom }) {
    for (const net of loom.nets) {
      const stations = stationsOn(net)
      if (new Set(stations.map((pin) => pin.half?.unit)).size < 2) continue
      const ends = terminators(net, stations)
      if (ends.length !== 1) yield wrongCount(net, stations, ends)
    }
  },
}
