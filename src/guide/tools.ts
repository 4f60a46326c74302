import type { Loom } from '../resolve/loom.ts'
import type { Hazard } from './cautions.ts'

/** Tools and consumables for a job: the usual ones, and those its parts ask for. */
export function toolsFor(loom: Loom, hazards: ReadonlySet<Hazard>): string[] {
  const contacts = loom.looms.flatMap((use) =>
    use.halves.flatMap((half) => {
      const source = half.source
      const id = 'contact' in source ? source.contact : undefined
      const tool = typeof id === 'string' ? loom.parts.contacts.get(id)?.tool : undefined
      return tool ? [tool] : []
    }),
  )
  const when = (hazard: Hazard, tool: string) => (hazards.has(hazard) ? [tool] : [])
  return [
    'Multimeter, leads zeroed; current clamp or bench supply with a current limit',
    'The ring-out sheet of this loom, passed and signed',
    ...when('battery', 'Insulated spanners; torque wrench for studs and posts'),
    ...when('airbag', 'Trim tools; grommets, sleeve, ties and clips'),
    ...when('drilling', 'Drill with depth stop, deburring tool, primer and sealant'),
    ...when('rf', 'Power meter and dummy load good for the transmitter; torque tool for the coax plugs'),
    ...when('hearing', 'Ear protection'),
    ...(contacts.length > 0 ? [`For repairs on site: ${[...new Set(contacts)].sort().join(' · ')}`] : []),
  ]
}
