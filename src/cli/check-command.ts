import { type CheckReport, countLevels, onlyFrom } from '../report/check-report.ts'
import { type Args, CLEAN, type Runner, STOPS_FOUND } from './command.ts'
import type { Io } from './io.ts'
import { packageVersion } from './package-file.ts'
import { type Judged, judge } from './pipeline.ts'
import { trustOf } from './trust-of.ts'
import { writeResult } from './write-result.ts'

async function print(report: CheckReport, judged: Judged, args: Args, io: Io): Promise<string> {
  const { locate, sourceLine } = judged
  const format = args.text('format') ?? 'text'
  if (format === 'json')
    return (await import('../report/json.ts')).printJson(report, locate, packageVersion())
  if (format === 'sarif') {
    const { printSarif } = await import('../report/sarif.ts')
    const { ruleList } = await import('../report/rule-list.ts')
    return printSarif(report, { locate, toolVersion: packageVersion(), rules: ruleList })
  }
  if (format === 'annotations')
    return (await import('../report/annotations.ts')).printAnnotations(report.findings, locate)
  const colour = io.colour && args.text('output') === undefined
  return (await import('../report/text.ts')).printText(report, {
    width: io.width,
    colour,
    locate,
    sourceLine,
  })
}

/** What was judged, with only the findings that the baseline does not have. */
async function judgeNew(baseline: string, args: Args, io: Io): Promise<Judged> {
  const { againstBaseline } = await import('./against-baseline.ts')
  return againstBaseline(baseline, args, io)
}

/** `check [FOLDER|FILE…]`: the report, and by the exit status whether anything is at stop level. */
export const runCheck: Runner = async (args, io) => {
  const baseline = args.text('baseline')
  const judged =
    baseline === undefined
      ? await judge(args.positionals, io, trustOf(args))
      : await judgeNew(baseline, args, io)
  const level = args.text('level')
  const report = level === 'stop' || level === 'warning' ? onlyFrom(judged.result, level) : judged.result
  await writeResult(await print(report, judged, args, io), args.text('output'), io, judged.source.watch)
  return countLevels(judged.result.findings).stop > 0 ? STOPS_FOUND : CLEAN
}
