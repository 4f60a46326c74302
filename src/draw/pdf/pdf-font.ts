import { ADVANCES_400, ADVANCES_700 } from '../font/advances.ts'
import { FONT_400, FONT_700 } from '../font/font-data.ts'
import type { Weight } from '../text-width.ts'

/** Order of the known tables in a WOFF2 directory (W3C WOFF2, 4.1), as far as the drawing font has them. */
const KNOWN = ['cmap', 'head', 'hhea', 'hmtx', 'maxp', 'name', 'OS/2', 'post', 'cvt ', 'fpgm', 'glyf', 'loca']
/** What a font embedded in a PDF needs (ISO 32000-1, 9.9). */
const NEEDED = new Set(['glyf', 'head', 'hhea', 'hmtx', 'loca', 'maxp'])
const HEADER = 48
const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'

function fromBase64(text: string): Uint8Array {
  const out: number[] = []
  let bits = 0
  let held = 0
  for (const char of text) {
    const value = DIGITS.indexOf(char)
    if (value < 0) break
    held = ((held << 6) | value) & 0xffff
    bits += 6
    if (bits >= 8) {
      bits -= 8
      out.push((held >> bits) & 0xff)
    }
  }
  return Uint8Array.from(out)
}

interface Table {
  readonly tag: string
  readonly bytes: Uint8Array
}

/** Tables of the drawing font, which is packed with its outlines as they are (transform version 3). */
function tablesOf(woff2: Uint8Array, unpack: (packed: Uint8Array) => Uint8Array): Table[] {
  const view = new DataView(woff2.buffer, woff2.byteOffset)
  const count = view.getUint16(12)
  const packedLength = view.getUint32(20)
  let at = HEADER
  const directory = Array.from({ length: count }, () => {
    const tag = KNOWN[(woff2[at] ?? 0) & 0x3f] ?? '????'
    at += 1
    let length = 0
    for (let more = true; more; at += 1) {
      const byte = woff2[at] ?? 0
      length = length * 128 + (byte & 0x7f)
      more = (byte & 0x80) !== 0
    }
    return { tag, length }
  })
  const data = unpack(woff2.subarray(at, at + packedLength))
  let from = 0
  return directory.map(({ tag, length }) => {
    const bytes = data.subarray(from, from + length)
    from += length
    return { tag, bytes }
  })
}

function checksum(bytes: Uint8Array): number {
  let sum = 0
  for (let i = 0; i < bytes.length; i += 4)
    for (let k = 0; k < 4; k += 1) sum = (sum + (bytes[i + k] ?? 0) * 2 ** (24 - 8 * k)) >>> 0
  return sum
}

/** A TrueType file of the tables a PDF needs. */
function trueType(tables: readonly Table[]): Uint8Array {
  const used = tables.filter(({ tag }) => NEEDED.has(tag)).sort((a, b) => (a.tag < b.tag ? -1 : 1))
  const padded = (length: number) => Math.ceil(length / 4) * 4
  const start = 12 + 16 * used.length
  const file = new Uint8Array(used.reduce((sum, { bytes }) => sum + padded(bytes.length), start))
  const view = new DataView(file.buffer)
  const power = 2 ** Math.floor(Math.log2(used.length))
  view.setUint32(0, 0x10000)
  view.setUint16(4, used.length)
  view.setUint16(6, power * 16)
  view.setUint16(8, Math.log2(power))
  view.setUint16(10, (used.length - power) * 16)
  let at = start
  for (const [i, { tag, bytes }] of used.entries()) {
    const entry = 12 + 16 * i
    for (let k = 0; k < 4; k += 1) file[entry + k] = tag.charCodeAt(k)
    view.setUint32(entry + 4, checksum(bytes))
    view.setUint32(entry + 8, at)
    view.setUint32(entry + 12, bytes.length)
    file.set(bytes, at)
    at += padded(bytes.length)
  }
  return file
}

export interface PdfFont {
  readonly name: string
  readonly file: Uint8Array
  /** Glyph by character; glyph 0 is the box drawn for a character the font lacks. */
  readonly glyphs: ReadonlyMap<string, number>
  /** Advance of glyphs 1, 2 …, in thousandths. */
  readonly advances: readonly number[]
}

/** The drawing font as a PDF carries it. `unpack` undoes Brotli (RFC 7932). */
export function pdfFont(weight: Weight, unpack: (packed: Uint8Array) => Uint8Array): PdfFont {
  const rows = weight === 'bold' ? ADVANCES_700 : ADVANCES_400
  // The font's glyphs stand in the order of their characters, after the box.
  const chars = rows.flatMap(([advance, text]) => [...text].map((char) => ({ char, advance })))
  chars.sort((a, b) => (a.char.codePointAt(0) ?? 0) - (b.char.codePointAt(0) ?? 0))
  return {
    name: weight === 'bold' ? 'LoomwrightSans-Bold' : 'LoomwrightSans-Regular',
    file: trueType(tablesOf(fromBase64(weight === 'bold' ? FONT_700 : FONT_400), unpack)),
    glyphs: new Map(chars.map(({ char }, i) => [char, i + 1])),
    advances: chars.map(({ advance }) => advance),
  }
}
