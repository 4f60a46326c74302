import { below, type Pointer } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import type { EquipmentConnector } from '../describe/equipment.ts'
import type { HarnessConnector } from '../describe/harness.ts'
import type { DraftHalf, GraphBuilder } from './graph-builder.ts'
import type { LoomUse, Unit } from './loom.ts'
import { listNames } from './problem.ts'

/** Builds a half on equipment with a terminal for each pin of its family, as far as the family is known. */
export function resolveEquipmentHalf(
  b: GraphBuilder,
  unit: Unit,
  source: EquipmentConnector,
  at: Pointer,
): DraftHalf {
  const subject = `${unit.equipment.id}/${source.id}`
  const half = baseHalf(b, source, at, subject, {
    address: `${unit.id}.${source.id}`,
    side: 'equipment',
    unit,
    zone: unit.zone,
  })
  const described = Object.keys(source.pins)
  const names = half.family ? pinNames(half) : described
  for (const name of names) {
    const does = Object.hasOwn(source.pins, name) ? source.pins[name] : undefined
    const pin = b.terminal({
      address: `${half.address}.${name}`,
      name,
      on: 'equipment',
      half,
      at: does ? below(at, 'pins', name) : at,
      ...(does ? { does } : {}),
    })
    half.pins.set(name, pin)
  }
  for (const name of described)
    if (!half.pins.has(name)) noSuchPin(b, half, name, `${subject}.${name}`, below(at, 'pins', name))
  return half
}

/** Builds the free half of a loom. What its pins do is filled in later, from the equipment it fits. */
export function resolveHarnessHalf(
  b: GraphBuilder,
  loom: LoomUse,
  source: HarnessConnector,
  at: Pointer,
): DraftHalf {
  const subject = `${loom.harness.id}/${source.id}`
  const half = baseHalf(b, source, at, subject, {
    address: `${loom.id}.${source.id}`,
    side: 'harness',
    loom,
    zone: source.zone,
  })
  if (source.fits !== undefined) half.fits = source.fits
  const described = Object.keys(source.pins ?? {})
  for (const name of half.family ? pinNames(half) : described)
    half.pins.set(
      name,
      b.terminal({
        address: `${half.address}.${name}`,
        name,
        on: 'harness',
        half,
        at: described.includes(name) ? below(at, 'pins', name) : at,
      }),
    )
  for (const name of described)
    if (!half.pins.has(name)) noSuchPin(b, half, name, `${subject}.${name}`, below(at, 'pins', name))
  checkContacts(b, source, at, subject)
  return half
}

function baseHalf(
  b: GraphBuilder,
  source: EquipmentConnector | HarnessConnector,
  at: Pointer,
  subject: string,
  place: { address: string; side: DraftHalf['side']; unit?: Unit; loom?: LoomUse; zone: string | undefined },
): DraftHalf {
  const family = b.parts.connectors.get(source.family)
  if (!family)
    b.report({
      rule: 'name-not-found',
      subject,
      what: `${source.id} is of the family ${quote(source.family)}, which no part describes`,
      why: 'Without its family the pins, their places on the face and their ratings are not known; only the pins that are named are drawn.',
      fix:
        didYouMean(source.family, b.parts.connectors.keys()).trim() ||
        'Describe the family as a part of kind "connector", or use one of the catalogue.',
      at: below(at, 'family'),
      marks: [place.address],
    })
  const coding = source.coding ?? family?.coding
  const { zone, unit, loom } = place
  return b.half({
    address: place.address,
    id: source.id,
    side: place.side,
    familyId: source.family,
    source,
    at,
    ...(source.title === undefined ? {} : { title: source.title }),
    ...(family ? { family } : {}),
    ...(source.half ? { gender: source.half } : {}),
    ...(coding === undefined ? {} : { coding }),
    ...(unit ? { unit } : {}),
    ...(loom ? { loom } : {}),
    ...(zone === undefined ? {} : { zone }),
  })
}

function pinNames(half: DraftHalf): readonly string[] {
  const names = half.family?.pins ?? []
  return half.family?.shell && !names.includes('shell') ? [...names, 'shell'] : names
}

function noSuchPin(b: GraphBuilder, half: DraftHalf, name: string, subject: string, at: Pointer): void {
  const names = [...half.pins.keys()]
  b.report({
    rule: 'pin-exists',
    subject,
    what: `${half.id} describes pin ${quote(name)}, which a ${half.familyId} does not have`,
    why: `The pins of ${half.familyId} are ${listNames(names)}.`,
    fix: `Use a pin the family has, or correct the family.${b.hint(name, () => names)}`,
    at,
    marks: [half.address],
  })
}

function checkContacts(b: GraphBuilder, source: HarnessConnector, at: Pointer, subject: string): void {
  const check = (kind: 'contact' | 'seal', id: string | undefined, where: Pointer): void => {
    const known = kind === 'contact' ? b.parts.contacts : b.parts.seals
    if (id === undefined || known.has(id)) return
    b.report({
      rule: 'name-not-found',
      level: 'warning',
      subject,
      what: `${source.id} names the ${kind} ${quote(id)}, which no part describes`,
      why: `Without its figures the crimp cannot be checked and the ${kind} is missing from the bill of materials' titles.`,
      fix: didYouMean(id, known.keys()).trim() || `Describe it as a part of kind "${kind}".`,
      at: where,
    })
  }
  check('contact', source.contact, below(at, 'contact'))
  check('seal', source.seal, below(at, 'seal'))
  for (const [name, pin] of Object.entries(source.pins ?? {})) {
    check('contact', pin.contact, below(at, 'pins', name, 'contact'))
    check('seal', pin.seal, below(at, 'pins', name, 'seal'))
  }
}
