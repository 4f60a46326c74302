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
  const { whatIfText } = await import('../report/what-if-text.ts')
  const tried = report.whatIf ? whatIfText(report.whatIf, io.width) : ''
  const told = (await import('../report/text.ts')).printText(report, {
    width: io.width,
    colour,
    locate,
    sourceLine,
  })
  return told + tried
}

/** The simulations of every installation, where they are asked for. */
async function tryOut({ looms }: Judged, report: CheckReport, args: Args): Promise<CheckReport> {
  if (!args.flag('what-if')) return report
  const { whatIf } = await import('../check/what-if/what-if.ts')
  const jobs = looms.filter(({ loom }) => loom.kind === 'installation')
  return {
    ...report,
    whatIf: jobs.map(({ loom, solution }) => ({
      job: loom.id,
      sets: whatIf({ loom, solution, paths: solution.paths }),
    })),
  }
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
  const report = await tryOut(judged, leastLevel(judged, args), args)
  await writeResult(await print(report, judged, args, io), args.text('output'), io, judged.source.watch)
  return countLevels(judged.result.findings).stop > 0 ? STOPS_FOUND : CLEAN
}
