import { below } from '../base/place.ts'
import type { DraftHalf, GraphBuilder } from './graph-builder.ts'
import { isFree, mateHalves, takesMany } from './mate-halves.ts'

/**
 * Mates loom connectors that fit the only free connector of their kind: exactly one unit half of that type and
 * connector is free, and no second plug wants it (a stud takes any number). What stays open is reported with the candidates.
 */
export function mateByFit(b: GraphBuilder): void {
  for (const [fits, plugs] of plugsByFit(b)) {
    const [type, connector, ...rest] = fits.split('.')
    const pin = rest.length > 0 ? { pin: rest.join('.') } : {}
    const all = b.halves.filter((half) => half.unit?.equipment.id === type && half.id === connector)
    const free = all.filter((half) => isFree({ half }))
    const [only] = free
    if (only && free.length === 1 && (plugs.length === 1 || takesMany(only)))
      for (const plug of plugs) mateHalves(b, { half: plug }, { half: only, ...pin })
    else for (const plug of plugs) reportUnclear(b, plug, fits, { plugs, free, all })
  }
}

function plugsByFit(b: GraphBuilder): Map<string, DraftHalf[]> {
  const groups = new Map<string, DraftHalf[]>()
  for (const half of b.halves) {
    if (half.side !== 'harness' || half.mates.length > 0 || half.fits === undefined) continue
    const group = groups.get(half.fits)
    if (group) group.push(half)
    else groups.set(half.fits, [half])
  }
  return groups
}

function reportUnclear(
  b: GraphBuilder,
  plug: DraftHalf,
  fits: string,
  found: { plugs: readonly DraftHalf[]; free: readonly DraftHalf[]; all: readonly DraftHalf[] },
): void {
  const addresses = (halves: readonly DraftHalf[]): string => halves.map((half) => half.address).join(', ')
  const example = found.free[0] ?? found.all[0]
  const what =
    found.all.length === 0
      ? `${plug.address} fits ${fits}, but no unit of that type is in ${b.loomId}`
      : found.free.length === 0
        ? `${plug.address} fits ${fits}, but ${addresses(found.all)} is already mated`
        : `${plug.address} fits ${fits}, and it is not clear which: ${addresses(found.free)} ${found.free.length === 1 ? 'is' : 'are'} free for ${addresses(found.plugs)}`
  b.report({
    rule: 'mate-unclear',
    subject: `${b.loomId}/${plug.address}`,
    what,
    fix: example
      ? `List the pair under mates, such as ["${plug.address}", "${example.address}"].`
      : `Add the unit to ${b.loomId}, or correct what ${plug.id} fits.`,
    at: below(plug.at, 'fits'),
    marks: [plug.address, ...found.free.map((half) => half.address)],
  })
}

/** Units nothing is plugged into, and plugs that go nowhere: allowed, but seldom meant. */
export function noteUnmated(b: GraphBuilder): void {
  for (const unit of b.units)
    if (!unit.halves.some((half) => half.mates.length > 0))
      b.report({
        rule: 'mate-unclear',
        level: 'note',
        subject: `${b.loomId}/${unit.id}`,
        what: `Nothing is mated with ${unit.id} (${unit.title})`,
        why: 'A unit with nothing plugged in takes no part in any figure or drawing of the circuits.',
        fix: 'Mate a loom with it, or take it out of the installation.',
        at: unit.at,
        marks: unit.halves.map((half) => half.address),
      })
  for (const half of b.halves)
    if (half.side === 'harness' && half.mates.length === 0 && half.fits === undefined)
      b.report({
        rule: 'mate-unclear',
        level: 'note',
        subject: `${b.loomId}/${half.address}`,
        what: `${half.address} is mated with nothing`,
        fix: 'List its partner under mates, or say which equipment connector it fits.',
        at: half.at,
        marks: [half.address],
      })
}
