import { escapeTerminal } from '../base/escape.ts'
import { quote } from '../base/quote.ts'
import { suggest } from '../base/suggest.ts'
import { readArgs } from './args.ts'
import { CLEAN, COULD_NOT_RUN, type Command, UsageError } from './command.ts'
import { commands } from './commands.ts'
import { commandHelp, mainHelp } from './help.ts'
import type { Io } from './io.ts'
import { packageVersion } from './package-file.ts'
import { showFailure } from './show-failure.ts'

/** Words people try first, and what they are called here. */
const ALSO_CALLED: Readonly<Record<string, string>> = {
  new: 'init',
  create: 'init',
  start: 'init',
  lint: 'check',
  test: 'check',
  validate: 'check',
  publish: 'build',
  diff: 'compare',
  review: 'compare',
  watch: 'build --watch',
  render: 'draw',
  svg: 'draw',
  json: 'export',
  rule: 'explain',
  rules: 'explain',
}

function findCommand(word: string): Command {
  const found = commands.find(({ name }) => name === word)
  if (found) return found
  if (word.startsWith('-'))
    throw new UsageError(`there is no option ${quote(word)} before a command`, 'loomwright --help')
  const near = Object.hasOwn(ALSO_CALLED, word)
    ? ALSO_CALLED[word]
    : suggest(
        word,
        commands.map(({ name }) => name),
      )[0]
  throw new UsageError(
    `there is no command ${quote(word)}`,
    near ? `loomwright ${near}` : 'loomwright --help lists the commands',
  )
}

function wantsHelp(argv: readonly string[]): boolean {
  const end = argv.indexOf('--')
  return (end < 0 ? argv : argv.slice(0, end)).some((word) => word === '--help' || word === '-h')
}

async function dispatch(argv: readonly string[], io: Io): Promise<number> {
  const [first, ...rest] = argv
  if (
    first === undefined ||
    first === '--help' ||
    first === '-h' ||
    (first === 'help' && rest.length === 0)
  ) {
    io.out(mainHelp(commands, packageVersion()))
    // Typing nothing is a question, not a job done: scripts must not take it for a clean check.
    return first === undefined ? COULD_NOT_RUN : CLEAN
  }
  if (first === '--version' || first === '-V' || first === '-v') {
    io.out(`${packageVersion()}\n`)
    return CLEAN
  }
  const command = findCommand(first === 'help' ? (rest[0] ?? '') : first)
  if (first === 'help' || wantsHelp(rest)) {
    io.out(commandHelp(command))
    return CLEAN
  }
  const args = readArgs(rest, command)
  return await (await command.load())(args, io)
}

/** Runs one command line and gives its exit status. Never throws: whatever happens ends as words for a person. */
export async function run(argv: readonly string[], io: Io): Promise<number> {
  try {
    return await dispatch(argv, io)
  } catch (error) {
    io.progress.done()
    if (error instanceof UsageError) io.err(escapeUsage(error))
    else io.err(await showFailure(error, io))
    return COULD_NOT_RUN
  }
}

const escapeUsage = (error: UsageError): string =>
  `${escapeTerminal(`loomwright: ${error.message}`)}\n  Instead: ${escapeTerminal(error.instead)}\n`
