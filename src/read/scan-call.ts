/** A stretch of source text, from its first character to the one after its last. */
export interface Span {
  readonly start: number
  readonly end: number
}

const CLOSERS: Readonly<Record<string, string>> = { '(': ')', '[': ']', '{': '}' }

/** The end of a quoted text that begins at `at`, one character after its closing mark. */
function afterQuote(text: string, at: number): number {
  const mark = text[at]
  for (let i = at + 1; i < text.length; i++) {
    if (text[i] === '\\') i += 1
    else if (text[i] === mark) return i + 1
    else if (mark === '`' && text[i] === '$' && text[i + 1] === '{') i = afterBracket(text, i + 1) - 1
  }
  return text.length
}

/** Past blanks and comments. */
function skip(text: string, at: number): number {
  for (let i = at; i < text.length; ) {
    if (/\s/.test(text[i] ?? '')) i += 1
    else if (text.startsWith('//', i)) i = lineEnd(text, i)
    else if (text.startsWith('/*', i)) i = blockEnd(text, i)
    else return i
  }
  return text.length
}

const lineEnd = (text: string, at: number): number => {
  const end = text.indexOf('\n', at)
  return end < 0 ? text.length : end
}
const blockEnd = (text: string, at: number): number => {
  const end = text.indexOf('*/', at + 2)
  return end < 0 ? text.length : end + 2
}

/** One character, quoted text, comment or bracketed stretch further. */
function advance(text: string, at: number): number {
  const here = text[at] ?? ''
  if (here === '"' || here === "'" || here === '`') return afterQuote(text, at)
  if (here in CLOSERS) return afterBracket(text, at)
  if (text.startsWith('//', at)) return lineEnd(text, at)
  if (text.startsWith('/*', at)) return blockEnd(text, at)
  return at + 1
}

/** The end of a bracketed stretch that begins at `at`, one character after its closing bracket. */
function afterBracket(text: string, at: number): number {
  const closer = CLOSERS[text[at] ?? '']
  for (let i = at + 1; i < text.length; ) {
    if (text[i] === closer) return i + 1
    i = advance(text, i)
  }
  return text.length
}

/** The parts between the commas of a bracketed stretch, trimmed; a trailing comma adds none. */
export function partsOf(text: string, bracket: number): Span[] {
  const end = afterBracket(text, bracket) - 1
  const parts: Span[] = []
  let start = skip(text, bracket + 1)
  for (let i = start; i <= end; ) {
    if (i === end || text[i] === ',') {
      if (i > start) parts.push({ start, end: start + text.slice(start, i).trimEnd().length })
      start = skip(text, i + 1)
      i = Math.max(start, i + 1)
    } else i = advance(text, i)
  }
  return parts
}

/** The arguments of a call whose name begins at `at`, or undefined if there is no call. */
export function argumentsOf(text: string, at: number): { parts: Span[]; span: Span } | undefined {
  // Between a name and its bracket there can be type arguments, but no text of any length.
  const open = text.indexOf('(', at)
  if (open < 0 || open - at > 200 || /[;{}]/.test(text.slice(at, open))) return undefined
  return { parts: partsOf(text, open), span: { start: at, end: afterBracket(text, open) } }
}

const KEY = /^(?:(['"])(.*?)\1|([\p{ID_Start}$_][\p{ID_Continue}$]*|\d+(?:\.\d+)?))\s*(:|$)/u

/** The member of an object literal with that key: where it begins, and its value. A shorthand is its own value. */
function memberOf(text: string, brace: number, key: string): { start: number; value: Span } | undefined {
  for (const part of partsOf(text, brace)) {
    const match = KEY.exec(text.slice(part.start, part.end))
    if (!match || (match[2] ?? match[3]) !== key) continue
    const value = match[4] === ':' ? skip(text, part.start + match[0].length) : part.start
    return { start: part.start, value: { start: value, end: part.end } }
  }
  return undefined
}

/** A literal found in source text. */
export interface Found {
  /** Where to point: at the key of a member, at an argument, at an entry of a list. */
  readonly start: number
  readonly value: Span
  /** Every step of the path was written out. */
  readonly whole: boolean
}

/** Follows a path into an object or list literal, as far as it is written out. */
export function follow(text: string, from: Found, path: readonly (string | number)[]): Found {
  const [key, ...rest] = path
  if (key === undefined) return { ...from, whole: true }
  const opener = text[from.value.start]
  if (opener === '{') {
    const member = memberOf(text, from.value.start, String(key))
    return member ? follow(text, { ...member, whole: false }, rest) : from
  }
  const parts = opener === '[' ? partsOf(text, from.value.start) : []
  const index = Number(key)
  // After a spread the positions no longer tell the index.
  const spread = parts.slice(0, index + 1).some((part) => text.startsWith('...', part.start))
  const part = spread ? undefined : parts[index]
  return part ? follow(text, { start: part.start, value: part, whole: false }, rest) : from
}

/** Whether a value is only a name, so that what is meant was written elsewhere. */
export function isName(text: string, { start, end }: Span): boolean {
  const value = text.slice(start, end)
  return /^[\p{ID_Start}$_][\p{ID_Continue}$]*$/u.test(value) && !/^(true|false|null|undefined)$/.test(value)
}
