import type { Half, Loom, Terminal } from '../../resolve/loom.ts'
import { mirrorImage } from './mirror-image.ts'
import { type PinMap, pinMaps } from './pin-maps.ts'
import { expectedPartners } from './same-signal.ts'

/** With two wires a mirror cannot be told from a plain swap. */
const FEWEST = 3

/** A half whose pin list was drawn from its other face. */
export interface Mirror {
  readonly map: PinMap
  readonly image: ReadonlyMap<string, string>
  /** Signal pin of the half, the pin its wire sits in, and the pin of the unit that it leads to. */
  readonly moved: readonly { readonly meant: Terminal; readonly sitsIn: Terminal; readonly leads: Terminal }[]
  /** How many signals agree on it. */
  readonly judged: number
  /** Mirrors at the other end that would explain the same wires. */
  readonly instead: readonly Mirror[]
}

/** A map that cannot be judged, since too few of its signals have a name or role at both ends. */
export interface Unnamed {
  readonly map: PinMap
  readonly paired: number
}

/** The half of the loom in which the wires sit, where there is one. */
export const plugOf = ({ map: { half } }: Pick<Mirror, 'map'>): Half => half.mate ?? half

/** All mirrored halves of a loom, one for each pair of ends, and the maps that cannot be judged. */
export function mirroredHalves(loom: Loom): { readonly mirrors: Mirror[]; readonly unnamed: Unnamed[] } {
  const byPair = new Map<string, Mirror[]>()
  const unnamed = new Map<string, Unnamed>()
  for (const map of pinMaps(loom, FEWEST)) {
    if (map.leads.size < FEWEST) continue
    const image = map.half.family && mirrorImage(map.half.family)
    if (!image) continue
    const far = [...new Set(map.leads.values())]
    const pair = [map.half.address, ...new Set(far.map((pin) => pin.half?.address ?? ''))].sort().join('|')
    const expected = expectedPartners([...map.half.pins.values()], pinsOfHalves(far))
    const mirror = findMirror(map, image, expected, new Set(far))
    if (mirror) byPair.set(pair, [...(byPair.get(pair) ?? []), mirror])
    else if (map.leads.size >= FEWEST && expected.size < FEWEST && !unnamed.has(pair))
      unnamed.set(pair, { map, paired: expected.size })
  }
  return { mirrors: [...byPair.values()].map(likeliest), unnamed: [...unnamed.values()] }
}

/**
 * The wires are mirrored when each signal sits where its own pin appears on the other face: f(μ(a)) = e(a) for all
 * signals a that the unit has too.
 */
function findMirror(
  map: PinMap,
  image: ReadonlyMap<string, string>,
  expected: ReadonlyMap<Terminal, Terminal>,
  wired: ReadonlySet<Terminal>,
): Mirror | undefined {
  const moved: Mirror['moved'][number][] = []
  let judged = 0
  for (const [meant, leads] of expected) {
    if (!wired.has(leads)) continue
    const sitsIn = map.half.pins.get(image.get(meant.name) ?? '')
    if (!sitsIn || map.leads.get(sitsIn) !== leads) return undefined
    judged++
    if (sitsIn !== meant) moved.push({ meant, sitsIn, leads })
  }
  return judged >= FEWEST && moved.length >= 2 ? { map, image, moved, judged, instead: [] } : undefined
}

/** The end to name when both explain the fault equally: one whose pin list was taken from the wire side, else the later. */
function likeliest(mirrors: readonly Mirror[]): Mirror {
  const wireSide = mirrors.find((mirror) => {
    const { source } = plugOf(mirror)
    return 'view' in source && source.view === 'wire-entry'
  })
  const chosen = wireSide ?? (mirrors[mirrors.length - 1] as Mirror)
  return { ...chosen, instead: mirrors.filter((other) => other !== chosen) }
}

const pinsOfHalves = (pins: readonly Terminal[]): readonly Terminal[] => [
  ...new Set(pins.flatMap((pin) => [...(pin.half?.pins.values() ?? [])])),
]
