import type { Link, Loom, Terminal } from '../resolve/loom.ts'
import { prepareNodal } from './nodal.ts'
import { across } from './reach.ts'
import { returnPin } from './return-pin.ts'
import type { LinkOhms, SpeakerNetwork } from './solution.ts'

/** A line of no resistance, small beside any loudspeaker and yet a number. */
const BARE_OHMS = 1e-9

interface Speaker {
  readonly hot: Terminal
  readonly cold: Terminal
  readonly ohms: number
}

/** Every speaker output with the loudspeakers it reaches, solved as resistances. Levels below a loudspeaker's are left out. */
export function speakerNetworks(loom: Loom, ohms: readonly (LinkOhms | undefined)[]): SpeakerNetwork[] {
  return loom.terminals.flatMap((hot) => {
    const { does } = hot
    if (
      hot.on !== 'equipment' ||
      does.kind !== 'audio-out' ||
      does.level !== 'speaker' ||
      does.leg === 'cold'
    )
      return []
    return [networkOf(loom, ohms, hot)]
  })
}

function networkOf(loom: Loom, ohms: readonly (LinkOhms | undefined)[], hot: Terminal): SpeakerNetwork {
  const cold = partner(hot)
  const needs: string[] = []
  const found = explore(loom, hot, cold, needs)
  const empty = { hot, ...(cold ? { cold } : {}), speakers: [], loadOhms: Number.NaN, totalOhms: Number.NaN }
  if (!cold) needs.push(`the other leg or the return of ${hot.address}`)
  if (!cold || found.speakers.length === 0)
    return { ...empty, lineOhms: Number.NaN, lossDb: Number.NaN, needs: [...new Set(needs)] }
  for (const link of found.links)
    if (link.conductor && !ohms[link.index]) needs.push(`the size and length of ${link.conductor.id}`)
  const withLine = solveAt(found, hot, cold, (link) => Math.max(ohms[link.index]?.ohms ?? 0, BARE_OHMS))
  const bare = solveAt(found, hot, cold, (link) =>
    link.kind === 'resistor' ? (link.ohms ?? BARE_OHMS) : BARE_OHMS,
  )
  const driven = found.speakers.filter((_, index) => (bare.power[index] ?? 0) > 0)
  if (driven.length < found.speakers.length && driven.length === 0)
    needs.push(`a way back from the loudspeakers to ${cold.address}`)
  const total = sum(withLine.power)
  return {
    hot,
    cold,
    speakers: found.speakers.flatMap((speaker, index) => {
      const power = withLine.power[index] ?? 0
      if (!(power > 0)) return []
      const watts = deliveredWatts(hot, power)
      return [
        {
          ...speaker,
          share: power / total,
          ...(watts === undefined ? {} : { watts }),
          polarity: (withLine.volts[index] ?? 0) < 0 ? (-1 as const) : (1 as const),
        },
      ]
    }),
    loadOhms: 1 / bare.amps,
    totalOhms: 1 / withLine.amps,
    lineOhms: Math.max(0, 1 / withLine.amps - 1 / bare.amps),
    lossDb: 10 * Math.log10(total / sum(bare.power)),
    needs: [...new Set(needs)],
  }
}

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0)

/** The cold leg or the return of a speaker pin. */
function partner(pin: Terminal): Terminal | undefined {
  const { does } = pin
  const pins = pin.half?.unit?.halves.flatMap((half) => [...half.pins.values()]) ?? []
  const same = pins.filter(
    (other) => other !== pin && does.port !== undefined && other.does.port === does.port,
  )
  const leg = same.find(
    (other) => other.does.kind === does.kind && 'leg' in other.does && other.does.leg === 'cold',
  )
  if (leg) return leg
  const lone = pins.filter((other) => other !== pin && other.does.kind === does.kind)
  const cold = lone.filter((other) => 'leg' in other.does && other.does.leg === 'cold')
  if (does.port === undefined && cold.length === 1) return cold[0]
  return same.find((other) => other.does.kind === 'signal-return') ?? returnPin(pin)
}

interface Found {
  readonly speakers: readonly Speaker[]
  readonly links: readonly Link[]
}

/** Metal, fuses, closed contacts, resistors and capacitors; and across each loudspeaker that is met. */
const passes: ReadonlySet<Link['kind']> = new Set([
  'conductor',
  'mate',
  'join',
  'bond',
  'fuse',
  'switch',
  'relay-contact',
  'resistor',
  'capacitor',
])

