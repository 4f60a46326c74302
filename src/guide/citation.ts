/** What a citation is about; each is also the scheme of its link. */
export const CITATION_KINDS = ['pin', 'wire', 'connector', 'part', 'figure', 'finding'] as const
export type CitationKind = (typeof CITATION_KINDS)[number]

/** An ordinary Markdown link whose target is a fact: `[](pin:radio.J1.1)`. */
export interface Citation {
  readonly kind: CitationKind
  /** Address as written, full or short. */
  readonly address: string
  /** Only for a figure: what is asked, such as `['volts', 'transmit']`. */
  readonly asks: readonly string[]
  /** The whole link target, for messages. */
  readonly url: string
}

const SCHEME = new RegExp(`^(${CITATION_KINDS.join('|')}):(.+)$`)

/** Reads a link target; undefined when it is an ordinary link. */
export function parseCitation(url: string): Citation | undefined {
  const found = SCHEME.exec(url)
  if (!found?.[1] || !found[2]) return undefined
  const kind = found[1] as CitationKind
  const target = decoded(found[2])
  if (kind !== 'figure') return { kind, address: target, asks: [], url }
  const [address = '', ...asks] = target.split('/')
  return { kind, address, asks, url }
}

/** Percent signs are undone where they are well formed: editors write "Ω" or "+" so. */
function decoded(text: string): string {
  try {
    return decodeURIComponent(text)
  } catch {
    return text
  }
}
