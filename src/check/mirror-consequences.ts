import { type Finding, identity } from '../base/finding.ts'
import type { Harness } from '../describe/harness.ts'
import type { Half } from '../resolve/loom.ts'
import { makePaths } from '../solve/paths.ts'
import { solve } from '../solve/solve.ts'
import { type Mirror, mirroredHalves, plugOf } from './queries/mirrored-halves.ts'
import { rebuild } from './rebuild.ts'
import type { Rule, RuleContext } from './rule.ts'
import { mirrorCause, pinMapMirrored } from './rules/pin-map-mirrored.ts'
import { type RawResult, runRules } from './run-rules.ts'

/** A harness with the pin list of one of its connectors read from the other face. */
function redrawn(harness: Harness, connector: string, image: ReadonlyMap<string, string>): Harness {
  const moved = (end: string): string => {
    const [owner, ...pin] = end.split('.')
    const name = pin.join('.')
    return owner === connector ? `${owner}.${image.get(name) ?? name}` : end
  }
  const ends = <T extends { readonly from?: string | undefined; readonly to?: string | undefined }>(
    run: T,
  ): T => ({
    ...run,
    ...(run.from === undefined ? {} : { from: moved(run.from) }),
    ...(run.to === undefined ? {} : { to: moved(run.to) }),
  })
  return {
    ...harness,
    ...(harness.wires ? { wires: harness.wires.map(ends) } : {}),
    ...(harness.cables
      ? {
          cables: harness.cables.map((cable) => ({
            ...cable,
            cores: cable.cores.map(ends),
            ...(cable.shields ? { shields: cable.shields.map(ends) } : {}),
          })),
        }
      : {}),
  }
}

function mendedHarnesses(mirrors: readonly Mirror[]): ReadonlyMap<string, Harness> {
  const mended = new Map<string, Harness>()
  const done = new Set<string>()
  for (const mirror of mirrors) {
    const plug: Half = plugOf(mirror)
    const harness = plug.loom?.harness
    if (!harness || done.has(`${harness.id}.${plug.id}`)) continue
    done.add(`${harness.id}.${plug.id}`)
    mended.set(harness.id, redrawn(mended.get(harness.id) ?? harness, plug.id, mirror.image))
  }
  return mended
}

/** The mirror a finding belongs to: one it shares marks with, or the first. */
function mirrorOf(finding: Finding, mirrors: readonly Finding[]): Finding | undefined {
  const own = new Set(finding.marks)
  return mirrors.find((mirror) => mirror.marks.some((mark) => own.has(mark))) ?? mirrors[0]
}

/**
 * Where a connector is mirrored, the loom is judged once more with its pin list redrawn: findings that are gone then are
 * consequences and take the mirror's cause, so that one mistake is not reported as twenty-five.
 */
export function tellConsequences(context: RuleContext, rules: readonly Rule[], raw: RawResult): RawResult {
  const found = raw.findings.filter((finding) => finding.rule === pinMapMirrored.id)
  if (found.length === 0) return raw
  const { mirrors } = mirroredHalves(context.loom)
  const loom = rebuild(context.loom, { harnesses: mendedHarnesses(mirrors) })
  const again = runRules({ loom, solution: solve(loom), paths: makePaths(loom) }, rules)
  const left = new Set(again.findings.map(identity))
  const causes = new Set(mirrors.map((mirror) => `${context.loom.id}/${mirrorCause(mirror)}`))
  const findings = raw.findings.map((finding) => {
    if (left.has(identity(finding)) || (finding.cause !== undefined && causes.has(finding.cause)))
      return finding
    const cause = mirrorOf(finding, found)?.cause
    return cause === undefined ? finding : { ...finding, cause }
  })
  return { findings, notChecked: raw.notChecked }
}
