import { colourLabel } from '../base/colour.ts'
import { jsonForScript } from '../base/escape.ts'
import { formatAmps } from '../base/format-quantity.ts'
import type { AssetRecord } from '../commission/asset-record.ts'
import type { ComponentUse, Loom } from '../resolve/loom.ts'
import { functionTitle } from '../sheets/function-words.ts'
import { signalOf } from '../sheets/label-text.ts'
import { pinName } from '../sheets/names.ts'
import { findingHref } from './finding-view.ts'
import type { Site } from './page.ts'
import type { Job } from './site-input.ts'
import { connectorName, type Target } from './site-map.ts'

/** One thing people look for: what it is called, what kind of thing, where it is, and further words to find it by. */
export interface SearchEntry {
  readonly title: string
  readonly kind: string
  /** From the root of the site. */
  readonly href: string
  readonly words: string
  /** Words to find it by that are too many to be shown, such as the symptoms a rule tells of. */
  readonly more?: string
}

const hrefOf = ({ path, anchor }: Target): string => (anchor === undefined ? path : `${path}#${anchor}`)

/** Everything that has a place on a page, things before their pins and wires. */
export function searchEntries(site: Site): { things: SearchEntry[]; details: SearchEntry[] } {
  const seen = new Set<string>()
  const details = site.input.looms
    .flatMap((job) => [...detailsOf(site, job.loom), ...netsOf(site, job.loom), ...findingsOf(site, job)])
    .filter((entry) => !seen.has(`${entry.title} ${entry.href}`) && seen.add(`${entry.title} ${entry.href}`))
  return { things: thingsOf(site), details }
}

function thingsOf(site: Site): SearchEntry[] {
  const { map } = site
  const thing = (
    kind: string,
    title: string,
    words: string,
    path: string | undefined,
    more = '',
  ): SearchEntry[] => (path === undefined ? [] : [{ title, kind, href: path, words, more }])
  return [
    ...map.installations.flatMap(({ loom }) => {
      const asset = 'asset' in loom.source ? (loom.source.asset ?? '') : ''
      return thing('installation', loom.title, `${loom.id} ${asset}`.trim(), map.installation(loom.id))
    }),
    ...map.harnesses.flatMap(({ harness }) =>
      thing('harness', harness.title, harness.id, map.harness(harness.id), harness.document ?? ''),
    ),
    ...map.assets
      .filter(({ superseded }) => !superseded)
      .flatMap((record) =>
        thing('asset', record.readings.asset, assetWords(record), map.asset(record, 'html')),
      ),
    ...map.installations.flatMap(({ loom }) =>
      thing(
        'commissioning record',
        `Commissioning record of ${loom.title}`,
        loom.id,
        map.record(loom, 'html'),
      ),
    ),
    ...map.equipment.flatMap((one) => thing('equipment', one.title, one.id, map.equipmentPage(one.id))),
    ...map.connectors.flatMap((key) =>
      thing('connector', connectorName(key), key.familyId, map.connector(key)),
    ),
    ...site.input.rules.flatMap((rule) =>
      thing('rule', rule.title, rule.id, map.rule(rule.id), `${rule.reason} ${rule.remedy}`),
    ),
  ]
}

/** Serials and names by which people ask for an asset. */
function assetWords({ loom, readings, looms }: AssetRecord): string {
  const serials = [
    ...looms.map(({ serial }) => serial),
    ...(readings.equipment ?? []).map((one) => one.serial ?? ''),
  ]
  return [loom.title, loom.id, ...serials].join(' ')
}

function detailsOf(site: Site, loom: Loom): SearchEntry[] {
  const at = (address: string, kind: string, title: string, words: string): SearchEntry[] => {
    const target = site.map.place(loom, address)
    return target ? [{ title, kind, href: hrefOf(target), words }] : []
  }
  const halves = loom.halves.flatMap((half) => {
    const words = [half.title, half.familyId, 'label' in half.source ? half.source.label : '']
    return at(half.address, 'plug or socket', half.id, words.filter(Boolean).join(' '))
  })
  const pins = loom.terminals.flatMap((pin) => {
    if (!pin.half || pin.does.kind === 'unstated') return []
    return at(pin.address, 'pin', `${pin.half.id}-${pin.name} ${functionTitle(pin.does)}`, pin.does.kind)
  })
  const wires = loom.conductors.flatMap((wire) => {
    const ends = [wire.from, wire.to].flatMap((end) => (end ? [pinName(end)] : [])).join(' to ')
    const words = [
      wire.colour ? colourLabel(wire.colour) : '',
      wire.size?.label ?? '',
      signalOf(loom, wire),
      'label' in wire.source ? (wire.source.label ?? '') : '',
    ]
    return at(wire.address, 'wire', `${wire.id}, ${ends}`, words.filter(Boolean).join(' '))
  })
  const parts = loom.components.flatMap((part) =>
    at(
      part.address,
      part.source.kind,
      [part.id, part.source.title].filter(Boolean).join(', '),
      ratingOf(part),
    ),
  )
  return [...halves, ...pins, ...wires, ...parts]
}

/** `fuse 15 A`: people look for the rating that is printed on the blown one. */
function ratingOf({ source, fusePart }: ComponentUse): string {
  const rating = source.kind === 'fuse' ? (source.rating ?? fusePart?.rating) : undefined
  return rating === undefined ? '' : formatAmps(rating)
}

/** Nets, found by their names and by the wires on them. */
function netsOf(site: Site, loom: Loom): SearchEntry[] {
  return loom.nets.flatMap((net) => {
    const target = site.map.net(loom, net)
    if (!target) return []
    const wires = net.conductors.map(({ id }) => id)
    return [
      { title: net.name, kind: 'net', href: hrefOf(target), words: wires.slice(0, MOST_WIRES).join(' ') },
    ]
  })
}

/** A ground has hundreds; whoever types a wire's number finds the wire itself. */
const MOST_WIRES = 12

const findingsOf = (site: Site, job: Job): SearchEntry[] =>
  job.findings.map((finding, index) => ({
    title: finding.what,
    kind: finding.level,
    href: findingHref(site, '', job.loom, index),
    words: '',
    more: `${finding.rule} ${finding.why}`,
  }))

/**
 * The index as a script, because a page opened from disk may not read other files. Pages and kinds are listed once, and
 * rows name them by number: `[title, kind, page, anchor, words]`.
 */
export function searchScript(entries: readonly SearchEntry[], titles: ReadonlyMap<string, string>): string {
  const kinds = new Map<string, number>()
  const pages = new Map<string, number>()
  const number = (of: Map<string, number>, key: string): number => {
    const known = of.get(key) ?? of.size
    of.set(key, known)
    return known
  }
  const rows = entries.map(({ title, kind, href, words, more = '' }) => {
    const [path = '', hash = ''] = href.split('#')
    const all = [words, more].filter((text) => text !== '').join(' ')
    return [title, number(kinds, kind), number(pages, path), hash, all]
  })
  const data = {
    kinds: [...kinds.keys()],
    pages: [...pages.keys()].map((path) => [path, titles.get(path) ?? '']),
    rows,
  }
  return `window.findData = ${jsonForScript(data)}\n`
}
