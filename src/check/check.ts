import type { Finding, NotChecked } from '../base/finding.ts'
import { naturalOrder } from '../base/natural-order.ts'
import type { Pointer } from '../base/place.ts'
import type { Policy } from '../describe/policy.ts'
import type { Loom } from '../resolve/loom.ts'
import { resolveRules } from '../resolve/resolve-rules.ts'
import { makePaths } from '../solve/paths.ts'
import type { Solution } from '../solve/solution.ts'
import { type Asked, ask } from './ask.ts'
import { groupByCause } from './group.ts'
import { applyLevels, unknownRules } from './levels.ts'
import { mergeFindings, mergeNotChecked } from './merge.ts'
import { tellConsequences } from './mirror-consequences.ts'
import { rankFindings } from './rank.ts'
import type { Rule } from './rule.ts'
import { type RawResult, runRules } from './run-rules.ts'
import { standardQuestions } from './standard-questions.ts'
import { standardRules } from './standard-rules.ts'
import { applyWaivers, endlessWaivers, staleWaivers, type Waived } from './waivers.ts'

/** What came of checking, ready for printers. */
export interface CheckResult {
  /** Worst first, one for each cause. */
  readonly findings: readonly Finding[]
  /** What could not be judged, and the fact that would let it. */
  readonly notChecked: readonly NotChecked[]
  /** Accepted in writing, and the facts have not changed since. */
  readonly waived: readonly Waived[]
  /** Consequences of a shown finding; its notes tell of them. */
  readonly heldBack: readonly Finding[]
  /** What a person is asked, with the answers there are: what is open is no pass. */
  readonly questions: readonly PutQuestion[]
  /** Ids of the rules that ran, in order. */
  readonly rulesRun: readonly string[]
}

/** A question of one installation. */
export interface PutQuestion extends Asked {
  /** With the name of the installation, as the subjects of findings. */
  readonly subject: string
}

export interface SourcedPolicy {
  readonly value: Policy
  readonly at: Pointer
}

export interface CheckOptions {
  /** Rules to run; the standard ones when left out. */
  readonly rules?: readonly Rule[]
  /** Shop policy; that of the loom's settings when left out. */
  readonly policy?: SourcedPolicy
  /** Gives what the rules said of a loom before, or has it judged: the same loom under the same policy is always judged alike. */
  readonly keep?: KeepRaw
}

export type KeepRaw = (loom: Loom, judge: () => RawResult) => RawResult

export interface ShopToCheck {
  readonly looms: readonly { readonly loom: Loom; readonly solution: Solution }[]
  /** Findings met while reading, describing and resolving; those a loom carries are added and not repeated. */
  readonly findings?: readonly Finding[]
}

/** Ids of findings that the runner itself makes. */
export const runnerFindings = ['rule-failed', 'rule-unknown', 'waiver-stale', 'waiver-endless'] as const

/** Judges one loom. Waivers that match nothing are not reported: they may belong to another loom of the shop. */
export function checkLoom(loom: Loom, solution: Solution, options: CheckOptions = {}): CheckResult {
  return check({ looms: [{ loom, solution }] }, options, false)
}

/** Judges every loom of a shop: a fault of a harness that two installations use is one finding with both named. */
export function checkShop(shop: ShopToCheck, options: CheckOptions = {}): CheckResult {
  return check(shop, options, true)
}

function check(shop: ShopToCheck, options: CheckOptions, wholeShop: boolean): CheckResult {
  const policy = options.policy ?? policyOf(shop)
  const severities = policy?.value.rules ?? {}
  const all = options.rules ?? standardRules
  const rules = all.filter((rule) => !Object.hasOwn(severities, rule.id) || severities[rule.id] !== 'off')
  const keep: KeepRaw = options.keep ?? ((_, anew) => anew())
  const raw = shop.looms.map((entry) => keep(entry.loom, () => judge(entry, rules)))
  const earlier = [...(shop.findings ?? []), ...shop.looms.flatMap(({ loom }) => loom.findings)]
  const met = [...earlier, ...raw.flatMap((result) => result.findings)]
  const findings = [...met, ...(policy ? unknownRules(severities, knownNames(all, met), policy.at) : [])]
  return {
    ...settle(findings, policy, all, wholeShop),
    notChecked: gaps(raw),
    questions: shop.looms.flatMap((entry) => questionsOf(entry, rules)),
    rulesRun: rules.map((r) => r.id),
  }
}

/** Questions of one loom; what the policy switches off is not asked either. */
function questionsOf(
  { loom, solution }: ShopToCheck['looms'][number],
  rules: readonly Rule[],
): PutQuestion[] {
  const ids = new Set(rules.map(({ id }) => id))
  const context = { loom, solution, paths: makePaths(loom) }
  return standardQuestions
    .filter(({ id }) => ids.has(id))
    .flatMap((question) => ask(question, context))
    .map((asked) => ({ ...asked, subject: `${loom.id}/${asked.asking.subject}` }))
}

function judge({ loom, solution }: ShopToCheck['looms'][number], rules: readonly Rule[]): RawResult {
  const context = { loom, solution, paths: makePaths(loom) }
  return tellConsequences(context, rules, runRules(context, rules))
}

/** Severity, acceptance, one finding a fault, one a cause, worst first: in that order, since each works on what the last one left. */
function settle(
  findings: readonly Finding[],
  policy: SourcedPolicy | undefined,
  rules: readonly Rule[],
  wholeShop: boolean,
): Pick<CheckResult, 'findings' | 'waived' | 'heldBack'> {
  const waivers = policy?.value.waivers ?? []
  const accepted = applyWaivers(applyLevels(findings, policy?.value.rules), waivers)
  const kept =
    policy && wholeShop
      ? [
          ...staleWaivers(waivers, accepted.used, policy.at),
          ...endlessWaivers(accepted.waived, waivers, policy.at),
        ]
      : []
  const ofWaivers = applyLevels(kept, policy?.value.rules)
  const order = new Map(rules.map((rule, index) => [rule.id, index]))
  const grouped = groupByCause(
    mergeFindings([...accepted.findings, ...ofWaivers]),
    (id) => order.get(id) ?? -1,
  )
  return {
    findings: rankFindings(grouped.shown),
    waived: accepted.waived,
    heldBack: rankFindings(grouped.heldBack),
  }
}

function gaps(raw: readonly RawResult[]): NotChecked[] {
  return mergeNotChecked(raw.flatMap((result) => result.notChecked)).sort(
    (a, b) => naturalOrder(a.rule, b.rule) || naturalOrder(a.subject, b.subject),
  )
}

function policyOf(shop: ShopToCheck): SourcedPolicy | undefined {
  for (const { loom } of shop.looms)
    if (loom.settings.at) return { value: loom.settings.stated, at: loom.settings.at }
  return undefined
}

/** Names a policy may set a severity for; those of findings made before the rules are known only when they occur. */
function knownNames(rules: readonly Rule[], findings: readonly Finding[]): ReadonlySet<string> {
  return new Set([
    ...rules.map((rule) => rule.id),
    ...resolveRules.map((rule) => rule.id),
    ...runnerFindings,
    ...findings.map((finding) => finding.rule),
  ])
}
