import { formatAmps, formatLength, formatOhms, formatRange, formatVolts } from '../base/format-quantity.ts'
import { bothSizes } from '../base/wire-size.ts'
import type { ConnectorFamily } from '../describe/part.ts'
import { markup } from '../sheets/templates.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { SiteFile } from './site-input.ts'
import type { ConnectorKey } from './site-map.ts'
import { usesOfConnector } from './where-used.ts'

/** The page of one half of a connector family: both faces, ratings, contacts, and where the shop uses it. */
export function connectorPage(site: Site, key: ConnectorKey): SiteFile[] {
  const parts = site.input.looms[0]?.loom.parts
  const family = parts?.connectors.get(key.familyId)
  const path = site.map.connector(key)
  if (!family || !parts || path === undefined) return []
  const half = key.gender === undefined ? '' : `, ${key.gender} half`
  const title = `${family.title}${half}`
  const pictures = site.input.pictures.faces({ family, gender: key.gender, half: undefined })
  const other = key.gender && site.map.connector({ ...key, gender: key.gender === 'pin' ? 'socket' : 'pin' })
  return [
    makePage(
      site,
      'connector',
      { path, title, about: `${title}: both faces, ratings and where it is used.` },
      {
        id: family.id,
        title,
        faces: pictures.map(markup),
        hasFaces: pictures.length > 0,
        other: linkTo(path, other),
        pins: family.pins,
        facts: familyFacts(family),
        contacts: (family.contacts ?? []).flatMap((id) => {
          const contact = parts.contacts.get(id)
          return contact
            ? [
                {
                  id,
                  title: contact.title,
                  wires: `${bothSizes(contact.area.min)} to ${bothSizes(contact.area.max)}`,
                  strip: contact.stripMm === undefined ? '' : formatLength(contact.stripMm),
                  tool: contact.tool ?? '',
                },
              ]
            : []
        }),
        uses: usesOfConnector(site, path, key),
      },
    ),
  ]
}

const LOCKS = {
  none: 'none',
  latch: 'latch',
  screw: 'screws',
  bayonet: 'bayonet',
  friction: 'friction only',
  thread: 'thread',
} as const

function familyFacts(family: ConnectorFamily): { name: string; value: string }[] {
  const facts: [string, string | undefined][] = [
    ['Positions', String(family.pins.length)],
    ['Lock', family.lock && LOCKS[family.lock]],
    ['Current of one contact', family.amps === undefined ? undefined : formatAmps(family.amps)],
    ['Voltage', family.volts === undefined ? undefined : formatVolts(family.volts)],
    [
      'Resistance of a mated contact',
      family.contactResistance === undefined ? undefined : formatOhms(family.contactResistance),
    ],
    ['Impedance', family.ohms === undefined ? undefined : formatOhms(family.ohms)],
    ['Cable diameter', family.cable && formatRange(family.cable, formatLength)],
    ['Largest bundle the hood takes', family.bore === undefined ? undefined : formatLength(family.bore)],
    ['Cable clamp', family.clamp === undefined ? undefined : family.clamp ? 'its own' : 'none of its own'],
    ['Protection when mated', family.ip],
    ['Protection when open', family.ipOpen],
    ['Pins', family.shrouded ? 'in a shroud: nothing touches them by chance' : undefined],
    ['Coding', family.coding],
    ['Sealed', family.sealed ? 'yes: a seal on each wire, a plug in each empty cavity' : undefined],
    ['Shell', family.shell ? 'conductive, mates first or last as the maker says' : undefined],
    ['Can be mated turned or offset', family.fullWays ? 'yes: nothing keys it' : undefined],
    ['Source of the figures', family.source],
  ]
  return facts.flatMap(([name, value]) => (value === undefined ? [] : [{ name, value }]))
}
