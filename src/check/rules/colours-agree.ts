import { type Colour, parseColour } from '../../base/colour.ts'
import type { Conductor, Half, Terminal } from '../../resolve/loom.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf } from '../outcome.ts'
import { landings } from '../queries/landings.ts'
import { supplySide } from '../queries/supply-side.ts'
import { zonesOf, zonesTouched } from '../queries/zones.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (second: Colour) =>
  wired({
    units: {
      radio: {
        pins: {
          '1': { kind: 'audio-out', level: 'line', leg: 'single', name: 'AF OUT' },
          '2': { kind: 'audio-in', level: 'line', leg: 'single', name: 'AF IN' },
        },
      },
      recorder: {
        pins: {
          '1': { kind: 'audio-in', level: 'line', leg: 'single', name: 'IN' },
          '2': { kind: 'audio-out', level: 'line', leg: 'single', name: 'OUT' },
        },
      },
    },
    runs: [
      ['radio.1', 'recorder.1', { colour: 'GN' }],
      ['radio.2', 'recorder.2', { colour: second }],
    ],
  })

/** One spelling for one look: `BKRD` and `RDBK` are the same pair of colours only where the order is free. */
const canonical = (colour: Colour): Colour => {
  const read = parseColour(colour)
  return read.ok ? read.value.canonical : colour
}

/** `green (GN)`. */
const colourWords = (colour: Colour): string => {
  const read = parseColour(colour)
  return read.ok ? `${read.value.words} (${colour})` : colour
}

const bandOf = ({ source }: Conductor): Colour | undefined => ('band' in source ? source.band : undefined)

/** What a hand at the plug can go by: colour and band; for a core also its cable and the pair it is twisted in. */
const look = (wire: Conductor, colour: Colour): string =>
  [
    canonical(colour),
    bandOf(wire) ?? '',
    wire.cable?.address ?? '',
    wire.cable ? (wire.pair ?? '') : '',
  ].join('|')

interface Landed {
  readonly wire: Conductor
  readonly pin: Terminal
}

/** Wires of one look that land on different nets of one half. Supply wires share a colour by code: plus with plus, minus with minus. */
function repeats({ paths }: RuleContext, landed: readonly Landed[]): readonly (readonly Landed[])[] {
  const byLook = new Map<string, Landed[]>()
  for (const each of landed) {
    const { colour } = each.wire
    if (colour === undefined) continue
    const key = `${look(each.wire, colour)}|${supplySide(paths, each.pin) ?? ''}`
    const alike = byLook.get(key)
    if (alike) alike.push(each)
    else byLook.set(key, [each])
  }
  return [...byLook.entries()]
    .filter(([key]) => key.endsWith('|'))
    .map(([, group]) => group)
    .filter((group) => new Set(group.map(({ pin }) => paths.nets.net(pin))).size > 1)
}

function repeated(half: Half, group: readonly Landed[]): Outcome {
  const wires = group.map(({ wire }) => wire.id)
  const colour = group[0]?.wire.colour ?? 'BK'
  return found({
    subject: half.address,
    what: `${listOf(wires)} are ${wires.length === 2 ? 'both' : 'all'} ${colourWords(colour)} in ${half.address} and go to different pins`,
    why: `${group.map(({ wire, pin }) => `${wire.id} on ${pin.name}`).join(', ')}: ${wires.length} wires that look alike, and the plug takes them in any order.`,
    fix: `Give ${wires.slice(1).join(', ')} another colour, or a band at both ends and say so ("band").`,
    facts: { colour: { value: colour }, wires: { value: wires.join(' ') } },
    at: group[1]?.wire.at ?? half.at,
    marks: group.map(({ wire }) => wire.address),
  })
}

function wrong(wire: Conductor, what: string, why: string, fix: string): Outcome {
  return found({
    subject: wire.address,
    what,
    why,
    fix,
    facts: { colour: { value: wire.colour ?? '' } },
    at: wire.at,
    marks: [wire.address],
  })
}

/** Above this a supply is no extra-low voltage: IEC 60364 for DC, from memory. */
const LOW_VOLTS = 60

