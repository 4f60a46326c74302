const LONGEST_QUOTE = 48

/** Replaces every control character by a space, so that a quoted value cannot break a line of output. */
function flat(text: string): string {
  let out = ''
  for (const character of text) {
    const code = character.codePointAt(0) ?? 0
    out += code < 0x20 || (code >= 0x7f && code < 0xa0) ? ' ' : character
  }
  return out
}

/**
 * Puts a typed value between quotation marks for a message, flattened to one line and shortened.
 * Messages are read by people, so a megabyte of input must not become a megabyte of message.
 */
export function quote(text: string): string {
  const short = text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE - 1)}…` : text
  return `“${flat(short)}”`
}
