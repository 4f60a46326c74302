import type { Half, Loom } from '../resolve/loom.ts'
import { halfName } from '../sheets/names.ts'
import { type PinoutContext, pinoutTable } from '../sheets/pinout-table.ts'
import { sheetView } from '../sheets/sheet-view.ts'
import { type Markup, markup } from '../sheets/templates.ts'
import { anchor } from './anchor.ts'
import { linkTo, type Site } from './page.ts'

/** A connector with its faces and its pinout, as it stands on a harness or equipment page. */
export function halfView(site: Site, path: string, loom: Loom, half: Half, context: PinoutContext) {
  const sheet = pinoutTable(loom, half, context)
  const key = { familyId: half.familyId, gender: half.gender }
  return {
    id: anchor('connector', half.id),
    address: half.address,
    name: half.id,
    full: halfName(half),
    title: half.title ?? '',
    family: half.family?.title ?? half.familyId,
    familyHref: linkTo(path, half.family ? site.map.connector(key) : undefined),
    gender: half.gender ?? '',
    ...facesOf(site, half),
    sheet: sheetView(
      sheet,
      (address) => {
        const pin = address.slice(half.address.length + 1)
        return anchor('pin', `${half.id}.${pin}`)
      },
      (address) => {
        const terminal = loom.terminalAt.get(address)
        const net = terminal && loom.nets[loom.netOf[terminal.index] ?? -1]
        return linkTo(path, net && site.map.net(loom, net))
      },
      ['signal', 'type', 'pin'],
    ),
  }
}

/** Both faces of a half, and whether its geometry is known at all. */
export function facesOf(
  site: Site,
  half: Half,
): { readonly faces: readonly Markup[]; readonly hasFaces: boolean } {
  const pictures = half.family
    ? site.input.pictures.faces({ family: half.family, gender: half.gender, half })
    : []
  return { faces: pictures.map(markup), hasFaces: pictures.length > 0 }
}