function* againstCode(
  context: RuleContext,
  wire: Conductor,
  colour: Colour,
  hasMains: boolean,
): Iterable<Outcome> {
  const { loom, paths } = context
  const end = wire.from ?? wire.to
  if (!end) return
  const side = supplySide(paths, end)
  const words = `${wire.id} is ${colourWords(colour)}`
  if (canonical(colour) === 'GNYE' && !paths.nets.isGround(paths.nets.net(end)))
    yield wrong(
      wire,
      `${words} and is no protective conductor`,
      'Green and yellow together means protective earth, and nothing else, in every code (IEC 60445).',
      'Use any other colour.',
    )
  const code = side && loom.settings.stated.colours?.[side]
  if (code && !code.some((each) => canonical(each) === canonical(colour)))
    yield wrong(
      wire,
      `${words} and is supply ${side === 'plus' ? 'plus' : 'return'}, which is ${code.map(colourWords).join(' or ')} in this shop`,
      `The colour code of the shop lists ${code.length} ${code.length === 1 ? 'colour' : 'colours'} for supply ${side === 'plus' ? 'plus' : 'return'}; the next hand goes by it.`,
      `Use ${code.map(colourWords).join(' or ')}, or change the code of the shop.`,
    )
  if (loom.setting === 'boat' && hasMains && side === 'minus' && canonical(colour) === 'BK' && !code)
    yield wrong(
      wire,
      `${words} and is DC return aboard a boat with mains`,
      'Black is a live mains conductor there: one box holds both, and a hand takes one for the other (ABYC E-11).',
      'Use yellow for DC return.',
    )
}

function* besideDanger(
  zones: ReturnType<typeof zonesOf>,
  wire: Conductor,
  colour: Colour,
): Iterable<Outcome> {
  // What a jacket or a sleeve hides is nobody's guide.
  if (wire.cable || ('sheathed' in wire.source && wire.source.sheathed)) return
  const [ground] = canonical(colour).match(/^../) ?? []
  for (const id of zonesTouched(wire)) {
    const zone = zones.get(id)
    const restraint = zone?.near?.includes('airbag') === true && ground === 'YE'
    if (!restraint && !(zone?.near?.includes('high-voltage') && ground === 'OG')) continue
    yield wrong(
      wire,
      `${wire.id} is ${colourWords(colour)} in ${id}, where ${restraint ? 'airbag' : 'high-voltage'} wiring is`,
      restraint
        ? 'Yellow marks restraint circuits: whoever services one cuts or spares by colour.'
        : 'Orange marks high voltage: whoever services it takes this wire for deadly, or a deadly one for this.',
      'Use another colour, or another way round.',
    )
  }
}

export const coloursAgree: Rule = {
  id: 'colours-agree',
  title: 'Colours agree with the code and do not repeat in a plug',
  family: 'pins',
  level: 'warning',
  covers: ['P11'],
  reason:
    'Two green wires in one plug are put in either way round, and both ways look right. A colour that means danger beside dangerous wiring costs more than a repeat job.',
  remedy: 'Another colour, or a band or sleeve at both ends.',
  needs: 'colours of wires; colours of the shop’s code; what zones are "near" (airbag, high-voltage)',
  sources: [
    'IEC 60445 for green and yellow',
    'ABYC E-11 for DC return, as reported',
    'road-vehicle practice: restraint wiring yellow, high voltage orange',
  ],
  examples: { trips: example('GN'), passes: example('WH') },
  *check(context) {
    const { loom, paths } = context
    const byHalf = new Map<Half, Landed[]>()
    for (const [pin, wires] of landings(loom)) {
      if (pin.half?.side !== 'harness' || pin.name === 'shell') continue
      const list = byHalf.get(pin.half) ?? []
      byHalf.set(pin.half, list)
      for (const wire of wires) if (wire.kind !== 'shield') list.push({ wire, pin })
    }
    for (const [half, landed] of byHalf)
      for (const group of repeats(context, landed)) yield repeated(half, group)
    const hasMains = paths.supply.sources.some(
      ({ does }) => does.kind === 'supply-out' && (does.volts?.max ?? 0) > LOW_VOLTS,
    )
    const zones = zonesOf(loom)
    for (const wire of loom.conductors) {
      if (wire.colour === undefined || wire.kind === 'shield') continue
      yield* againstCode(context, wire, wire.colour, hasMains)
      yield* besideDanger(zones, wire, wire.colour)
    }
  },
}
