import Handlebars from 'handlebars'

/** A template that cannot be read or filled in: names its file and line. */
export class TemplateError extends Error {
  override readonly name = 'TemplateError'
  readonly file: string
  readonly line: number | undefined

  constructor(file: string, line: number | undefined, problem: string) {
    super(`${file}${line === undefined ? '' : `:${line}`}: ${problem}`)
    this.file = file
    this.line = line
  }
}

/** A fault in a shop's own template, which was left out for it. */
export interface TemplateTrouble {
  /** As the shop knows it: `harnesses/templates/rules.hbs`. */
  readonly file: string
  readonly line: number | undefined
  readonly problem: string
}

/** A template of the shop, which takes the place of ours of that name. */
export interface OwnTemplate {
  readonly file: string
  readonly text: string
}

/** Templates ready to fill in. */
export interface Templates {
  /** Fills a template in; throws {@link TemplateError}. Everything in `data` is escaped, except text made by {@link markup}. */
  readonly render: (name: string, data: object) => string
  readonly names: readonly string[]
  /** Faults met so far in the shop's own templates; ours was used wherever one of them failed. */
  readonly troubles: () => readonly TemplateTrouble[]
}

/** Text that is already HTML and must not be escaped again. Only for what this program made or cleaned itself. */
export const markup = (html: string): Handlebars.SafeString => new Handlebars.SafeString(html)
export type Markup = Handlebars.SafeString

/**
 * Compiles templates, by name without `.hbs`: each can be filled in, and used by another as `{{> name}}`. A misspelt field is
 * an error with its line, never an empty place on a paper. `own` are the shop's: one that is broken is told of in `troubles`,
 * and ours fills its place.
 */
export function makeTemplates(
  sources: Readonly<Record<string, string>>,
  own: Readonly<Record<string, OwnTemplate>> = {},
): Templates {
  const engine = Handlebars.create()
  addHelpers(engine)
  const troubles = new Map<string, TemplateTrouble>()
  const compiled = new Map<string, Handlebars.TemplateDelegate>()
  for (const [name, text] of Object.entries(sources)) compiled.set(name, compile(engine, name, text))
  const known = new Set([...Object.keys(sources), ...Object.keys(own)])
  for (const [name, template] of Object.entries(own)) {
    const report = (error: TemplateError) => {
      const { line } = error
      const trouble = { file: template.file, line, problem: problemOf(error) }
      troubles.set(`${trouble.file} ${line} ${trouble.problem}`, trouble)
    }
    const mine = compileOwn(engine, name, template, known, report)
    const ours = compiled.get(name)
    if (mine)
      compiled.set(name, (context, options) => {
        try {
          return mine(context, options)
        } catch (cause) {
          report(asTemplateError(name, cause))
          return ours ? ours(context, options) : ''
        }
      })
  }
  for (const [name, template] of compiled) engine.registerPartial(name, template)
  return {
    names: [...compiled.keys()],
    troubles: () => [...troubles.values()],
    render: (name, data) => {
      const template = compiled.get(name)
      if (!template) throw new TemplateError(`${name}.hbs`, undefined, 'there is no template of this name')
      return fill(name, () => template(data))
    },
  }
}

/** What is wrong, without the file that the message begins with. */
const problemOf = ({ file, line, message }: TemplateError): string =>
  message.slice(`${file}${line === undefined ? '' : `:${line}`}: `.length)

/** A shop's template, unless its text alone shows that it cannot be used; every fault of the text is reported. */
function compileOwn(
  engine: typeof Handlebars,
  name: string,
  { text }: OwnTemplate,
  known: ReadonlySet<string>,
  report: (error: TemplateError) => void,
): Handlebars.TemplateDelegate | undefined {
  try {
    const faults = faultsOf(engine.parse(text), name, known)
    for (const fault of faults) report(fault)
    const inner = compile(engine, name, text)
    if (faults.length > 0) return undefined
    return (context, options) => {
      try {
        return inner(context, options)
      } catch (cause) {
        const error = asTemplateError(name, cause)
        if (error.file === `${name}.hbs`) throw error
        // A part of ours that was given too little: the fault is where it was asked for.
        const part = error.file.replace(/\.hbs$/, '')
        throw new TemplateError(
          `${name}.hbs`,
          lineOfPart(engine.parse(text), part),
          `{{> ${part}}} does not find what it needs here (${problemOf(error)})`,
        )
      }
    }
  } catch (cause) {
    report(asTemplateError(name, cause))
    return undefined
  }
}

