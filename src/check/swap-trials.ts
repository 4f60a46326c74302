import { type Finding, identity } from '../base/finding.ts'
import { makePaths } from '../solve/paths.ts'
import { solve } from '../solve/solve.ts'
import { type Harm, overvoltedPins } from './queries/overvolted-pins.ts'
import { type TwinPlugs, twinPlugs } from './queries/twin-plugs.ts'
import { compareLevels } from './rank.ts'
import { type Joint, jointsOf, rebuild } from './rebuild.ts'
import type { RuleContext } from './rule.ts'
import { runRules } from './run-rules.ts'
import { swapRules } from './swap-rules.ts'

/** The mates of the loom with the twins exchanged, or with the one plug moved to the free socket. */
function exchanged(joints: readonly Joint[], { first, second, wrong }: TwinPlugs): readonly Joint[] {
  const same = (a: Joint, b: Joint | undefined) =>
    a.one.address === b?.one.address && a.two.address === b.two.address
  return joints.map((joint) => {
    if (same(joint, first)) return { one: joint.one, two: wrong }
    return second && same(joint, second) ? { one: joint.one, two: first.two } : joint
  })
}

/** Each trial resolves the whole loom anew, so a large loom gets fewer; the rest is named for a person to look at. */
const mostTrials = (terminals: number): number => Math.max(8, Math.min(60, Math.floor(100_000 / terminals)))

interface Trial {
  readonly context: RuleContext
  readonly before: ReadonlySet<string>
}

function harmsOf(twins: TwinPlugs, { context, before }: Trial): readonly Harm[] {
  const loom = rebuild(context.loom, { joints: exchanged(jointsOf(context.loom), twins) })
  const paths = makePaths(loom)
  const tried: RuleContext = {
    loom,
    paths,
    get solution() {
      return solve(loom)
    },
  }
  const fresh = runRules(tried, swapRules).findings.filter((finding) => !before.has(identity(finding)))
  return [...overvoltedPins(context.paths, context.loom, paths, loom), ...fresh.map(asHarm)].sort((a, b) =>
    compareLevels(a.level, b.level),
  )
}

const asHarm = ({ level, what, subject }: Finding): Harm => ({ level, text: what, pin: subject })

/** A pair of plugs that can be swapped, and what that would do, worst first. */
export interface SwapTrial {
  readonly twins: TwinPlugs
  readonly harms: readonly Harm[]
}

export interface SwapTrials {
  readonly results: readonly SwapTrial[]
  /** Pairs that were not tried, since the loom is too large. */
  readonly left: number
}

/** Swaps each two plugs that go into each other's place, resolves the loom anew and judges what the wrong mates do. */
export function trySwaps(context: RuleContext): SwapTrials {
  const twins = twinPlugs(context.loom)
  if (twins.length === 0) return { results: [], left: 0 }
  const most = mostTrials(context.loom.terminals.length)
  const before = new Set(runRules(context, swapRules).findings.map(identity))
  return {
    results: twins.slice(0, most).map((pair) => ({ twins: pair, harms: harmsOf(pair, { context, before }) })),
    left: Math.max(0, twins.length - most),
  }
}
