import type { Finding } from '../base/finding.ts'
import type { ThingChange } from '../compare/changes.ts'
import { thingSentence } from '../compare/sentences.ts'

/** The change that a finding is most likely about: one of the same thing, else one on it or around it, else one of its loom. */
function causeOf({ subject, marks }: Finding, things: readonly ThingChange[]): ThingChange | undefined {
  const places = [subject.slice(subject.indexOf('/') + 1), ...marks]
  const placed = things.filter(
    ({ at, change, physical }) => at !== undefined && change !== 'removed' && physical,
  )
  const loomOf = (address: string) => address.split('.')[0]
  const ways: readonly ((address: string, place: string) => boolean)[] = [
    (address, place) => place === address,
    (address, place) => place.startsWith(`${address}.`) || address.startsWith(`${place}.`),
    (address, place) => loomOf(place) === loomOf(address),
  ]
  for (const isNear of ways) {
    const found = placed.find(({ addresses }) =>
      addresses.some((address) => places.some((place) => isNear(address, place))),
    )
    if (found) return found
  }
  return placed.length === 1 ? placed[0] : undefined
}

/**
 * Puts a new finding on the line that was changed, since code hosts show annotations on changed lines only. Where the finding
 * itself would have stood becomes a note of its own.
 */
export function onChangedLine(finding: Finding, things: readonly ThingChange[]): Finding {
  const cause = causeOf(finding, things)
  if (!cause?.at) return finding
  return {
    ...finding,
    at: cause.at,
    notes: [
      { text: `The change here: ${thingSentence(cause)}`, at: cause.at },
      { text: 'What it is about', at: finding.at },
      ...finding.notes,
    ],
  }
}
