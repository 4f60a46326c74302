import { type CheckReport, countLevels, onlyFrom } from '../report/check-report.ts'
import { type Args, CLEAN, type Runner, STOPS_FOUND, UsageError } from './command.ts'
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

function leastLevel({ result }: Judged, args: Args): CheckReport {
  const level = args.text('level')
  return level === 'stop' || level === 'warning' ? onlyFrom(result, level) : result
}

/** The mends, then what remains. */
async function mend(args: Args, io: Io): Promise<number> {
  const { mendShop } = await import('./mend-shop.ts')
  const { text, status, watch } = await mendShop(args, io, (judged) =>
    print(leastLevel(judged, args), judged, args, io),
  )
  await writeResult(text, args.text('output'), io, watch)
  return status
}

/** `check [FOLDER|FILE…]`: the report, and by the exit status whether anything is at stop level. */
export const runCheck: Runner = async (args, io) => {
  if (args.flag('dry-run') && !args.flag('mend'))
    throw new UsageError('--dry-run goes with --mend', 'check --mend --dry-run')
  if (args.flag('mend')) return mend(args, io)
  const baseline = args.text('baseline')
  const judged =
    baseline === undefined
      ? await judge(args.positionals, io, trustOf(args))
      : await judgeNew(baseline, args, io)
  const report = leastLevel(judged, args)
  await writeResult(await print(report, judged, args, io), args.text('output'), io, judged.source.watch)
  return countLevels(judged.result.findings).stop > 0 ? STOPS_FOUND : CLEAN
}
