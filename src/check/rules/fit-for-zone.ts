import type { HarnessConnector } from '../../describe/harness.ts'
import type { Conductor, Half, Loom } from '../../resolve/loom.ts'
import { rowHousing } from '../examples/parts.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { isPlug } from '../queries/plug-styles.ts'
import { type Zone, zoneOfHalf, zonesOf, zonesTouched } from '../queries/zones.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (ip: 'IP20' | 'IP67') =>
  wired({
    units: {
      sounder: { pins: { '1': { name: 'A' } }, family: 'deck-2', zone: 'deck' },
      panel: { pins: { '1': { name: 'A' } }, family: 'deck-2', zone: 'cabin' },
    },
    parts: [rowHousing(2, { id: 'deck-2', title: '2-way deck plug', ip })],
    runs: [['sounder.1', 'panel.1', { size: '1.5 mm²' }]],
    harness: {
      connectors: [
        { id: 'P1', family: 'deck-2', half: 'pin', fits: 'sounder.J', entry: 'below' },
        { id: 'P2', family: 'deck-2', half: 'pin', fits: 'panel.J' },
      ],
    },
    place: { setting: 'boat', zones: [{ id: 'deck', wet: true }, { id: 'cabin' }] },
  })

/** Splashed from all sides: what a zone that is merely called wet asks for. IEC 60529. */
const SPLASH = 4

interface Needed {
  readonly water: number
  readonly dust: number
  readonly text: string
}

const digit = (text: string | undefined): number => {
  const value = Number.parseInt(text ?? '', 10)
  return Number.isNaN(value) ? 0 : value
}

function neededIn(zone: Zone | undefined): Needed | undefined {
  if (zone?.ip !== undefined) return { dust: digit(zone.ip[2]), water: digit(zone.ip[3]), text: zone.ip }
  return zone?.wet ? { dust: 0, water: SPLASH, text: `IPX${SPLASH}` } : undefined
}

const reaches = (code: string, { dust, water }: Needed): boolean =>
  digit(code[2]) >= dust && digit(code[3]) >= water

const coverOf = (half: Half | undefined): HarnessConnector['cover'] => half?.source.cover

interface Place {
  readonly half: Half
  readonly zone: string
  readonly needed: Needed
}

/** The code a half has as it stands: `true` where a cover sees to it, undefined where nobody says. */
function codeOf({ half }: Place): string | true | undefined {
  if (half.mates.length > 0) {
    const covers = [coverOf(half), ...half.mates.map(coverOf)]
    if (covers.some((cover) => cover === 'boot' || cover === 'wrap') || half.family?.sealed) return true
    return half.family?.ip
  }
  return coverOf(half) === 'cap' ? true : half.family?.ipOpen
}

function openToWater({ half, zone, needed }: Place, code: string): Outcome {
  const mated = half.mates.length > 0
  return found({
    subject: half.address,
    what: `${half.address} is ${code} ${mated ? 'mated' : 'and not mated'}, in ${zone}, which asks for ${needed.text}`,
    why: `${half.familyId}: water ${digit(code[3])} of ${needed.water}${needed.dust > digit(code[2]) ? `, dust ${digit(code[2])} of ${needed.dust}` : ''} (IEC 60529). ${mated ? 'Water stands between its contacts and eats the positive ones.' : 'An open half fills up and corrodes before it is used.'}`,
    fix: mated
      ? 'Use a family with that protection, or a boot or self-amalgamating wrap over the pair ("cover").'
      : 'Fit a cap and say so ("cover").',
    facts: { code: { value: code }, needed: { value: needed.text }, zone: { value: zone } },
    at: half.at,
    marks: [half.address],
  })
}

/** Plugs in places that ask for protection: those of looms, mated or open, and sockets of equipment left open. */
function* placesOf(loom: Loom, zones: ReadonlyMap<string, Zone>): Iterable<Place> {
  for (const half of loom.halves) {
    if (!isPlug(half) || (half.side === 'equipment' && half.mates.length > 0)) continue
    const zone = zoneOfHalf(half)
    const needed = zone === undefined ? undefined : neededIn(zones.get(zone))
    if (zone !== undefined && needed) yield { half, zone, needed }
  }
}

