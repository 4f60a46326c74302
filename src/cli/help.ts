import type { Command, OptionSpec } from './command.ts'

const pad = (text: string, width: number): string => text.padEnd(width)

function optionName(name: string, spec: OptionSpec): string {
  const value = spec.choices ? ` ${spec.choices.join('|')}` : spec.value ? ` ${spec.value}` : ''
  return `${spec.short ? `-${spec.short}, ` : ''}--${name}${value}`
}

function optionLines(command: Command): string[] {
  const rows = Object.entries(command.options).map(
    ([name, spec]) => [optionName(name, spec), spec.help] as const,
  )
  const width = Math.max(...rows.map(([name]) => name.length)) + 2
  return rows.map(([name, help]) => `  ${pad(name, width)}${help}`)
}

/** The help of one command: what it does, options, examples, exit statuses. */
export function commandHelp(command: Command): string {
  return `${[
    `Usage: loomwright ${`${command.name} ${command.takes}`.trim()} [options]`,
    '',
    ...command.about,
    '',
    'Options',
    ...optionLines(command),
    '',
    'Examples',
    ...command.examples.flatMap(([line, effect]) => [`  ${line}`, `      ${effect}`]),
    '',
    'Exit status',
    ...Object.entries(command.statuses).map(([status, meaning]) => `  ${status}  ${meaning}`),
  ].join('\n')}\n`
}

/** The first page: what there is, and where to begin. */
export function mainHelp(commands: readonly Command[], version: string): string {
  const width = Math.max(...commands.map(({ name }) => name.length)) + 2
  return `${[
    `loomwright ${version}: wiring harnesses as text; drawings, sheets and pages as the result, faults found first.`,
    '',
    'Usage: loomwright COMMAND [arguments] [options]',
    '',
    'Commands',
    ...commands.map(({ name, summary }) => `  ${pad(name, width)}${summary}`),
    '',
    'Begin with',
    '  loomwright init my-shop         write a small harness to start from',
    '  loomwright check my-shop        say what is wrong with it',
    '  loomwright build my-shop        draw it and publish its pages',
    '',
    'loomwright COMMAND --help tells more, with examples. loomwright --version prints the version.',
    '',
    'Exit status, of every command',
    '  0  it ran; nothing found is at stop level',
    '  1  it ran; at least one finding is at stop level: do not build that',
    '  2  it could not run: bad usage, or files that cannot be read or written',
    '',
    'NO_COLOR=1 turns colour off, LOOMWRIGHT_QUIET=1 what is going on. LOOMWRIGHT_DEBUG=1 prints the details of a',
    'fault of loomwright itself.',
  ].join('\n')}\n`
}
