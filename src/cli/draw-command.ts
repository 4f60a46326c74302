import { relative, resolve } from 'node:path'
import { quote } from '../base/quote.ts'
import { suggest } from '../base/suggest.ts'
import { countLevels } from '../report/check-report.ts'
import { printSummary } from '../report/summary-text.ts'
import { type Args, CLEAN, type Runner, STOPS_FOUND, UsageError } from './command.ts'
import { Misshapen } from './misshapen.ts'
import { drawings, type Judged, judge, type SolvedLoom } from './pipeline.ts'

function missing(kind: string, name: string, known: readonly string[]): UsageError {
  const near = suggest(name, known)[0]
  const list = known.length > 0 ? `there is ${known.join(', ')}` : `there is no ${kind} at all`
  return new UsageError(
    `no ${kind} is called ${quote(name)}: ${list}`,
    near ? `--${kind} ${near}` : `name one of them, or leave --${kind} out to draw all`,
  )
}

/** The looms asked for. A harness that installations use is not among the looms by itself: it is then resolved on its own. */
async function chosen(judged: Judged, args: Args): Promise<readonly SolvedLoom[]> {
  const installation = args.text('installation')
  const harness = args.text('harness')
  if (installation !== undefined && harness !== undefined)
    throw new UsageError('--harness and --installation cannot be given together', 'give one of them')
  if (installation !== undefined) {
    const found = judged.looms.filter(({ loom }) => loom.kind === 'installation' && loom.id === installation)
    if (found.length > 0) return found
    throw missing(
      'installation',
      installation,
      judged.shop.installations.map(({ value }) => value.id),
    )
  }
  if (harness !== undefined) {
    const found = await judged.alone(harness)
    if (found) return [found]
    throw missing(
      'harness',
      harness,
      judged.shop.harnesses.map(({ value }) => value.id),
    )
  }
  return judged.looms
}

/** `draw [FOLDER|FILE…]`: wiring drawings or connector faces as SVG files. */
export const runDraw: Runner = async (args, io) => {
  const to = args.text('to') ?? 'drawings'
  const judged = await judge(args.positionals, io)
  if (judged.misshapen.length > 0) throw new Misshapen(judged.misshapen, judged)
  const files = await drawings(judged, await chosen(judged, args), args.flag('face'), io)
  io.progress.say('writing')
  const { writeOutput } = await import('../write/write-output.ts')
  const written = await writeOutput(resolve(io.cwd, to), files)
  io.progress.done()
  io.out(printSummary(judged.result, io.width, io.colour))
  const folder = relative(io.cwd, written.folder) || '.'
  io.out(
    `Drew ${files.size} files into ${folder}:\n${[...files.keys()].map((name) => `  ${name}\n`).join('')}`,
  )
  return countLevels(judged.result.findings).stop > 0 ? STOPS_FOUND : CLEAN
}
