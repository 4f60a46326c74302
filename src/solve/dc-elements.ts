import { formatOhms } from '../base/format-quantity.ts'
import type { Link, Loom, State, Terminal } from '../resolve/loom.ts'
import { returnPin } from './return-pin.ts'
import type { LinkOhms } from './solution.ts'

/** Joints without a figure are not quite nothing, so that their current can still be told from the volts across them. */
export const LEAST_OHMS = 1e-6
/** Forward voltage and slope of a silicon diode that conducts (common practice). */
export const DIODE_VOLTS = 0.7
export const DIODE_OHMS = 0.01

/** A resistance of the network in one state. */
export interface Element {
  readonly a: number
  readonly b: number
  readonly ohms: number
  readonly link?: Link
  /** Volts lost from a to b before any current flows: a conducting diode. */
  readonly offset?: number
  /** Size or length is not given: taken as nothing. */
  readonly unknown?: boolean
}

/** Whether a switch or relay contact is closed in a state. */
export function isClosed(link: Link, state: State): boolean {
  const source = link.component?.source
  if (link.kind === 'switch') {
    if (source?.kind === 'switch') return source.closed?.includes(state.id) ?? false
    return [link.b, link.a].some((pin) => pin.does.kind === 'contact' && pin.does.rest === 'closed')
  }
  if (link.kind === 'relay-contact') {
    const pulled = source?.kind === 'relay' && (source.pulled?.includes(state.id) ?? false)
    return link.b.name === '87a' ? !pulled : pulled
  }
  return link.kind !== 'capacitor' && link.kind !== 'winding'
}

/** The resistances of the network in a state, diodes apart. */
export function elementsIn(
  loom: Loom,
  ohms: readonly (LinkOhms | undefined)[],
  state: State,
  assumed: Set<string>,
): Element[] {
  const elements: Element[] = []
  for (const link of loom.links) {
    if (link.kind === 'diode' || !isClosed(link, state)) continue
    const known = ohms[link.index]
    if (!known && link.kind !== 'conductor') continue
    elements.push({
      a: link.a.index,
      b: link.b.index,
      ohms: Math.max(known?.ohms ?? 0, LEAST_OHMS),
      link,
      ...(known ? {} : { unknown: true }),
    })
  }
  for (const sink of sinksIn(loom, state)) {
    elements.push({ a: sink.from.index, b: sink.to.index, ohms: loom.settings.contactOhms })
    assumed.add(
      `${sink.from.address} is on in ${state.id}, since it holds a relay that is pulled in; taken as ${formatOhms(loom.settings.contactOhms)} to its return`,
    )
  }
  return elements
}

/** Switched outputs that must be on for the relays said to be pulled in: those on the net of such a relay's coil. */
function sinksIn(loom: Loom, state: State): { from: Terminal; to: Terminal }[] {
  const coils = loom.links.filter((link) => {
    const source = link.component?.source
    return link.kind === 'coil' && source?.kind === 'relay' && source.pulled?.includes(state.id)
  })
  const nets = new Set(coils.flatMap((link) => [loom.netOf[link.a.index], loom.netOf[link.b.index]]))
  if (nets.size === 0) return []
  return loom.terminals.flatMap((from) => {
    if (from.on !== 'equipment' || from.does.kind !== 'switch-out' || from.does.active === 'high') return []
    const to = nets.has(loom.netOf[from.index]) ? returnPin(from) : undefined
    return to ? [{ from, to }] : []
  })
}
