/** What an anchor on a page stands for. */
export type AnchorKind =
  | 'wire'
  | 'cable'
  | 'connector'
  | 'pin'
  | 'part'
  | 'splice'
  | 'unit'
  | 'finding'
  | 'limit'
  | 'net'

/** A dot, which parts the pin from its connector, is two underlines; any other character but letters, digits and hyphens its number. */
function safe(character: string): string {
  if (/[A-Za-z0-9-]/.test(character)) return character
  return character === '.' ? '__' : `_${(character.codePointAt(0) ?? 0).toString(16)}_`
}

/** An anchor of letters, digits, hyphens and underlines. Two names never share one, and nothing needs escaping in a link. */
export function anchor(kind: AnchorKind, name: string): string {
  return `${kind}-${[...name].map(safe).join('')}`
}
