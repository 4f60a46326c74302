import type { Loom, Net } from '../resolve/loom.ts'
import { anchor } from './anchor.ts'

/** Rows of pins and conductors a page of nets holds: 60 to 100 kB, which a phone opens without waiting. */
const MOST_ROWS = 120

/** Nets with something to follow: a wire, or pins that meet and are for something. */
const isShown = ({ terminals, conductors }: Net): boolean =>
  conductors.length > 0 || (terminals.length > 1 && terminals.some(({ does }) => does.kind !== 'unstated'))

/** The page and the spot of each net of a loom. `page` names a page by its number, from one. */
export function netPlaces(
  loom: Loom,
  page: (number: number) => string,
): ReadonlyMap<Net, { readonly path: string; readonly anchor: string }> {
  const places = new Map<Net, { readonly path: string; readonly anchor: string }>()
  let number = 1
  let rows = 0
  for (const net of loom.nets.filter(isShown)) {
    const own = net.terminals.length + net.conductors.length
    if (rows > 0 && rows + own > MOST_ROWS) {
      number++
      rows = 0
    }
    rows += own
    places.set(net, { path: page(number), anchor: anchor('net', net.name) })
  }
  return places
}
