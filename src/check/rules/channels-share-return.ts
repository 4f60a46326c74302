import { formatAmps, formatOhms, formatVolts } from '../../base/format-quantity.ts'
import type { Conductor, Net, Terminal } from '../../resolve/loom.ts'
import { commonImpedanceVolts } from '../../solve/formulas/common-impedance.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf, unknown } from '../outcome.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const station = (id: string) =>
  unitOf(
    id,
    socket('J2', 'row-3', {
      '1': { kind: 'return', name: 'COM' },
      '2': { kind: 'supply-in', volts: '20..30 V', amps: '0.1 A' },
      '3': { kind: 'audio-in', level: 'line', leg: 'single', port: 'LINE', limit: '-10..35 V' },
    }),
  )

const thin = { size: '0.5 mm²', length: '20 m' } as const
const short = { size: '0.5 mm²', length: '0.1 m' } as const

const example = (isShared: boolean) =>
  exampleLead({
    parts: [rowHousing(5, { manyWires: true }), rowHousing(3)],
    equipment: [
      unitOf(
        'master',
        socket('J1', 'row-5', {
          '1': { kind: 'return', name: 'COM' },
          '2': { kind: 'supply-out', volts: '28 V', maxAmps: '0.3 A', port: 'A' },
          '3': { kind: 'audio-out', name: 'AUDIO A', level: 'line', leg: 'single', port: 'A' },
          '4': { kind: 'supply-out', volts: '28 V', maxAmps: '0.3 A', port: 'B' },
          '5': { kind: 'audio-out', name: 'AUDIO B', level: 'line', leg: 'single', port: 'B' },
        }),
      ),
      station('first'),
      station('second'),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-5', half: 'pin', fits: 'master.J1' },
        { id: 'P2', family: 'row-3', half: 'pin', fits: 'first.J2', zone: 'stage' },
        { id: 'P3', family: 'row-3', half: 'pin', fits: 'second.J2', zone: 'pit' },
      ],
      components: ['F1', 'F2'].map((id) => ({ id, kind: 'fuse' as const, rating: '0.5 A' as const })),
      splices: isShared ? [{ id: 'SP1' }] : [],
      wires: [
        { id: 'A01', from: 'P1.2', to: 'F1.in', ...short },
        { id: 'A02', from: 'F1.out', to: 'P2.2', ...thin },
        { id: 'A03', from: 'P1.3', to: 'P2.3', ...thin },
        { id: 'A04', from: 'P1.4', to: 'F2.in', ...short },
        { id: 'A05', from: 'F2.out', to: 'P3.2', ...thin },
        { id: 'A06', from: 'P1.5', to: 'P3.3', ...thin },
        ...(isShared
          ? [
              { id: 'A07', from: 'P1.1' as const, to: 'SP1' as const, ...thin },
              { id: 'A08', from: 'SP1' as const, to: 'P2.1' as const, ...short },
              { id: 'A09', from: 'SP1' as const, to: 'P3.1' as const, ...short },
            ]
          : [
              { id: 'A07', from: 'P1.1' as const, to: 'P2.1' as const, ...thin },
              { id: 'A08', from: 'P1.1' as const, to: 'P3.1' as const, ...thin },
            ]),
      ],
    },
  })

/** One hundredth of line level, 0.775 V: what is 40 dB below it is not heard. */
const HEARD_VOLTS = 0.00775

/** A load that is fed and speaks over one common: its supply pin and the net of its audio. */
interface Station {
  readonly load: Terminal
  readonly channel: Net
}

/** Stations with audio against the return of their supply, in one connector, as on a powered party line. */
function stationsOf({ loom, paths }: RuleContext): readonly Station[] {
  return loom.terminals.flatMap((load) => {
    if (load.on !== 'equipment' || load.does.kind !== 'supply-in') return []
    const pins = [...(load.half?.pins.values() ?? [])]
    if (pins.some(({ does }) => does.kind === 'signal-return')) return []
    const audio = pins.find(
      ({ does }) =>
        (does.kind === 'audio-in' || does.kind === 'audio-out') && does.leg !== 'hot' && does.leg !== 'cold',
    )
    return audio ? [{ load, channel: paths.nets.net(audio) }] : []
  })
}

