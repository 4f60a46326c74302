import { linkTo, type Site } from './page.ts'

/** One place where a thing is used. */
export interface UseView {
  readonly text: string
  readonly detail: string
  readonly href: string
}

/** Installations that use a harness. */
export function usesOfHarness(site: Site, path: string, harnessId: string): UseView[] {
  return site.map.installations.flatMap(({ loom }) => {
    const names = loom.looms.filter((use) => use.harness.id === harnessId).map((use) => use.id)
    if (names.length === 0) return []
    return [
      {
        text: loom.title,
        detail: `as ${names.join(', ')}`,
        href: linkTo(path, site.map.installation(loom.id)),
      },
    ]
  })
}

/** Installations that use a type of equipment, and harnesses made to fit it. */
export function usesOfEquipment(site: Site, path: string, equipmentId: string): UseView[] {
  const places = site.map.installations.flatMap(({ loom }) => {
    const names = loom.units.filter((unit) => unit.equipment.id === equipmentId).map((unit) => unit.id)
    if (names.length === 0) return []
    return [
      {
        text: loom.title,
        detail: `as ${names.join(', ')}`,
        href: linkTo(path, site.map.installation(loom.id)),
      },
    ]
  })
  const looms = site.map.harnesses.flatMap(({ harness }) => {
    const plugs = harness.connectors.filter((connector) => connector.fits?.split('.')[0] === equipmentId)
    if (plugs.length === 0) return []
    return [
      {
        text: harness.title,
        detail: `with ${plugs.map((plug) => plug.id).join(', ')}`,
        href: linkTo(path, site.map.harness(harness.id)),
      },
    ]
  })
  return [...places, ...looms]
}

/** Equipment and harness connectors of one family and gender. */
export function usesOfConnector(
  site: Site,
  path: string,
  key: { readonly familyId: string; readonly gender: string | undefined },
): UseView[] {
  const seen = new Map<string, UseView>()
  for (const { loom } of site.input.looms) {
    for (const half of loom.halves) {
      if (half.familyId !== key.familyId || half.gender !== key.gender) continue
      const owner = half.loom?.harness.title ?? half.unit?.equipment.title ?? ''
      const target = site.map.place(loom, half.address)
      const use = { text: `${half.id} of ${owner}`, detail: half.title ?? '', href: linkTo(path, target) }
      seen.set(`${use.text} ${use.href}`, use)
    }
  }
  return [...seen.values()]
}
