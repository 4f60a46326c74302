/** XML 1.0 forbids these outright, even as references; half a surrogate pair is not a character at all. */
const NOT_XML =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u0084\u0086-\u009f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g
/** Marks that turn the reading direction round, with which a text can show something other than it says. */
const DIRECTION_MARKS = /[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g
const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

const entity = (character: string): string => ENTITIES[character] ?? character

/** Makes any text safe between HTML tags or within a quoted attribute. */
export function escapeHtml(text: string): string {
  return text.replace(NOT_XML, '').replace(/[&<>"']/g, entity)
}

/** Makes any text safe within a quoted attribute; line ends and tabs are kept as references, since parsers fold them. */
export function escapeAttribute(text: string): string {
  return escapeHtml(text).replace(/[\t\n\r`]/g, (character) => `&#${character.charCodeAt(0)};`)
}

/** Makes any text safe within an SVG `text` element: one line, no direction marks, only characters XML allows. */
export function escapeSvgText(text: string): string {
  return escapeHtml(text.replace(NOT_XML, '').replace(DIRECTION_MARKS, '').replace(/\s+/g, ' '))
}

/** Any text as a quoted string of CSS: only plain letters, digits and blanks stand as they are. */
export function cssString(text: string): string {
  const escaped = text
    .replace(NOT_XML, '')
    .replace(/\s+/g, ' ')
    .replace(/[^A-Za-z0-9 ]/gu, (character) => `\\${(character.codePointAt(0) ?? 0).toString(16)} `)
  return `"${escaped}"`
}

/** JSON for the inside of a `<script>` element: nothing in it can end the element or the line. */
export function jsonForScript(value: unknown): string {
  return (JSON.stringify(value) ?? 'null').replace(
    /[<>&\u2028\u2029]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )
}

const PLAIN_NUMBER = /^[+-]?\d+(\.\d+)?( ?[\p{L}°µΩ²%]+)?$/u
/** A spreadsheet takes a cell that starts so for a formula, the full-width forms included. */
const FORMULA_LEADER = /^[\s\u0000]*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r\n]/

/**
 * One field of RFC 4180: quoted when it holds a comma, quote, line end or outer space.
 * A field that a spreadsheet would run as a formula gets a leading apostrophe; a plain signed number with or without
 * its unit stays a number.
 */
export function escapeCsvField(text: string): string {
  const guarded = FORMULA_LEADER.test(text) && !PLAIN_NUMBER.test(text) ? `'${text}` : text
  return /[",\r\n;\t]|^\s|\s$/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded
}

/** One record of RFC 4180 with its CRLF. */
export function csvRecord(fields: readonly string[]): string {
  return `${fields.map(escapeCsvField).join(',')}\r\n`
}

/** Makes any text safe as inline Markdown, table cells included: nothing in it is markup, HTML or a line end. */
export function escapeMarkdown(text: string): string {
  return text
    .replace(NOT_XML, '')
    .replace(/\s+/g, ' ')
    .replace(/[\\`*_{}[\]()#+\-.!|~>]/g, (character) => `\\${character}`)
    .replace(/[&<]/g, entity)
}

/** Escape sequences as terminals know them: CSI, OSC with its text, and the two-character forms. */
const ANSI =
  /(?:\u001b\[|\u009b)[0-?]*[ -/]*[@-~]|(?:\u001b\]|\u009d)[^\u0007\u001b\u009c]*(?:\u0007|\u001b\\|\u009c)?|\u001b[@-Z\\-_]/g

/** Makes any text safe to print on a terminal: no escape sequences, control characters, direction marks or line ends. */
export function escapeTerminal(text: string): string {
  return text
    .replace(ANSI, '')
    .replace(/[\t\n\r]+/g, ' ')
    .replace(NOT_XML, '')
    .replace(DIRECTION_MARKS, '')
}