/** By conductor, the channels whose stations send their current back through it. */
function channelsByConductor({ paths }: RuleContext, stations: readonly Station[]): Map<Conductor, Set<Net>> {
  const shared = new Map<Conductor, Set<Net>>()
  for (const { load, channel } of stations)
    for (const { source } of paths.supply.supplies(load))
      for (const { conductor } of paths.supply.returnPath(load, source)?.links ?? [])
        if (conductor) shared.set(conductor, (shared.get(conductor) ?? new Set()).add(channel))
  return shared
}

interface Shared {
  readonly conductor: Conductor
  readonly channels: readonly Net[]
  readonly ohms: number | undefined
  readonly amps: number | undefined
  readonly volts: number
}

function measure({ loom, solution }: RuleContext, conductor: Conductor, channels: ReadonlySet<Net>): Shared {
  const link = loom.links.find((each) => each.conductor === conductor)
  const ohms = link && solution.linkOhms[link.index]?.ohms
  const amps = solution.worstAmps.get(conductor)?.amps
  const volts = ohms === undefined || amps === undefined ? 0 : commonImpedanceVolts(amps, ohms)
  return { conductor, channels: [...channels], ohms, amps, volts }
}

function report({ conductor, channels, ohms = 0, amps = 0, volts }: Shared): Outcome {
  const names = listOf(channels.map(({ name }) => name))
  return found({
    subject: conductor.address,
    what: `${conductor.id} is the common of ${channels.length} channels, ${names}: ${formatVolts(volts)} along it`,
    why: `${formatAmps(amps)} of all of them through ${formatOhms(ohms)} is ${formatVolts(volts)}: what one channel draws is heard on the other, and the stations at the end get that much less.`,
    fix: `Give each channel a common of its own back to ${conductor.from?.address ?? 'the supply'}, joined only there.`,
    facts: {
      volts: { value: volts, unit: 'V' },
      ohms: { value: ohms, unit: 'Ω' },
      current: { value: amps, unit: 'A' },
      channels: { value: channels.length },
    },
    at: conductor.at,
    marks: [conductor.address, ...channels.flatMap((net) => net.conductors.map(({ address }) => address))],
  })
}

export const channelsShareReturn: Rule = {
  id: 'channels-share-return',
  title: 'Audio channels do not share one common conductor',
  family: 'grounding',
  level: 'warning',
  covers: ['G6'],
  reason:
    'A common carries the supply current and the audio of every station behind it. Where two channels share one conductor, its resistance turns the current of the one into sound on the other.',
  remedy: 'Run a common for each channel and join them at the supply only; or use thicker wire.',
  needs: 'the size and length of the common, and what the stations draw',
  sources: ['common-impedance coupling as taught by B. Whitlock', 'common practice'],
  examples: { trips: example(true), passes: example(false) },
  *check(context) {
    const stations = stationsOf(context)
    if (new Set(stations.map(({ channel }) => channel)).size < 2) return
    const shared = [...channelsByConductor(context, stations)]
      .filter(([, channels]) => channels.size > 1)
      .map(([conductor, channels]) => measure(context, conductor, channels))
      .sort((a, b) => b.volts - a.volts || a.conductor.index - b.conductor.index)
    const [worst] = shared
    if (worst && worst.volts > HEARD_VOLTS) yield report(worst)
    const blank = shared.find(({ ohms, amps }) => ohms === undefined || amps === undefined)
    if (blank && !(worst && worst.volts > HEARD_VOLTS))
      yield unknown(
        blank.conductor.address,
        `needs the size and length of ${blank.conductor.id}, and what the stations behind it draw`,
        blank.conductor.at,
      )
  },
}
