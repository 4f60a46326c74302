import type { Half, Loom } from '../../resolve/loom.ts'
import { type Joint, jointsOf } from '../rebuild.ts'

/** Whether a hand can put one plug where the other belongs: on one unit, in one zone, or not stated. */
export type Reach = 'same-unit' | 'same-zone' | 'unknown' | 'apart'

/** Two plugs that go into each other's place, or one that goes into a socket left free. */
export interface TwinPlugs {
  readonly first: Joint
  /** The other mated plug; undefined where the other socket is free. */
  readonly second?: Joint
  /** Where the first plug would go. */
  readonly wrong: Half
  readonly reach: Reach
}

/** Rings, screw terminals and lone ends are placed one by one by hand, and no keying would keep them apart. */
const PLUGS: ReadonlySet<string> = new Set(['housing', 'circular', 'dsub', 'modular', 'jack', 'coax'])

const isPlugged = ({ one, two }: Joint): boolean =>
  one.side === 'harness' &&
  two.side === 'equipment' &&
  one.family !== undefined &&
  PLUGS.has(one.family.style)

/** Halves that look alike to a hand: family, gender and keying. */
const shape = (half: Half): string => [half.familyId, half.gender ?? '', half.coding ?? ''].join('|')

/** What a half is by type, so that fourteen equal stations are tried once. */
const typeOf = (half: Half): string => `${half.unit?.equipment.id ?? half.loom?.harness.id}.${half.id}`

/** Names, ports and remarks of a pin do not change what a wrong plug does to it. */
const WORDS: ReadonlySet<string> = new Set(['name', 'note', 'port', 'line'])

/** One number for all halves whose pins do the same electrically; worked out once a half. */
function functionNumbers(): (half: Half) => number {
  const numbers = new Map<Half, number>()
  const texts = new Map<string, number>()
  return (half) => {
    const known = numbers.get(half)
    if (known !== undefined) return known
    const text = JSON.stringify(
      [...half.pins.values()].map((pin) => [
        pin.name,
        Object.entries(pin.does).filter(([field]) => !WORDS.has(field)),
      ]),
    )
    const number = texts.get(text) ?? texts.size
    texts.set(text, number)
    numbers.set(half, number)
    return number
  }
}

function reachOf(plug: Half, home: Half, wrong: Half, other?: Half): Reach {
  if (home.unit === wrong.unit) return 'same-unit'
  const here = plug.zone ?? home.zone
  const there = other?.zone ?? wrong.zone
  if (here === undefined || there === undefined) return 'unknown'
  return here === there ? 'same-zone' : 'apart'
}

const NEARNESS: Readonly<Record<Reach, number>> = { 'same-unit': 0, 'same-zone': 1, unknown: 2, apart: 3 }

/** Interchangeable plugs whose sockets do different things, the nearest pair of each two types, nearest first. */
export function twinPlugs(loom: Loom): readonly TwinPlugs[] {
  const byTypes = new Map<string, TwinPlugs>()
  const does = functionNumbers()
  const offer = (twins: TwinPlugs): void => {
    if (twins.reach === 'apart' || does(twins.first.two) === does(twins.wrong)) return
    const key = [typeOf(twins.first.two), typeOf(twins.wrong)].sort().join('|')
    const best = byTypes.get(key)
    if (!best || NEARNESS[twins.reach] < NEARNESS[best.reach]) byTypes.set(key, twins)
  }
  for (const group of alike(loom)) {
    group.joints.forEach((first, index) => {
      const own = does(first.two)
      for (const second of group.joints.slice(index + 1)) {
        if (does(second.two) === own) continue
        offer({
          first,
          second,
          wrong: second.two,
          reach: reachOf(first.one, first.two, second.two, second.one),
        })
      }
      for (const wrong of group.free)
        if (wrong.unit === first.two.unit) offer({ first, wrong, reach: 'same-unit' })
    })
  }
  return [...byTypes.values()].sort((a, b) => NEARNESS[a.reach] - NEARNESS[b.reach])
}

interface Alike {
  readonly joints: Joint[]
  readonly free: Half[]
}

/** Plugs of one shape with their sockets, and the free sockets of that shape. */
function alike(loom: Loom): Iterable<Alike> {
  const byPlug = new Map<string, Alike>()
  const bySocket = new Map<string, Alike>()
  for (const joint of jointsOf(loom)) {
    if (!isPlugged(joint)) continue
    const group = byPlug.get(shape(joint.one)) ?? { joints: [], free: [] }
    group.joints.push(joint)
    byPlug.set(shape(joint.one), group)
    bySocket.set(shape(joint.two), group)
  }
  for (const half of loom.halves)
    if (half.side === 'equipment' && half.mates.length === 0) bySocket.get(shape(half))?.free.push(half)
  return byPlug.values()
}
