import { below } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import type { Equipment } from '../describe/equipment.ts'
import type { PinFunction } from '../describe/function.ts'
import type { Sourced } from '../describe/shop.ts'
import { addPin } from './find-end.ts'
import type { Draft, DraftHalf, GraphBuilder } from './graph-builder.ts'
import type { Terminal } from './loom.ts'

export type EquipmentIndex = ReadonlyMap<string, Sourced<Equipment>>

/** The pin functions a plug is made for, by pin name; one lone entry under '' when it fits a single pin of a block. */
function functionsFor(
  half: DraftHalf,
  equipment: EquipmentIndex,
): Readonly<Record<string, PinFunction>> | undefined {
  if (half.fits === undefined) return undefined
  const [type = '', id = '', ...rest] = half.fits.split('.')
  const pins = equipment.get(type)?.value.connectors.find((entry) => entry.id === id)?.pins
  if (!pins || rest.length === 0) return pins
  const name = rest.join('.')
  const one = Object.hasOwn(pins, name) ? pins[name] : undefined
  return one ? { '': one } : {}
}

/**
 * Says what the pins of loom halves do: what the pin of the connector they fit does, else that of the pin they are mated
 * with. Names in `fits` that lead nowhere are reported.
 */
export function assignFunctions(b: GraphBuilder, equipment: EquipmentIndex): void {
  for (const half of b.halves) {
    if (half.side !== 'harness') continue
    checkFitsName(b, half, equipment)
    const functions = functionsFor(half, equipment)
    if (functions) assign(b, half, functions)
  }
  for (const link of b.links) {
    if (link.kind !== 'mate') continue
    copyFunction(link.a, link.b)
    copyFunction(link.b, link.a)
  }
}

function assign(b: GraphBuilder, half: DraftHalf, functions: Readonly<Record<string, PinFunction>>): void {
  if (!half.family)
    for (const name of Object.keys(functions))
      if (name !== '' && !half.pins.has(name)) addPin(b, half, name, half.at)
  const names = Object.keys(functions)
  const lone = names.length === 1 ? functions[names[0] ?? ''] : undefined
  for (const pin of half.pins.values() as Iterable<Draft<Terminal>>) {
    const own = Object.hasOwn(functions, pin.name) ? functions[pin.name] : undefined
    const does = own ?? (half.pins.size === 1 ? lone : undefined)
    if (does) pin.does = does
  }
}

function copyFunction(to: Draft<Terminal>, from: Terminal): void {
  if (to.on === 'harness' && from.on === 'equipment' && to.half?.fits === undefined) to.does = from.does
}

function checkFitsName(b: GraphBuilder, half: DraftHalf, equipment: EquipmentIndex): void {
  if (half.fits === undefined) return
  const [type = '', id, ...rest] = half.fits.split('.')
  const found = equipment.get(type)
  const connector = found?.value.connectors.find((entry) => entry.id === id)
  const pin = rest.length > 0 ? rest.join('.') : undefined
  if (connector && (pin === undefined || Object.hasOwn(connector.pins, pin))) return
  const names = found?.value.connectors.map((entry) => `${type}.${entry.id}`) ?? []
  const what = !found
    ? `no equipment is called ${quote(type)}`
    : !connector
      ? `${type} has no connector ${quote(id ?? '')}`
      : `${type}.${id} describes no pin ${quote(pin ?? '')}`
  b.report({
    rule: 'name-not-found',
    subject: `${half.loom?.harness.id}/${half.id}`,
    what: `${half.id} fits ${quote(half.fits)}, but ${what}`,
    why: 'What its pins do comes from the connector it fits; without it no function can be checked.',
    fix: found
      ? `Write one of ${(connector ? Object.keys(connector.pins).map((name) => `${type}.${id}.${name}`) : names).join(', ')}.`
      : didYouMean(type, equipment.keys()).trim() || 'Describe the equipment, or correct the name.',
    at: below(half.at, 'fits'),
    marks: [half.address],
  })
}
