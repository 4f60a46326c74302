import { parseArgs } from 'node:util'
import { quote } from '../base/quote.ts'
import { suggest } from '../base/suggest.ts'
import { type Args, type Command, type OptionSpec, UsageError } from './command.ts'

type Specs = Readonly<Record<string, OptionSpec>>
type Token = Extract<ReturnType<typeof tokensOf>[number], { kind: 'option' }>

function tokensOf(argv: readonly string[], specs: Specs) {
  const options = Object.fromEntries(
    Object.entries(specs).map(([name, { type, short }]) => [
      name,
      { type: type === 'text' ? ('string' as const) : ('boolean' as const), ...(short ? { short } : {}) },
    ]),
  )
  return parseArgs({ args: [...argv], options, allowPositionals: true, strict: false, tokens: true }).tokens
}

function readValue(token: Token, spec: OptionSpec, command: string): string | true {
  const written = token.rawName
  if (spec.type === 'flag') {
    if (token.value === undefined) return true
    throw new UsageError(`${written} takes no value`, `write ${written} alone`)
  }
  const example = `${written} ${spec.choices?.[0] ?? spec.value ?? 'VALUE'}`
  // A value that looks like an option is a forgotten value far more often than a file of that name.
  if (!token.value || (!token.inlineValue && token.value.startsWith('-')))
    throw new UsageError(`${written} needs a value`, `write ${example}`)
  if (spec.choices && !spec.choices.includes(token.value)) {
    const near = suggest(token.value, spec.choices)[0] ?? spec.choices[0]
    throw new UsageError(
      `${written} cannot be ${quote(token.value)}: it is ${spec.choices.join(', ')}`,
      `loomwright ${command} ${written} ${near}`,
    )
  }
  return token.value
}

function specOf(token: Token, specs: Specs, command: string): OptionSpec {
  const spec = Object.hasOwn(specs, token.name) ? specs[token.name] : undefined
  if (spec) return spec
  const near = suggest(token.name, Object.keys(specs))[0]
  throw new UsageError(
    `${command} has no option ${quote(token.rawName)}`,
    near ? `--${near}` : `loomwright ${command} --help lists what there is`,
  )
}

function checkCount(positionals: readonly string[], command: Command): void {
  const [least, most] = command.count
  const usage = `loomwright ${command.name} ${command.takes}`.trim()
  if (positionals.length < least) throw new UsageError(`${command.name} needs ${command.takes}`, usage)
  if (positionals.length > most)
    throw new UsageError(`${command.name} does not take ${quote(positionals[most] ?? '')} as well`, usage)
}

/** Reads the arguments of a command. Throws {@link UsageError} on anything the command does not take. */
export function readArgs(argv: readonly string[], command: Command): Args {
  const values = new Map<string, string | true>()
  const positionals: string[] = []
  for (const token of tokensOf(argv, command.options)) {
    if (token.kind === 'positional') positionals.push(token.value)
    if (token.kind !== 'option') continue
    const spec = specOf(token, command.options, command.name)
    if (values.has(token.name) && spec.type === 'text')
      throw new UsageError(`${token.rawName} is given twice`, `give it once`)
    values.set(token.name, readValue(token, spec, command.name))
  }
  checkCount(positionals, command)
  return {
    positionals,
    text: (option) => {
      const value = values.get(option)
      return typeof value === 'string' ? value : undefined
    },
    flag: (option) => values.get(option) === true,
  }
}
