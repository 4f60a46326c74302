import type { Pointer } from '../base/place.ts'
import type { Equipment } from '../describe/equipment.ts'
import type { Harness } from '../describe/harness.ts'
import type { Installation } from '../describe/installation.ts'
import type { Sourced } from '../describe/shop.ts'
import type { Half, Loom } from '../resolve/loom.ts'
import { resolveInstallation } from '../resolve/resolve.ts'

/** Two halves that are mated, and the pin of the second where a ring or lone end sits on a block. */
export interface Joint {
  readonly one: Half
  readonly two: Half
  readonly pin?: string
}

/** What is different in the loom to be tried out. */
export interface Change {
  readonly joints?: readonly Joint[]
  /** Harnesses to use instead, by id. */
  readonly harnesses?: ReadonlyMap<string, Harness>
}

/** The mated pairs of a loom, free half first. */
export function jointsOf(loom: Loom): readonly Joint[] {
  const joints = new Map<string, Joint>()
  for (const { kind, a, b } of loom.links) {
    if (kind !== 'mate' || !a.half || !b.half) continue
    const [free, fixed] = a.half.side === 'harness' ? [a, b] : [b, a]
    const [one, two] = [free.half, fixed.half]
    if (!one || !two) continue
    const lone = one.pins.size === 1 && two.pins.size > 1
    const key = `${one.index} ${two.index} ${lone ? fixed.name : ''}`
    if (!joints.has(key)) joints.set(key, lone ? { one, two, pin: fixed.name } : { one, two })
  }
  return [...joints.values()]
}

/**
 * The loom as it would be with other mates or other harnesses. It is resolved anew from the same description, so that every
 * question that can be asked of the loom can be asked of it; its own findings are of no interest.
 */
export function rebuild(loom: Loom, change: Change): Loom {
  const equipment = new Map<string, Sourced<Equipment>>()
  for (const unit of loom.units)
    if (!equipment.has(unit.equipment.id))
      equipment.set(unit.equipment.id, { value: unit.equipment, at: describedAt(unit.halves[0], unit.at) })
  const harnesses = new Map<string, Sourced<Harness>>()
  for (const use of loom.looms) {
    const { id } = use.harness
    const value = change.harnesses?.get(id) ?? use.harness
    harnesses.set(id, { value, at: describedAt(use.halves[0], use.at) })
  }
  const shop = {
    parts: [],
    equipment: [...equipment.values()],
    harnesses: [...harnesses.values()],
    installations: [],
    policy: undefined,
    procedures: [],
  }
  const { parts, settings } = loom
  const index = { shop, parts, settings, equipment, harnesses, installations: new Map(), findings: [] }
  return resolveInstallation(index, {
    value: asInstallation(loom, change.joints ?? jointsOf(loom)),
    at: loom.at,
  })
}

/** Where the equipment or harness was written: two steps above its connector. */
function describedAt(half: Half | undefined, fallback: Pointer): Pointer {
  return half ? { doc: half.at.doc, path: half.at.path.slice(0, -2) } : fallback
}

function asInstallation(loom: Loom, joints: readonly Joint[]): Installation {
  return {
    ...(loom.kind === 'installation' ? (loom.source as Installation) : {}),
    id: loom.id,
    title: loom.title,
    setting: loom.setting,
    structure: loom.structure,
    units: loom.units.map((unit) => ({
      id: unit.id,
      of: unit.equipment.id,
      ...(unit.zone === undefined ? {} : { zone: unit.zone }),
    })),
    looms: loom.looms.map((use) => ({ id: use.id, of: use.harness.id })),
    mates: joints.map(({ one, two, pin }): [string, string] => [
      one.address,
      pin === undefined ? two.address : `${two.address}.${pin}`,
    ]),
  }
}
