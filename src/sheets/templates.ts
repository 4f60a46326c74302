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

/** Templates ready to fill in. */
export interface Templates {
  /** Fills a template in; throws {@link TemplateError}. Everything in `data` is escaped, except text made by {@link markup}. */
  readonly render: (name: string, data: object) => string
  readonly names: readonly string[]
}

/** Text that is already HTML and must not be escaped again. Only for what this program made or cleaned itself. */
export const markup = (html: string): Handlebars.SafeString => new Handlebars.SafeString(html)
export type Markup = Handlebars.SafeString

/**
 * Compiles a shop's templates, by name without `.hbs`: each can be filled in, and used by another as `{{> name}}`.
 * A misspelt field is an error with its line, never an empty place on a paper.
 */
export function makeTemplates(sources: Readonly<Record<string, string>>): Templates {
  const engine = Handlebars.create()
  addHelpers(engine)
  const compiled = new Map<string, Handlebars.TemplateDelegate>()
  for (const [name, text] of Object.entries(sources)) {
    const template = compile(engine, name, text)
    compiled.set(name, template)
    engine.registerPartial(name, template)
  }
  return {
    names: [...compiled.keys()],
    render: (name, data) => {
      const template = compiled.get(name)
      if (!template) throw new TemplateError(`${name}.hbs`, undefined, 'there is no template of this name')
      return fill(name, () => template(data))
    },
  }
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
