import { formatAmps, formatOhms, formatVolts } from '../../base/format-quantity.ts'
import type { Conductor, Link, Loom, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found } from '../outcome.ts'
import { functionWords, pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (body: boolean) =>
  exampleLead({
    parts: [rowHousing(4), rowHousing(3)],
    equipment: [
      unitOf(
        'radio',
        socket('J1', 'row-4', {
          '1': { kind: 'supply-in', volts: '10..14 V', amps: '1 A', port: 'DC' },
          '2': { kind: 'return', port: 'DC' },
          '3': { kind: 'audio-out', name: 'SPK+', level: 'speaker', leg: 'hot', bridged: true, port: 'SPK' },
          '4': { kind: 'audio-out', name: 'SPK−', level: 'speaker', leg: 'cold', bridged: true, port: 'SPK' },
        }),
      ),
      unitOf(
        'horn',
        socket('J2', 'row-3', {
          '1': { kind: 'audio-in', level: 'speaker', leg: 'hot', ohms: '8 Ω', port: 'COIL' },
          '2': { kind: 'audio-in', level: 'speaker', leg: 'cold', ohms: '8 Ω', port: 'COIL' },
          '3': { kind: 'chassis', name: 'BODY' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'radio.J1' },
        { id: 'P2', family: 'row-3', half: 'pin', fits: 'horn.J2' },
      ],
      splices: [{ id: 'SP1' }],
      wires: [
        { id: 'A01', from: 'P1.3', to: 'P2.1', size: '0.75 mm²', length: '2 m', pair: 'TP1' },
        { id: 'A02', from: 'P1.4', to: 'SP1', size: '0.75 mm²', length: '2 m', pair: 'TP1' },
        { id: 'A03', from: 'SP1', to: 'P2.2', size: '0.75 mm²', length: '0.1 m' },
        ...(body
          ? [{ id: 'A04', from: 'SP1', to: 'P2.3', size: '0.75 mm²' as const, length: '0.1 m' as const }]
          : []),
      ],
    },
  })

/** Signal 0 V of a unit that is fed or has a frame is its ground; that of a loudspeaker or a resistor is not. */
function isGroundedUnit(pin: Terminal): boolean {
  const pins = pin.half?.unit?.halves.flatMap((half) => [...half.pins.values()]) ?? []
  return pins.some(({ does }) => ['supply-in', 'supply-out', 'chassis', 'return'].includes(does.kind))
}

/** What on the net of a leg ties it to ground, the surest first. */
function groundOn({ paths }: RuleContext, leg: Terminal): Terminal | undefined {
  const net = paths.nets.net(leg)
  const ground = paths.nets.groundAt(net)
  if (ground) return ground
  return (
    paths.nets.pins(net, 'shield')[0] ??
    paths.nets
      .pins(net, 'signal-return')
      .find((pin) => !('isolated' in pin.does && pin.does.isolated) && isGroundedUnit(pin))
  )
}

/** The highest voltage that feeds the unit of an output, in V. */
function supplyVolts({ paths }: RuleContext, leg: Terminal): number | undefined {
  const feeds = (leg.half?.unit?.halves ?? [])
    .flatMap((half) => [...half.pins.values()])
    .flatMap((pin) => {
      if (pin.does.kind !== 'supply-in') return []
      const volts = paths.highestVolts(pin)?.volts ?? pin.does.volts?.max
      return volts === undefined ? [] : [volts]
    })
  return feeds.length > 0 ? Math.max(...feeds) : undefined
}

function ohmsOf({ solution }: RuleContext, links: readonly Link[]): number | undefined {
  let sum = 0
  for (const link of links) {
    const ohms = solution.linkOhms[link.index]?.ohms
    if (ohms === undefined && link.kind === 'conductor') return undefined
    sum += ohms ?? 0
  }
  return sum > 0 ? sum : undefined
}

/** The sum people can check: half the supply over the copper that shorts it. */
function shortWords(volts: number | undefined, ohms: number | undefined): string {
  if (volts === undefined) return 'Each leg idles near half the supply'
  const half = `Each leg idles near ${formatVolts(volts / 2)}, half of ${formatVolts(volts)}`
  if (ohms === undefined) return half
  return `${half}; over the ${formatOhms(ohms)} to ground that is up to ${formatAmps(volts / 2 / ohms)}`
}

function grounded(context: RuleContext, leg: Terminal, { does }: Terminal): Outcome {
  const tree = context.paths.from(leg)
  const ground = tree.order.find((pin) => pin.on === 'equipment' && pin.does.kind === does.kind) ?? leg
  const links = tree.pathTo(ground) ?? []
  const wires = links.flatMap((link): Conductor[] => (link.conductor ? [link.conductor] : []))
  const volts = supplyVolts(context, leg)
  const ohms = ohmsOf(context, links)
  const last = wires.at(-1)
  const way = wires.length > 0 ? ` through ${wires.map((wire) => wire.id).join(', ')}` : ''
  return found({
    subject: leg.address,
    what: `A leg of a bridged output is grounded: ${pinWords(leg)} meets ${ground.address} (${functionWords(ground.does)})${way}`,
    why: `${shortWords(volts, ohms)}. A short to ground is a direct current that flows without any signal, and ends the output stage.`,
    fix: `${last ? `Take ${last.id} off ${last.to?.half?.side === 'harness' ? last.to.address : 'ground'}` : 'Part the two'}; run both legs to the loudspeaker and nowhere else, and couple anything earthed through a transformer.`,
    facts: {
      leg: { value: leg.address },
      ground: { value: ground.address },
      ...(volts === undefined ? {} : { idle: { value: volts / 2, unit: 'V' } }),
      ...(ohms === undefined ? {} : { path: { value: ohms, unit: 'Ω' } }),
    },
    at: last?.at ?? leg.at,
    marks: [leg.address, ground.address, ...wires.map((wire) => wire.address)],
  })
}

const bridgedLegs = (loom: Loom): readonly Terminal[] =>
  loom.terminals.filter(
    ({ on, does }) => on === 'equipment' && does.kind === 'audio-out' && does.bridged === true,
  )

export const bridgedLegGrounded: Rule = {
  id: 'bridged-leg-grounded',
  title: 'Neither leg of a bridged output meets ground',
  family: 'audio',
  level: 'stop',
  covers: ['A1'],
  reason:
    'A bridge-tied output drives both legs, and both idle near half the supply. A leg on the body, a screen or an earthed instrument shorts that voltage: the output stage is lost, often at switch-on.',
  remedy:
    'Run two wires to the loudspeaker and leave both off ground; put a transformer before test equipment.',
  needs: 'which outputs are bridged, and which pins are ground',
  sources: ['common practice: a bridge-tied output is never grounded'],
  examples: { trips: example(true), passes: example(false) },
  *check(context) {
    for (const leg of bridgedLegs(context.loom)) {
      const ground = groundOn(context, leg)
      if (ground) yield grounded(context, leg, ground)
    }
  },
}
