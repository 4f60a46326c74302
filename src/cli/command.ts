import type { Io } from './io.ts'

/** How an option is written and what it does. */
export interface OptionSpec {
  readonly type: 'text' | 'flag'
  /** One letter for `-x`. */
  readonly short?: string
  /** What stands for the value in the help: FILE, FOLDER … */
  readonly value?: string
  /** The only values allowed. */
  readonly choices?: readonly string[]
  readonly help: string
}

/** What was typed after the command's name, checked against what the command takes. */
export interface Args {
  readonly positionals: readonly string[]
  readonly text: (option: string) => string | undefined
  readonly flag: (option: string) => boolean
}

/** Runs a command and gives its exit status; it never ends the process itself. */
export type Runner = (args: Args, io: Io) => Promise<number>

/** One command as data: the help is printed from it and the arguments are checked against it without loading its code. */
export interface Command {
  readonly name: string
  /** One line for the list of commands. */
  readonly summary: string
  /** What stands between the name and the options: `[FOLDER|FILE…]`. */
  readonly takes: string
  /** Least and most arguments besides options. */
  readonly count: readonly [least: number, most: number]
  readonly about: readonly string[]
  readonly options: Readonly<Record<string, OptionSpec>>
  readonly examples: readonly (readonly [command: string, effect: string])[]
  readonly statuses: Readonly<Record<0 | 1 | 2, string>>
  readonly load: () => Promise<Runner>
}

/** Exit statuses, the same for every command. */
export const CLEAN = 0
export const STOPS_FOUND = 1
export const COULD_NOT_RUN = 2

/** What was typed cannot be understood. The message says what is wrong, `instead` what to type. */
export class UsageError extends Error {
  readonly instead: string

  constructor(what: string, instead: string) {
    super(what)
    this.name = 'UsageError'
    this.instead = instead
  }
}