type Agent = 'sun' | 'oil' | 'salt'
const AGENTS: readonly Agent[] = ['sun', 'oil', 'salt']
const SPOILS: Readonly<Record<Agent, string>> = {
  sun: 'Ultraviolet light turns it brittle: it cracks where it bends, in two or three summers.',
  oil: 'Oil swells and softens it, and it tears at the first tie.',
  salt: 'Salt water gets through it, and the copper under it goes black.',
}

function* jackets(loom: Loom, zones: ReadonlyMap<string, Zone>): Iterable<Outcome> {
  const wrong = new Map<string, { agent: Agent; zone: string; title: string; wires: Conductor[] }>()
  const silent = new Map<string, Set<string>>()
  for (const wire of loom.conductors)
    for (const zone of zonesTouched(wire))
      for (const agent of AGENTS) {
        const part = wire.wirePart ?? wire.cable?.part
        if (!zones.get(zone)?.[agent] || !part) continue
        const key = `${wire.loom.id} ${part.id} ${zone} ${agent}`
        // Salt is judged by the tinning of the strands where the jacket says nothing.
        if (part.resists === undefined) {
          if (agent !== 'salt')
            silent.set(`${zone} ${agent}`, (silent.get(`${zone} ${agent}`) ?? new Set()).add(part.id))
        } else if (!part.resists.includes(agent)) {
          const group = wrong.get(key) ?? { agent, zone, title: part.title, wires: [] }
          wrong.set(key, group)
          group.wires.push(wire)
        }
      }
  for (const { agent, zone, title, wires } of wrong.values()) {
    const names = [...new Set(wires.map(({ cable, id }) => cable?.id ?? id))]
    const [first] = wires
    if (!first) continue
    yield found({
      subject: first.cable?.address ?? first.address,
      what: `${listOf(names)} ${names.length === 1 ? 'is' : 'are'} not made for ${agent} and ${names.length === 1 ? 'lies' : 'lie'} in ${zone}`,
      why: `${title} lists ${names.length} ${names.length === 1 ? 'run' : 'runs'} there without “${agent}” among what it resists. ${SPOILS[agent]}`,
      fix: `Use a wire or cable that resists ${agent}, or a sleeve that does over it.`,
      facts: { agent: { value: agent }, zone: { value: zone }, runs: { value: names.join(' ') } },
      at: first.cable?.at ?? first.at,
      marks: wires.map(({ address }) => address),
    })
  }
  for (const [key, names] of silent) {
    const [zone, agent] = key.split(' ')
    yield unknown(
      loom.id,
      `needs whether ${listOf([...names])} stand ${agent}, as there is in ${zone} (resists)`,
      loom.at,
    )
  }
}

export const fitForZone: Rule = {
  id: 'fit-for-zone',
  title: 'Plugs and jackets suit their place, mated and open',
  family: 'routing',
  level: 'warning',
  covers: ['E7'],
  reason:
    'A plug sealed when mated lies open in the bilge until it is used; a jacket made for a rack cracks in the sun. Both are sound on the bench and gone in two years.',
  remedy: 'A family with the protection asked for, a cap on what is open, a jacket made for the place.',
  needs:
    '"wet", "ip", "sun", "oil" of zones; "ip" and "ipOpen" of families or "cover" of connectors; "resists" of wires and cables',
  sources: ['IEC 60529 for the codes', 'FAA AC 43.13-1B ¶11-100', 'marine practice'],
  examples: { trips: example('IP20'), passes: example('IP67') },
  *check({ loom }) {
    const zones = zonesOf(loom)
    const silent: Half[] = []
    for (const place of placesOf(loom, zones)) {
      const code = codeOf(place)
      if (code === undefined) silent.push(place.half)
      else if (code !== true && !reaches(code, place.needed)) yield openToWater(place, code)
    }
    if (silent.length > 0)
      yield unknown(
        loom.id,
        `needs the protection of ${listOf(silent.map(({ address }) => address))} (ip, ipOpen or cover)`,
        silent[0]?.at,
      )
    yield* jackets(loom, zones)
  },
}
