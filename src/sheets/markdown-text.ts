import { escapeMarkdown } from '../base/escape.ts'

/** What can start or end inline markup, a table cell or HTML wherever it stands. */
const MARKUP = /[\\`*_[\]<>|~&]/
/** What is markup only at the start of a block. */
const BLOCK_START = /^\s*(?:[#>=:]|[+-](?:[\s-]|$)|\d+[.)](?:\s|$))/

/**
 * Text as inline Markdown. Ordinary words and figures stay as they are, so that the file reads well unrendered;
 * anything that could be markup is escaped whole. Some readers link a bare web or mail address to itself, which escaping cannot
 * stop and which leads nowhere else.
 */
export function markdownText(text: string): string {
  const flat = text.replace(/\s+/g, ' ').trim()
  return MARKUP.test(flat) || BLOCK_START.test(flat) || /[^\P{C}\u00ad]/u.test(flat)
    ? escapeMarkdown(flat)
    : flat
}
