import type { ConnectorFamily } from '../../describe/part.ts'
import type { Half, Terminal } from '../../resolve/loom.ts'
import { rowHousing } from '../examples/parts.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { cavitiesOf, isPlug } from '../queries/plug-styles.ts'
import { supplySide } from '../queries/supply-side.ts'
import type { Rule, RuleContext } from '../rule.ts'

const example = (fullWays: boolean) =>
  wired({
    units: {
      supply: { ...cell({ maxAmps: '2 A' }), family: 'block-2' },
      lamp: { ...load('1 A'), family: 'block-2' },
    },
    parts: [
      rowHousing(2, { id: 'block-2', title: 'Two contacts in a square shell', lock: 'friction', fullWays }),
    ],
    runs: [
      ['supply.1', 'lamp.1'],
      ['supply.2', 'lamp.2'],
    ],
  })

const KEYS: ReadonlySet<string> = new Set(['key', 'latch', 'notch', 'tongue', 'flat'])

/** Whether something described fixes the way round: the family says so, a key on its face, a coding, a lock on one side. */
function isKeyed(family: ConnectorFamily): boolean | undefined {
  if (family.fullWays !== undefined) return !family.fullWays
  if (family.coding !== undefined || family.style !== 'housing') return true
  if (family.face?.marks?.some(({ kind }) => KEYS.has(kind))) return true
  return family.lock === 'latch' || family.lock === 'bayonet' ? true : undefined
}

/** The plus contact of a plug that has other contacts for it to land on. */
function plusOf({ paths }: RuleContext, half: Half): Terminal | undefined {
  const pins = cavitiesOf(half)
  return pins.length > 1 ? pins.find((pin) => supplySide(paths, pin) === 'plus') : undefined
}

export const powerPlugKeyed: Rule = {
  id: 'power-plug-keyed',
  title: 'A power plug goes in one way only',
  family: 'mating',
  level: 'warning',
  covers: ['M6'],
  reason:
    'A symmetric plug half engages when it is turned or one row off: plus then stands on the wrong contact while the plug looks home. In the dark under a dash that happens.',
  remedy: 'A keyed and locked family.',
  needs: '"fullWays" of families that nothing is known to key',
  sources: ['amateur engineering notes on symmetric power plugs', 'common practice'],
  examples: { trips: example(true), passes: example(false) },
  *check(context) {
    for (const half of context.loom.halves) {
      if (half.side !== 'harness' || !half.family || !isPlug(half)) continue
      const keyed = isKeyed(half.family)
      if (keyed) continue
      const plus = plusOf(context, half)
      if (!plus) continue
      if (keyed === undefined) {
        yield unknown(half.address, `needs whether anything keys ${half.familyId} (fullWays)`, half.at)
        continue
      }
      const others = cavitiesOf(half).filter((pin) => pin !== plus)
      yield found({
        subject: half.address,
        what: `${half.address} carries supply plus and goes in turned or offset`,
        why: `Nothing keys ${half.familyId}: plus on ${plus.name} can land on ${listOf(others.map(({ name }) => name))}.`,
        fix: 'Use a family with a key and a latch for supplies.',
        facts: { family: { value: half.familyId }, plus: { value: plus.name } },
        at: half.at,
        marks: [plus.address],
      })
    }
  },
}
