import { below, type Pointer } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import type { Installation } from '../describe/installation.ts'
import type { DraftHalf, GraphBuilder } from './graph-builder.ts'
import { isFree, type MateSide, mateHalves } from './mate-halves.ts'
import { listNames } from './problem.ts'

/** Mates the pairs an installation lists. */
export function mateListed(b: GraphBuilder, installation: Installation, installationAt: Pointer): void {
  installation.mates?.forEach((pair, index) => {
    const at = below(installationAt, 'mates', index)
    const one = findSide(b, pair[0], below(at, 0))
    const two = findSide(b, pair[1], below(at, 1))
    if (one && two && mayMate(b, one, two, at)) mateHalves(b, one, two)
  })
}

/** The half an address names: “main.P1”, “radio.J1”, “block.OUT.3”, or “battery” alone where it has one connector. */
function findSide(b: GraphBuilder, text: string, at: Pointer): MateSide | undefined {
  const [owner = '', connector, ...rest] = text.split('.')
  if (b.broken.has(owner)) return undefined
  const named = b.halfAt.get(`${owner}.${connector}`)
  if (named) return rest.length === 0 ? { half: named } : pinSide(b, named, rest.join('.'), at)
  const halves = b.halves.filter((half) => (half.unit?.id ?? half.loom?.id) === owner)
  const known = b.units.some((unit) => unit.id === owner) || b.looms.some((loom) => loom.id === owner)
  if (!known) {
    const names = [...b.units, ...b.looms].map((entry) => entry.id)
    return unknown(b, text, at, `${b.loomId} has no unit or loom ${quote(owner)}`, owner, names)
  }
  const only = connector === undefined && halves.length === 1 ? halves[0] : undefined
  if (only) return { half: only }
  const names = halves.map((entry) => `${owner}.${entry.id}`)
  const what =
    connector === undefined
      ? `${owner} has ${halves.length} connectors`
      : `${owner} has no connector ${quote(connector)}`
  return unknown(b, text, at, what, text, names)
}

function pinSide(b: GraphBuilder, half: DraftHalf, pin: string, at: Pointer): MateSide | undefined {
  if (half.pins.has(pin)) return { half, pin }
  const names = [...half.pins.keys()]
  b.report({
    rule: 'pin-exists',
    subject: `${b.loomId}/${half.address}.${pin}`,
    what: `A mate names pin ${quote(pin)} of ${half.address}, which has no such pin`,
    why: `Its pins are ${listNames(names)}.`,
    fix: `Name one of its pins.${didYouMean(pin, names)}`,
    at,
  })
  return undefined
}

function unknown(
  b: GraphBuilder,
  text: string,
  at: Pointer,
  what: string,
  word: string,
  names: string[],
): undefined {
  b.report({
    rule: 'name-not-found',
    subject: `${b.loomId}/${text}`,
    what: `A mate names ${quote(text)}, but ${what}`,
    fix: didYouMean(word, names).trim() || `Name one of ${listNames(names)}.`,
    at,
  })
  return undefined
}

function mayMate(b: GraphBuilder, one: MateSide, two: MateSide, at: Pointer): boolean {
  if (one.half === two.half)
    return refuse(
      b,
      one,
      at,
      `${one.half.address} is said to mate with itself`,
      'Name the half it goes into.',
    )
  if (one.half.mates.includes(two.half) && one.pin === undefined && two.pin === undefined)
    return refuse(
      b,
      one,
      at,
      `${one.half.address} and ${two.half.address} are mated twice`,
      'Delete one of the two lines.',
    )
  for (const [side, other] of [
    [one, two],
    [two, one],
  ] as const) {
    const first = side.half.mates[0]
    if (first && !isFree(side))
      return refuse(
        b,
        side,
        at,
        `${side.half.address} is mated with ${first.address} and also with ${other.half.address}`,
        'A connector has one partner: delete one of the two, or use a stud, a block or a splitter.',
      )
  }
  checkFits(b, one, two, at)
  checkFits(b, two, one, at)
  return true
}

function refuse(b: GraphBuilder, side: MateSide, at: Pointer, what: string, fix: string): false {
  b.report({
    rule: 'contradiction',
    subject: `${b.loomId}/${side.half.address}`,
    what,
    fix,
    at,
    marks: [side.half.address],
  })
  return false
}

/** A plug made for one connector and mated with another is wired to the wrong pinout, or described wrongly. */
function checkFits(b: GraphBuilder, side: MateSide, other: MateSide, at: Pointer): void {
  const { fits } = side.half
  const { unit } = other.half
  if (fits === undefined || !unit) return
  const [type, connector, ...pin] = fits.split('.')
  const samePin = pin.length === 0 || other.pin === undefined || other.pin === pin.join('.')
  if (type === unit.equipment.id && connector === other.half.id && samePin) return
  const actual = `${unit.equipment.id}.${other.half.id}${other.pin === undefined ? '' : `.${other.pin}`}`
  b.report({
    rule: 'contradiction',
    subject: `${b.loomId}/${side.half.address}`,
    what: `${side.half.address} is made for ${fits} but is mated with ${other.half.address}, a ${actual}`,
    why: 'The pins were assigned for one connector; on another the same pins do other things.',
    fix: `Mate it with a ${fits}, or correct what it fits.`,
    at,
    notes: [{ text: `${side.half.id} says what it fits`, at: below(side.half.at, 'fits') }],
    marks: [side.half.address, other.half.address],
  })
}