function explore(loom: Loom, hot: Terminal, cold: Terminal | undefined, needs: string[]): Found {
  const met = new Set<Terminal>(cold ? [hot, cold] : [hot])
  const links = new Set<Link>()
  const speakers = new Map<Terminal, Speaker>()
  for (const from of met) {
    for (const link of loom.linksAt[from.index] ?? []) {
      if (!passes.has(link.kind)) continue
      links.add(link)
      met.add(across(link, from))
    }
    const speaker = speakerAt(from)
    if (!speaker || speakers.has(speaker.hot)) continue
    if (speaker.ohms === undefined || !speaker.cold) {
      needs.push(
        speaker.cold
          ? `the impedance of ${speaker.hot.address}`
          : `the other terminal of ${speaker.hot.address}`,
      )
      continue
    }
    speakers.set(speaker.hot, { hot: speaker.hot, cold: speaker.cold, ohms: speaker.ohms })
    met.add(speaker.hot)
    met.add(speaker.cold)
  }
  return { speakers: [...speakers.values()], links: [...links] }
}

/** The loudspeaker a terminal belongs to. */
function speakerAt(pin: Terminal): { hot: Terminal; cold?: Terminal; ohms?: number } | undefined {
  const { does } = pin
  if (pin.on !== 'equipment' || does.kind !== 'audio-in' || does.level !== 'speaker') return undefined
  const hot = does.leg === 'cold' ? hotOf(pin) : pin
  if (!hot) return undefined
  const cold = partner(hot)
  const figures = [hot, cold].map((end) => (end?.does.kind === 'audio-in' ? end.does.ohms : undefined))
  const ohms = figures[0] ?? figures[1]
  return { hot, ...(cold ? { cold } : {}), ...(ohms === undefined ? {} : { ohms }) }
}

function hotOf(cold: Terminal): Terminal | undefined {
  const pins = cold.half?.unit?.halves.flatMap((half) => [...half.pins.values()]) ?? []
  return pins.find(
    (pin) =>
      pin.does.kind === 'audio-in' &&
      pin.does.level === 'speaker' &&
      pin.does.leg !== 'cold' &&
      pin.does.port === cold.does.port,
  )
}

/** One volt across the output: the current it delivers, and volts and power of each loudspeaker. */
function solveAt(found: Found, hot: Terminal, cold: Terminal, ohmsOf: (link: Link) => number) {
  const local = new Map<Terminal, number>()
  const node = (terminal: Terminal): number => {
    const kept = local.get(terminal)
    if (kept !== undefined) return kept
    local.set(terminal, local.size)
    return local.size - 1
  }
  const a: number[] = []
  const b: number[] = []
  const siemens: number[] = []
  const add = (one: Terminal, two: Terminal, ohms: number): void => {
    a.push(node(one))
    b.push(node(two))
    siemens.push(1 / ohms)
  }
  const [plus, minus] = [node(hot), node(cold)]
  for (const link of found.links) add(link.a, link.b, ohmsOf(link))
  for (const speaker of found.speakers) add(speaker.hot, speaker.cold, speaker.ohms)
  const size = local.size
  const isFixed = new Uint8Array(size)
  isFixed[plus] = 1
  isFixed[minus] = 1
  const fixed = new Float64Array(size)
  fixed[plus] = 1
  const solved = prepareNodal(size, { a, b, siemens }, isFixed).solve(new Float64Array(size), fixed)
  const volts = found.speakers.map(
    (speaker) => (solved[node(speaker.hot)] ?? 0) - (solved[node(speaker.cold)] ?? 0),
  )
  const power = volts.map((value, index) => {
    const watts = value ** 2 / (found.speakers[index]?.ohms ?? 1)
    // Below this a loudspeaker only hangs on one leg: rounding, not power.
    return watts > 1e-12 ? watts : 0
  })
  // Power in equals power out, and is not hurt by the tiny resistances next to the output pin.
  const inLinks = found.links.map(
    (link, index) => ((solved[a[index] ?? 0] ?? 0) - (solved[b[index] ?? 0] ?? 0)) ** 2 / ohmsOf(link),
  )
  return { volts, power, amps: sum(power) + sum(inLinks) }
}

/** Watts in a loudspeaker when the output puts out the voltage of its rated power into its lowest load. */
function deliveredWatts(hot: Terminal, perSquareVolt: number): number | undefined {
  const { does } = hot
  if (does.kind !== 'audio-out' || does.watts === undefined || does.minLoad === undefined) return undefined
  return perSquareVolt * does.watts * does.minLoad
}
