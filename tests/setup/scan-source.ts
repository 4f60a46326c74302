/** One import or re-export of a source file. */
export interface ImportLine {
  /** The module as written between the quotes. */
  from: string
  /** True when the whole statement is `import type` or `export type`. */
  typeOnly: boolean
  /** `export * from`, which makes a barrel. */
  star: boolean
  /** 1-based. */
  line: number
}

const REGEX_MAY_FOLLOW = /(?:^|[(,=:[!&|?{};+\-*%~<>^\n]|\breturn|\btypeof|\bcase|=>)\s*$/

/**
 * The source with the insides of comments, strings, templates and regular expressions replaced by spaces. Length and
 * line breaks are kept, so an offset means the same in both texts. Code inside `${…}` stays.
 */
export function blankText(source: string): string {
  const out = source.split('')
  const blank = (from: number, to: number) => {
    for (let i = from; i < to; i++) if (out[i] !== '\n') out[i] = ' '
  }
  /** Brace depth at which each open `${` closes. */
  const templates: number[] = []
  let depth = 0
  let i = 0
  const skipTemplate = (start: number) => {
    let j = start
    while (j < source.length && source[j] !== '`') {
      if (source[j] === '\\') j += 2
      else if (source[j] === '$' && source[j + 1] === '{') {
        blank(start, j)
        templates.push(depth)
        depth += 1
        return j + 2
      } else j += 1
    }
    blank(start, j)
    return j + 1
  }
  while (i < source.length) {
    const c = source[i]
    const two = source.slice(i, i + 2)
    if (two === '//' || (two === '#!' && i === 0)) {
      const end = source.indexOf('\n', i)
      const stop = end < 0 ? source.length : end
      blank(i, stop)
      i = stop
    } else if (two === '/*') {
      const end = source.indexOf('*/', i + 2)
      const stop = end < 0 ? source.length : end + 2
      blank(i, stop)
      i = stop
    } else if (c === "'" || c === '"') {
      const stop = endOfQuoted(source, i, c)
      blank(i + 1, stop)
      i = stop + 1
    } else if (c === '`') i = skipTemplate(i + 1)
    else if (c === '/' && REGEX_MAY_FOLLOW.test(out.slice(Math.max(0, i - 40), i).join(''))) {
      const stop = endOfRegex(source, i)
      blank(i + 1, stop)
      i = stop + 1
    } else {
      if (c === '{') depth += 1
      if (c === '}') {
        depth -= 1
        if (templates.at(-1) === depth) {
          templates.pop()
          i = skipTemplate(i + 1)
          continue
        }
      }
      i += 1
    }
  }
  return out.join('')
}

function endOfQuoted(source: string, start: number, quote: string): number {
  let j = start + 1
  while (j < source.length && source[j] !== quote && source[j] !== '\n') j += source[j] === '\\' ? 2 : 1
  return j
}

function endOfRegex(source: string, start: number): number {
  let inClass = false
  let j = start + 1
  while (j < source.length && source[j] !== '\n') {
    const c = source[j]
    if (c === '\\') j += 1
    else if (c === '[') inClass = true
    else if (c === ']') inClass = false
    else if (c === '/' && !inClass) return j
    j += 1
  }
  return j
}

const STATEMENT = /(?<![.\w$])(import|export)\b([^'"`;()]*?)\bfrom\s*(?=['"])/g
const BARE = /(?<![.\w$])import\s*\(?\s*(?=['"])/g

/** Every module a source names: static imports, re-exports, side-effect imports, `import('…')` and import types. */
export function importsOf(source: string): ImportLine[] {
  const code = blankText(source)
  const found: ImportLine[] = []
  const add = (at: number, quoteAt: number, clause: string) => {
    const end = endOfQuoted(source, quoteAt, source[quoteAt] ?? '')
    found.push({
      from: source.slice(quoteAt + 1, end),
      typeOnly: /^\s*type\s+[\w$*{]/.test(clause),
      star: /^\s*\*\s*$/.test(clause),
      line: source.slice(0, at).split('\n').length,
    })
  }
  for (const hit of code.matchAll(STATEMENT)) add(hit.index, hit.index + hit[0].length, hit[2] ?? '')
  for (const hit of code.matchAll(BARE)) add(hit.index, hit.index + hit[0].length, '')
  return found.sort((a, b) => a.line - b.line)
}
