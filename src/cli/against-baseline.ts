import { readFile } from 'node:fs/promises'
import { resolve } from 'node:path'
import { identity, type Level } from '../base/finding.ts'
import type { CheckResult } from '../check/check.ts'
import { broughtFindings, compareGravity } from '../compare/changes.ts'
import { compare } from '../compare/compare.ts'
import { type Args, UsageError } from './command.ts'
import { withBothSides } from './compare-sides.ts'
import type { Io } from './io.ts'
import { type Judged, judge } from './pipeline.ts'
import { trustOf } from './trust-of.ts'

/** Levels by identity, as an earlier `check --format json` had them. */
type Known = ReadonlyMap<string, Level>

const LEVELS: readonly unknown[] = ['stop', 'warning', 'note'] satisfies Level[]

function levelsIn(list: unknown): (readonly [string, Level])[] {
  if (!Array.isArray(list)) return []
  return list.flatMap((one: unknown) => {
    if (typeof one !== 'object' || one === null || !('identity' in one) || !('level' in one)) return []
    const { identity: name, level } = one
    return typeof name === 'string' && LEVELS.includes(level) ? [[name, level as Level] as const] : []
  })
}

/** An earlier report, when the file is one; undefined for descriptions, folders and revisions. */
async function earlierReport(file: string, io: Io): Promise<Known | undefined> {
  if (!/\.json$/i.test(file)) return undefined
  const text = await readFile(resolve(io.cwd, file), 'utf8').catch(() => undefined)
  if (text === undefined) return undefined
  try {
    const data: unknown = JSON.parse(text)
    if (typeof data !== 'object' || data === null || !('report' in data) || !('findings' in data))
      return undefined
    return new Map(levelsIn(data.findings))
  } catch {
    // Not JSON: reading it as a description says where.
    return undefined
  }
}

const only = (judged: Judged, result: Pick<CheckResult, 'findings' | 'notChecked'>): Judged => ({
  ...judged,
  result: { ...judged.result, ...result },
})

/**
 * Judges the descriptions and leaves only the findings that are new or graver than in the baseline. Against a revision or a
 * folder, renamed things are known again; against an earlier report, findings are known by rule and address alone.
 */
export async function againstBaseline(baseline: string, args: Args, io: Io): Promise<Judged> {
  const known = await earlierReport(baseline, io)
  if (known) {
    const judged = await judge(args.positionals, io, trustOf(args))
    const findings = judged.result.findings.filter((finding) => {
      const before = known.get(identity(finding))
      return before === undefined || compareGravity(finding.level, before) > 0
    })
    // A report cannot tell what was newly left unchecked, so all of it stays: silence is never a pass.
    return only(judged, { findings, notChecked: judged.result.notChecked })
  }
  const [path = '.', more] = args.positionals
  if (more !== undefined)
    throw new UsageError(
      '--baseline takes one folder or file to check',
      `check ${path} --baseline ${baseline}`,
    )
  const options = { within: undefined, trust: trustOf(args), runCode: false }
  return withBothSides([baseline, path], options, io, async (before, after) => {
    const changes = compare(before.revision, after.revision)
    if (!after.judged) throw new UsageError('there is nothing to check', 'name a folder with descriptions')
    return only(after.judged, {
      findings: broughtFindings(changes),
      notChecked: changes.findings.newlyNotChecked,
    })
  })
}
