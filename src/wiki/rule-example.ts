import { type CheckResult, checkLoom } from '../check/check.ts'
import type { Rule } from '../check/rule.ts'
import { standardRules } from '../check/standard-rules.ts'
import { describeShop } from '../describe/validate.ts'
import { type CataloguePart, standardCatalogue } from '../resolve/part-index.ts'
import { resolveShop } from '../resolve/resolve.ts'
import { solve } from '../solve/solve.ts'

/** A value in which the example that trips a rule differs from the one that passes. */
export interface ExampleChange {
  /** `harnesses lead, wires A01, size`. */
  readonly place: string
  readonly trips: string
  readonly passes: string
}

/** The two descriptions of a rule as its page shows them. */
export interface RuleExample {
  /** What the rule says of the one that trips it. */
  readonly says: readonly { readonly what: string; readonly why: string; readonly fix: string }[]
  readonly changes: readonly ExampleChange[]
  /** More changes than a reader takes in are counted. */
  readonly more: number
  /** The description that trips it, as a file would hold it. */
  readonly text: string
}

/** Rows of a table that a reader takes in. */
const MOST_CHANGES = 12
/** Longer values are told by their beginning. */
const LONGEST = 120

type Step = string | number
const isContainer = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null

/** Things are called by their own names rather than by their position. */
function step(value: unknown, key: Step): string {
  const inner = isContainer(value) ? value[key] : undefined
  const name = isContainer(inner) ? (inner.id ?? inner.core ?? inner.shield) : undefined
  return typeof name === 'string' ? name : String(key)
}

function placeOf(data: unknown, path: readonly Step[]): string {
  const words: string[] = []
  let at = data
  for (const key of path) {
    words.push(step(at, key))
    at = isContainer(at) ? at[key] : undefined
  }
  return words.join(' › ')
}

function shown(value: unknown): string {
  if (value === undefined) return 'not stated'
  const text = JSON.stringify(value)
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text
}

interface Change {
  readonly path: readonly Step[]
  readonly one: unknown
  readonly two: unknown
}

function differences(one: unknown, two: unknown, path: readonly Step[] = []): Change[] {
  if (isContainer(one) && isContainer(two) && Array.isArray(one) === Array.isArray(two)) {
    const keys = [...new Set([...Object.keys(one), ...Object.keys(two)])]
    return keys.flatMap((key) => differences(one[key], two[key], [...path, key]))
  }
  return JSON.stringify(one) === JSON.stringify(two) ? [] : [{ path, one, two }]
}

function findingsOf(rule: Rule, standard: readonly CataloguePart[]): CheckResult['findings'] {
  const { shop } = describeShop([{ name: 'example.json', data: rule.examples.trips }])
  const policy = shop.policy ? { policy: shop.policy } : {}
  return resolveShop(shop, { standard })
    .looms.flatMap((loom) => checkLoom(loom, solve(loom), { rules: [rule], ...policy }).findings)
    .filter((finding) => finding.rule === rule.id)
}

/** Makes the examples of rules, by the rule's name; undefined for one that has none. */
export function ruleExamples(): (id: string) => RuleExample | undefined {
  const standard = standardCatalogue()
  const byId = new Map(standardRules.map((rule) => [rule.id, rule]))
  return (id) => {
    const rule = byId.get(id)
    if (!rule) return undefined
    const { trips, passes } = rule.examples
    const changes = differences(trips, passes)
    return {
      says: findingsOf(rule, standard).map(({ what, why, fix }) => ({ what, why, fix })),
      changes: changes.slice(0, MOST_CHANGES).map(({ path, one, two }) => ({
        place: placeOf(one === undefined ? passes : trips, path),
        trips: shown(one),
        passes: shown(two),
      })),
      more: Math.max(0, changes.length - MOST_CHANGES),
      text: JSON.stringify(trips, null, 2),
    }
  }
}
