/** What an anchor on a page stands for. */
export type AnchorKind = 'wire' | 'cable' | 'connector' | 'pin' | 'part' | 'splice' | 'unit' | 'finding'

/**
 * An anchor made of letters, digits, dots and hyphens. Every other character is written as its number, so that two names
 * never share an anchor and nothing needs escaping in a link.
 */
export function anchor(kind: AnchorKind, name: string): string {
  const safe = [...name]
    .map((c) => (/[A-Za-z0-9.-]/.test(c) ? c : `_${(c.codePointAt(0) ?? 0).toString(16)}_`))
    .join('')
  return `${kind}-${safe}`
}
