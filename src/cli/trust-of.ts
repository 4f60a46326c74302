import type { Trust } from '../read/trust.ts'
import type { Args, OptionSpec } from './command.ts'

/** The options by which a command is told that the files are a stranger's. */
export const trustOptions = {
  untrusted: {
    type: 'flag',
    help: "a stranger's files: TypeScript is not run",
  },
  apart: {
    type: 'flag',
    help: "run a stranger's TypeScript in an interpreter",
  },
} as const satisfies Readonly<Record<string, OptionSpec>>

/** How TypeScript is taken, by what was typed. */
export function trustOf(args: Args): Trust {
  if (args.flag('apart')) return 'apart'
  return args.flag('untrusted') ? 'refuse' : 'own'
}
