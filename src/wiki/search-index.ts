import { colourLabel } from '../base/colour.ts'
import { jsonForScript } from '../base/escape.ts'
import type { Loom } from '../resolve/loom.ts'
import { signalOf } from '../sheets/label-text.ts'
import { pinName } from '../sheets/names.ts'
import type { Site } from './page.ts'
import { connectorName, type Target } from './site-map.ts'

/** One thing people look for: what it is called, what kind of thing, where it is, and further words to find it by. */
export interface SearchEntry {
  readonly title: string
  readonly kind: string
  /** From the root of the site. */
  readonly href: string
  readonly words: string
}

const hrefOf = ({ path, anchor }: Target): string => (anchor === undefined ? path : `${path}#${anchor}`)

/** Everything that has a place on a page, things before their pins and wires. */
export function searchEntries(site: Site): { things: SearchEntry[]; details: SearchEntry[] } {
  const { map } = site
  const thing = (kind: string, title: string, words: string, path: string | undefined): SearchEntry[] =>
    path === undefined ? [] : [{ title, kind, href: path, words }]
  const things = [
    ...map.installations.flatMap(({ loom }) =>
      thing('installation', loom.title, loom.id, map.installation(loom.id)),
    ),
    ...map.harnesses.flatMap(({ harness }) =>
      thing('harness', harness.title, harness.id, map.harness(harness.id)),
    ),
    ...map.equipment.flatMap((one) => thing('equipment', one.title, one.id, map.equipmentPage(one.id))),
    ...map.connectors.flatMap((key) =>
      thing('connector', connectorName(key), key.familyId, map.connector(key)),
    ),
    ...site.input.rules.flatMap((rule) => thing('rule', rule.title, rule.id, map.rule(rule.id))),
  ]
  const seen = new Set<string>()
  const details = site.input.looms
    .flatMap(({ loom }) => detailsOf(site, loom))
    .filter((entry) => !seen.has(`${entry.title} ${entry.href}`) && seen.add(`${entry.title} ${entry.href}`))
  return { things, details }
}

function detailsOf(site: Site, loom: Loom): SearchEntry[] {
  const at = (address: string, kind: string, title: string, words: string): SearchEntry[] => {
    const target = site.map.place(loom, address)
    return target ? [{ title, kind, href: hrefOf(target), words }] : []
  }
  const halves = loom.halves.flatMap((half) => {
    const owner = half.loom?.harness.title ?? half.unit?.equipment.title ?? ''
    const words = [half.title, half.familyId, 'label' in half.source ? half.source.label : '', owner].join(
      ' ',
    )
    return at(half.address, 'plug or socket', `${half.id}, ${owner}`, words)
  })
  const pins = loom.terminals.flatMap((pin) => {
    if (!pin.half || pin.does.name === undefined) return []
    const owner = pin.half.loom?.harness.title ?? pin.half.unit?.equipment.title ?? ''
    return at(pin.address, 'pin', `${pin.half.id}-${pin.name} ${pin.does.name}`, `${owner} ${pin.does.kind}`)
  })
  const wires = loom.conductors.flatMap((wire) => {
    const ends = [wire.from, wire.to].flatMap((end) => (end ? [pinName(end)] : [])).join(' to ')
    const label = 'label' in wire.source ? (wire.source.label ?? '') : ''
    const words = [
      wire.colour ? colourLabel(wire.colour) : '',
      wire.size?.label ?? '',
      signalOf(loom, wire),
      label,
    ]
    return at(wire.address, 'wire', `${wire.id}, ${ends}`, words.join(' '))
  })
  const parts = loom.components.flatMap((part) =>
    at(
      part.address,
      part.source.kind,
      `${part.id}${part.source.title ? `, ${part.source.title}` : ''}`,
      part.source.kind,
    ),
  )
  return [...halves, ...pins, ...wires, ...parts]
}

/** The index as a script, because a page opened from disk may not read other files. */
export function searchScript(entries: readonly SearchEntry[]): string {
  const rows = entries.map(({ title, kind, href, words }) => [title, kind, href, words])
  return `window.findData = ${jsonForScript(rows)}\n`
}