interface TemplateNode {
  readonly type: string
  readonly escaped?: boolean
  readonly name?: { readonly original?: unknown }
  readonly params?: readonly { readonly value?: unknown }[]
  readonly loc?: { readonly start?: { readonly line?: number } }
}

/** Every node of a parsed template, its blocks included. */
function* nodesOf(value: unknown): Iterable<TemplateNode> {
  if (Array.isArray(value)) for (const item of value) yield* nodesOf(item)
  else if (typeof value === 'object' && value !== null) {
    if ('type' in value && typeof value.type === 'string') yield value as TemplateNode
    for (const [key, item] of Object.entries(value)) if (key !== 'loc') yield* nodesOf(item)
  }
}

const isPart = ({ type }: TemplateNode): boolean =>
  type === 'PartialStatement' || type === 'PartialBlockStatement'

const lineOfPart = (parsed: unknown, part: string): number | undefined =>
  [...nodesOf(parsed)].find((node) => isPart(node) && node.name?.original === part)?.loc?.start?.line

/** What can be told from the text: parts that are not there, and text that would not be escaped. */
function faultsOf(parsed: unknown, name: string, known: ReadonlySet<string>): TemplateError[] {
  const nodes = [...nodesOf(parsed)]
  // Parts that the template defines for itself.
  const inline = new Set(
    nodes.filter(({ type }) => type === 'DecoratorBlock').map(({ params }) => params?.[0]?.value),
  )
  return nodes.flatMap((node) => {
    const line = node.loc?.start?.line
    const part = node.name?.original
    if (isPart(node) && typeof part === 'string' && !known.has(part) && !inline.has(part))
      return [new TemplateError(`${name}.hbs`, line, `there is no template {{> ${part}}}`)]
    if (node.type === 'MustacheStatement' && node.escaped === false)
      return [
        new TemplateError(`${name}.hbs`, line, 'three braces would print what was typed as HTML; use two'),
      ]
    return []
  })
}

/** Compiled with its own file's name on every error, also when another template uses it. */
function compile(engine: typeof Handlebars, name: string, text: string): Handlebars.TemplateDelegate {
  try {
    // Parsed at once, because Handlebars itself waits for the first use to look for mistakes.
    const parsed = engine.parse(text)
    const inner = engine.compile(parsed, { strict: true, preventIndent: true, noEscape: false })
    return (context, options) => fill(name, () => inner(context, options))
  } catch (cause) {
    throw asTemplateError(name, cause)
  }
}

function fill(name: string, run: () => string): string {
  try {
    return run()
  } catch (cause) {
    throw asTemplateError(name, cause)
  }
}

function asTemplateError(name: string, cause: unknown): TemplateError {
  if (cause instanceof TemplateError) return cause
  const message = cause instanceof Error ? cause.message : String(cause)
  const named = cause as { lineNumber?: unknown; hash?: { loc?: { first_line?: unknown } } }
  const inText = /Parse error on line (\d+)/.exec(message)?.[1] ?? / - (\d+):\d+/.exec(message)?.[1]
  const line = Number(named.lineNumber ?? named.hash?.loc?.first_line ?? inText)
  return new TemplateError(`${name}.hbs`, Number.isFinite(line) ? line : undefined, firstWords(message))
}

const firstWords = (message: string): string => message.replace(/\s*\n\s*/g, ' ').slice(0, 300)

/** The few helpers: comparing, asking whether any list holds something, and counting from one. */
function addHelpers(engine: typeof Handlebars): void {
  engine.registerHelper('is', (a: unknown, b: unknown) => a === b)
  engine.registerHelper('some', (...lists: unknown[]) =>
    lists.some((one) => Array.isArray(one) && one.length > 0),
  )
  engine.registerHelper('nth', (index: unknown) => Number(index) + 1)
}
