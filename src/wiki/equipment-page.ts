import { formatAmps } from '../base/format-quantity.ts'
import type { Equipment, EquipmentConnector } from '../describe/equipment.ts'
import type { ConnectorFamily } from '../describe/part.ts'
import { cautionFor } from '../guide/cautions.ts'
import { equipmentPinout } from '../sheets/equipment-pinout.ts'
import { sheetView } from '../sheets/sheet-view.ts'
import { markup } from '../sheets/templates.ts'
import { anchor } from './anchor.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { SiteFile } from './site-input.ts'
import { usesOfEquipment } from './where-used.ts'

/** The page of one type of equipment: every connector with both faces and what each pin does. */
export function equipmentPage(site: Site, equipment: Equipment): SiteFile {
  const path = site.map.equipmentPage(equipment.id) ?? ''
  const facts = {
    path,
    title: equipment.title,
    about: `Equipment ${equipment.id}: what each pin of each connector does.`,
  }
  return makePage(site, 'equipment', facts, {
    id: equipment.id,
    title: equipment.title,
    role: equipment.role ?? '',
    note: equipment.note ?? '',
    cautions: (equipment.cautions ?? []).map((hazard) => cautionFor(hazard)),
    connectors: uniqueConnectors(equipment).map((connector) =>
      connectorView(site, path, equipment, connector),
    ),
    inside: uniqueParts(equipment).map((part) => ({
      anchor: anchor('part', part.id),
      id: part.id,
      what: [
        part.kind,
        part.kind === 'fuse' && part.rating !== undefined ? formatAmps(part.rating) : '',
        part.title ?? '',
      ]
        .filter((text) => text !== '')
        .join(', '),
      between: Object.entries(part.between ?? {})
        .map(([terminal, pin]) => `${terminal} on ${pin}`)
        .join(', '),
    })),
    joins: (equipment.joins ?? []).map((join) => `${join.pins.join(', ')} are one inside`),
    isolates: (equipment.isolates ?? []).map((one) => `${one.pins.join(', ')} isolated by ${one.by}`),
    uses: usesOfEquipment(site, path, equipment.id),
  })
}

const firstOfEach = <T extends { readonly id: string }>(things: readonly T[]): T[] =>
  things.filter((thing, index) => things.findIndex((other) => other.id === thing.id) === index)

const uniqueConnectors = (equipment: Equipment): EquipmentConnector[] => firstOfEach(equipment.connectors)
const uniqueParts = (equipment: Equipment) => firstOfEach(equipment.inside ?? [])

function familyOf(site: Site, id: string): ConnectorFamily | undefined {
  return site.input.looms[0]?.loom.parts.connectors.get(id)
}

function connectorView(site: Site, path: string, equipment: Equipment, connector: EquipmentConnector) {
  const family = familyOf(site, connector.family)
  const gender = connector.half
  const pictures = family ? site.input.pictures.faces({ family, gender, half: undefined }) : []
  return {
    id: anchor('connector', connector.id),
    // A type of equipment is in many places: its pins have no way of their own.
    address: '',
    name: connector.id,
    full: connector.id,
    title: connector.title ?? '',
    family: family?.title ?? connector.family,
    familyHref: linkTo(path, site.map.connector({ familyId: connector.family, gender })),
    gender: gender ?? '',
    faces: pictures.map(markup),
    hasFaces: pictures.length > 0,
    sheet: sheetView(equipmentPinout(equipment, connector, family), (pin) =>
      anchor('pin', `${connector.id}.${pin}`),
    ),
  }
}
