import { below, type Pointer } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import { findProcedures } from '../describe/find-procedures.ts'
import type { Part } from '../describe/part.ts'
import type { Shop, Sourced } from '../describe/shop.ts'
import type { PartIndex } from './loom.ts'
import type { Report } from './problem.ts'

/** The first of each name, with a finding for every further one. */
export function indexById<T extends { readonly id: string }>(
  list: readonly Sourced<T>[],
  kind: string,
  report: Report,
): ReadonlyMap<string, Sourced<T>> {
  const index = new Map<string, Sourced<T>>()
  for (const entry of list) {
    const { id } = entry.value
    const first = index.get(id)
    if (!first) {
      index.set(id, entry)
      continue
    }
    report({
      rule: 'duplicate-name',
      level: 'stop',
      subject: `${kind}/${id}`,
      what: `Two ${kind} entries are called ${id}; the first counts`,
      fix: 'Rename one of them, or delete it.',
      at: below(entry.at, 'id'),
      notes: [{ text: `the first ${id}`, at: below(first.at, 'id') }],
    })
  }
  return index
}

/** Names inside the shop's own parts, and figures of the policy that contradict each other. */
export function checkShop(shop: Shop, parts: PartIndex, report: Report): void {
  for (const { value, at } of shop.parts) checkPart(value, at, parts, report)
  checkPolicy(shop, report)
  checkProcedures(shop, report)
}

/** Procedures that a harness or an installation names and no file is, or several are. */
function checkProcedures({ harnesses, installations, procedures }: Shop, report: Report): void {
  for (const { value, at } of [...harnesses, ...installations])
    value.procedures?.forEach((name, index) => {
      const found = findProcedures(procedures, name)
      if (found.length === 1) return
      const files = procedures.map(({ file }) => file)
      report({
        rule: 'name-not-found',
        level: 'warning',
        subject: value.id,
        what:
          found.length === 0
            ? `${value.id} names the procedure ${quote(name)}, and there is no such file`
            : `${value.id} names the procedure ${quote(name)}, which ${found.length} files could be: ${found.map(({ file }) => quote(file)).join(', ')}`,
        fix:
          found.length === 0
            ? `Write the file, or correct the name; without it the guide lacks these steps.${didYouMean(name, files)}`
            : 'Name it with its folder, from the top of the shop; the first is used until then.',
        at: below(at, 'procedures', index),
      })
    })
}

function checkPart(part: Part, at: Pointer, parts: PartIndex, report: Report): void {
  const subject = `parts/${part.id}`
  if (part.kind === 'connector') {
    const look = (key: 'contacts' | 'seals' | 'matesWith', known: ReadonlyMap<string, unknown>): void =>
      part[key]?.forEach((id, index) => {
        if (known.has(id)) return
        report({
          rule: 'name-not-found',
          level: 'warning',
          subject,
          what: `Family ${part.id} names ${quote(id)} under ${key}, which no part describes`,
          fix: didYouMean(id, known.keys()).trim() || 'Describe it as a part, or take it out.',
          at: below(at, key, index),
        })
      })
    look('contacts', parts.contacts)
    look('seals', parts.seals)
    look('matesWith', parts.connectors)
    repeated(part.pins, (name, index) =>
      report({
        rule: 'duplicate-name',
        level: 'stop',
        subject,
        what: `Family ${part.id} lists pin ${quote(name)} twice`,
        fix: 'List each pin once, as moulded on the housing.',
        at: below(at, 'pins', index),
      }),
    )
    for (const name of Object.keys(part.face?.pins ?? {}))
      if (!part.pins.includes(name))
        report({
          rule: 'pin-exists',
          subject: `${subject}.${name}`,
          what: `The face of ${part.id} places pin ${quote(name)}, which the family does not list`,
          fix: `Correct the name.${didYouMean(name, part.pins)}`,
          at: below(at, 'face', 'pins', name),
        })
  }
  if (part.kind === 'cable')
    repeated(
      part.cores.map((core) => core.name),
      (name, index) =>
        report({
          rule: 'duplicate-name',
          level: 'stop',
          subject,
          what: `Cable ${part.id} has two cores called ${quote(name)}`,
          fix: 'Give each core a name of its own.',
          at: below(at, 'cores', index, 'name'),
        }),
    )
}

function repeated(names: readonly string[], found: (name: string, index: number) => void): void {
  const seen = new Set<string>()
  names.forEach((name, index) => {
    if (seen.has(name)) found(name, index)
    seen.add(name)
  })
}

function checkPolicy(shop: Shop, report: Report): void {
  const { policy } = shop
  const drop = policy?.value.drop
  if (!policy || !drop) return
  const clash = (low: keyof typeof drop, high: keyof typeof drop, words: string): void => {
    const [a, b] = [drop[low], drop[high]]
    if (a === undefined || b === undefined || a <= b) return
    report({
      rule: 'contradiction',
      level: 'warning',
      subject: `policy/drop.${low}`,
      what: words,
      fix: 'Exchange the two figures, or correct one.',
      at: below(policy.at, 'drop', low),
    })
  }
  clash('continuous', 'brief', 'The drop allowed for long is larger than the one allowed for minutes')
  clash('critical', 'other', 'The drop allowed for critical circuits is larger than the one for the rest')
}
