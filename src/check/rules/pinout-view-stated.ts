import { below } from '../../base/place.ts'
import type { Half } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, unitOf } from '../examples/parts.ts'
import { count, found, unknown } from '../outcome.ts'
import type { Rule } from '../rule.ts'

/** Styles that look different from the mating and from the wire side. */
const FACED: ReadonlySet<string> = new Set(['housing', 'circular', 'dsub', 'modular'])

const hasTwoViews = (half: Half): boolean =>
  half.family !== undefined && FACED.has(half.family.style) && half.family.pins.length > 2

const example = (view?: 'mating') =>
  exampleLead({
    parts: [rowHousing(4)],
    equipment: [
      unitOf('box', {
        id: 'J1',
        family: 'row-4',
        half: 'socket',
        ...(view ? { view } : {}),
        pins: { '1': { kind: 'data', standard: 'proprietary', line: 'DATA' } },
      }),
    ],
    harness: { connectors: [{ id: 'P1', family: 'row-4', half: 'pin', fits: 'box.J1' }] },
  })

export const pinoutViewStated: Rule = {
  id: 'pinout-view-stated',
  title: 'Every pinout says from which side it was taken',
  family: 'mating',
  level: 'warning',
  covers: ['M2'],
  reason:
    'The same drawing of a face means two different pin orders, seen from the mating side or from the wire side. A pinout that does not say which is right half the time.',
  remedy: 'Look at the source or at the equipment and state view "mating" or "wire-entry".',
  needs: 'the view of each equipment connector',
  sources: ["harness makers' drawing guides, as reported", 'common practice'],
  examples: { trips: example(), passes: example('mating') },
  *check({ loom }) {
    for (const half of loom.halves) {
      if (half.side !== 'equipment' || !hasTwoViews(half)) continue
      const { source } = half
      if (!('pins' in source) || ('view' in source && source.view !== undefined)) continue
      if (half.mates.length === 0 && loom.kind === 'harness') continue
      const described = [...half.pins.values()].filter((pin) => pin.does.kind !== 'unstated')
      if (described.length === 0) {
        yield unknown(half.address, 'needs the view of its pinout: "mating" or "wire-entry"', half.at)
        continue
      }
      const type = `${half.unit?.equipment.id ?? half.address}.${half.id}`
      yield found({
        subject: half.address,
        what: `The pinout of ${type} does not say from which side its face was seen`,
        why: `Seen from the other side a ${half.family?.title ?? half.familyId} reads mirrored, and ${count(described.length, 'described pin')} would be in the wrong place.`,
        fix: 'State view "mating" or "wire-entry" after looking at the source of the pinout.',
        facts: { connector: { value: type }, pins: { value: described.length } },
        at: below(half.at, 'pins'),
        cause: `view:${type}`,
        marks: [half.address],
      })
    }
  },
}
