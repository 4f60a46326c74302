/**
 * Makes the drawing font. From the root of the repository:
 * `npx esbuild tests/setup/make-font.ts --platform=node --format=esm | node --input-type=module -`
 *
 * Takes the outlines of an open font (SIL OFL 1.1) for the characters that drawings use, adds the few the font lacks
 * (arrows, ≈, ≤, ≥), and writes them as two small WOFF2 files inside `src/draw/font/`, with their advance widths
 * beside them. Widths from that table equal what a browser draws, because the style switches kerning off.
 * The result has its own family name, as the licence asks of changed versions.
 */
import { readFileSync, writeFileSync } from 'node:fs'
import { brotliCompressSync, constants } from 'node:zlib'
import * as fontkit from 'fontkit'

type Point = { x: number; y: number; on: boolean }
type Contour = Point[]
type Outline = { code: number; advance: number; contours: Contour[] }
type Matrix = readonly [number, number, number, number, number, number]

const UNITS = 1000
const FAMILY = 'Loomwright Sans'
const SUBSETS = ['latin', 'latin-ext', 'greek']

const range = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, i) => from + i)
const codesOf = (text: string) => [...text].map((c) => c.codePointAt(0) ?? 32)
const CODES = [
  ...range(0x20, 0x7e),
  ...range(0xa0, 0xff).filter((code) => code !== 0xad),
  ...codesOf('ĄąĆćČčĎďĐđĘęĚěĞğİıŁłŃńŇňŐőŒœŘřŚśŞşŠšŤťŮůŰűŹźŻżŽž'),
  ...codesOf('ΓΔΘΛΞΠΣΦΨΩαβγδεηθλμπρστφχψω'),
  ...codesOf('–—‘’‚“”„•…€™−↑↓'),
]

const open = (subset: string, weight: number): fontkit.Font =>
  fontkit.create(
    readFileSync(
      `node_modules/@fontsource/ibm-plex-sans/files/ibm-plex-sans-${subset}-${weight}-normal.woff2`,
    ),
  ) as fontkit.Font

function contoursOf(glyph: fontkit.Glyph): Contour[] {
  const contours: Contour[] = []
  for (const { command, args } of glyph.path.commands) {
    const points = args.map(Math.round)
    const [a = 0, b = 0, c = 0, d = 0] = points
    const last = contours.at(-1)
    if (command === 'moveTo') contours.push([{ x: a, y: b, on: true }])
    else if (command === 'lineTo') last?.push({ x: a, y: b, on: true })
    else if (command === 'quadraticCurveTo') last?.push({ x: a, y: b, on: false }, { x: c, y: d, on: true })
  }
  return contours.map(closeUp).filter((contour) => contour.length > 2)
}

/** A contour closes by itself: a last point on top of the first is left out. */
function closeUp(contour: Contour): Contour {
  const first = contour[0]
  const last = contour.at(-1)
  return first && last && contour.length > 1 && last.on && first.x === last.x && first.y === last.y
    ? contour.slice(0, -1)
    : contour
}

const moved = (contours: Contour[], [a, b, c, d, e, f]: Matrix): Contour[] =>
  contours.map((contour) =>
    contour.map(({ x, y, on }) => ({
      x: Math.round(a * x + c * y + e),
      y: Math.round(b * x + d * y + f),
      on,
    })),
  )

const bar = (x0: number, y0: number, x1: number, y1: number): Contour => [
  { x: x0, y: y0, on: true },
  { x: x0, y: y1, on: true },
  { x: x1, y: y1, on: true },
  { x: x1, y: y0, on: true },
]

/** The characters the font has no outline for, put together from those it has. */
function addMissing(outlines: Outline[], weight: number) {
  const of = (char: string): Outline => {
    const found = outlines.find((o) => o.code === char.codePointAt(0))
    if (!found) throw new Error(`the font has no ${char} to build on`)
    return found
  }
  const add = (char: string, from: Outline, contours: Contour[]) =>
    outlines.push({ code: char.codePointAt(0) ?? 0, advance: from.advance, contours })
  const up = of('↑')
  const middle = up.advance / 2
  const turn = (sign: 1 | -1): Matrix => [0, -sign, sign, 0, middle - sign * 340, 340 + sign * middle]
  add('→', up, moved(up.contours, turn(1)))
  add('←', up, moved(up.contours, turn(-1)))
  const tilde = of('~')
  const shift = weight > 500 ? 125 : 105
  add('≈', tilde, [
    ...moved(tilde.contours, [1, 0, 0, 1, 0, shift]),
    ...moved(tilde.contours, [1, 0, 0, 1, 0, -shift]),
  ])
  const thick = weight > 500 ? 110 : 72
  for (const [char, base] of [
    ['≤', '<'],
    ['≥', '>'],
  ] as const) {
    const from = of(base)
    add(char, from, [
      ...moved(from.contours, [1, 0, 0, 1, 0, 70]),
      bar(80, -10, from.advance - 80, thick - 10),
    ])
  }
}

function collect(weight: number): {
  outlines: Outline[]
  lineUp: number
  lineDown: number
  cap: number
  x: number
} {
  const fonts = SUBSETS.map((subset) => open(subset, weight))
  const outlines: Outline[] = []
  for (const code of CODES) {
    const font = fonts.find((f) => f.hasGlyphForCodePoint(code))
    if (!font) throw new Error(`no outline for ${String.fromCodePoint(code)}`)
    const glyph = font.glyphForCodePoint(code)
    outlines.push({ code, advance: Math.round(glyph.advanceWidth), contours: contoursOf(glyph) })
  }
  addMissing(outlines, weight)
  outlines.sort((a, b) => a.code - b.code)
  const [main] = fonts as [fontkit.Font]
  return { outlines, lineUp: main.ascent, lineDown: main.descent, cap: main.capHeight, x: main.xHeight }
}

class Bytes {
  readonly list: number[] = []
  u8(...values: number[]) {
    for (const value of values) this.list.push(value & 0xff)
    return this
  }
  u16(...values: number[]) {
    for (const value of values) this.u8(value >> 8, value)
    return this
  }
  u32(...values: number[]) {
    for (const value of values) this.u8(value >>> 24, value >>> 16, value >>> 8, value)
    return this
  }
  text(text: string) {
    return this.u8(...Buffer.from(text, 'latin1'))
  }
  pad(to: number) {
    while (this.list.length % to) this.list.push(0)
    return this
  }
}

const boundsOf = (contours: Contour[]) => {
  const points = contours.flat()
  const xs = points.map((p) => p.x)
  const ys = points.map((p) => p.y)
  return points.length
    ? { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) }
    : { x0: 0, y0: 0, x1: 0, y1: 0 }
}

/** One simple glyph of the `glyf` table (OpenType, "glyf"). */
function encodeGlyph(contours: Contour[]): number[] {
  if (contours.length === 0) return []
  const { x0, y0, x1, y1 } = boundsOf(contours)
  const out = new Bytes().u16(contours.length, x0, y0, x1, y1)
  let end = -1
  for (const contour of contours) {
    end += contour.length
    out.u16(end)
  }
  out.u16(0)
  const flags = new Bytes()
  const xs = new Bytes()
  const ys = new Bytes()
  let px = 0
  let py = 0
  for (const { x, y, on } of contours.flat()) {
    const step = (delta: number, short: number, same: number, into: Bytes) => {
      if (delta === 0) return same
      if (Math.abs(delta) < 256) {
        into.u8(Math.abs(delta))
        return delta > 0 ? short | same : short
      }
      into.u16(delta)
      return 0
    }
    flags.u8((on ? 1 : 0) | step(x - px, 2, 16, xs) | step(y - py, 4, 32, ys))
    px = x
    py = y
  }
  return out.u8(...flags.list, ...xs.list, ...ys.list).pad(4).list
}

/** `cmap` format 4: runs of neighbouring codes map to runs of glyphs. */
function encodeCmap(codes: number[]): number[] {
  const runs: { from: number; to: number; glyph: number }[] = []
  codes.forEach((code, i) => {
    const last = runs.at(-1)
    if (last && code === last.to + 1) last.to = code
    else runs.push({ from: code, to: code, glyph: i + 1 })
  })
  const n = runs.length + 1
  const log = Math.floor(Math.log2(n))
  const table = new Bytes().u16(n * 2, 2 * 2 ** log, log, 2 * n - 2 * 2 ** log)
  table.u16(...runs.map((r) => r.to), 0xffff, 0, ...runs.map((r) => r.from), 0xffff)
  table.u16(...runs.map((r) => r.glyph - r.from), 1, ...Array<number>(n).fill(0))
  return new Bytes()
    .u16(0, 1, 3, 1)
    .u32(12)
    .u16(4, table.list.length + 6, 0)
    .u8(...table.list).list
}

function encodeName(weight: number): number[] {
  const style = weight > 500 ? 'Bold' : 'Regular'
  const entries: [number, string][] = [
    [0, 'Copyright 2017 IBM Corp. Outlines used and changed under the licence below.'],
    [1, FAMILY],
    [2, style],
    [3, `${FAMILY} ${style} 1`],
    [4, `${FAMILY} ${style}`],
    [6, `LoomwrightSans-${style}`],
    [13, 'SIL Open Font License, Version 1.1'],
  ]
  const texts = entries.map(([, text]) => Buffer.from(text, 'utf16le').swap16())
  const out = new Bytes().u16(0, entries.length, 6 + 12 * entries.length)
  let offset = 0
  entries.forEach(([id], i) => {
    const length = texts[i]?.length ?? 0
    out.u16(3, 1, 0x409, id, length, offset)
    offset += length
  })
  for (const text of texts) out.u8(...text)
  return out.list
}

function tablesOf(weight: number): { tables: Map<string, number[]>; outlines: Outline[] } {
  const { outlines, lineUp, lineDown, cap, x } = collect(weight)
  const missing: Outline = { code: 0, advance: 600, contours: [bar(80, 0, 520, 690)] }
  const all = [missing, ...outlines]
  const glyphs = all.map((o) => encodeGlyph(o.contours))
  const box = boundsOf(all.flatMap((o) => o.contours))
  const advances = all.map((o) => o.advance)
  const loca = new Bytes()
  let offset = 0
  for (const glyph of [...glyphs, []]) {
    loca.u32(offset)
    offset += glyph.length
  }
  const points = Math.max(...all.map((o) => o.contours.flat().length))
  const contours = Math.max(...all.map((o) => o.contours.length))
  const bold = weight > 500
  const head = new Bytes()
    .u32(0x10000, 0x10000, 0, 0x5f0f3cf5)
    .u16(3, UNITS)
    .u32(0, 0xd0000000, 0, 0xd0000000)
  head.u16(box.x0, box.y0, box.x1, box.y1, bold ? 1 : 0, 8, 2, 1, 0)
  const hhea = new Bytes().u32(0x10000).u16(lineUp, lineDown, 0, Math.max(...advances), box.x0, 0, box.x1, 1)
  hhea.u16(0, 0, 0, 0, 0, 0, 0, all.length)
  const maxp = new Bytes().u32(0x10000).u16(all.length, points, contours, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0, 0)
  const os2 = new Bytes().u16(4, 560, weight, 5, 0, 650, 600, 0, 75, 650, 600, 0, 350, 50, 300, 0)
  os2
    .u8(...Array<number>(10).fill(0))
    .u32(0x80000007, 0, 0, 0)
    .text('LOOM')
    .u16(bold ? 0x20 : 0x40)
  os2.u16(0x20, 0x2265, lineUp, lineDown, 0, lineUp, -lineDown).u32(1, 0).u16(x, cap, 0, 32, 2)
  const tables = new Map<string, number[]>([
    ['OS/2', os2.list],
    ['cmap', encodeCmap(outlines.map((o) => o.code))],
    ['glyf', glyphs.flat()],
    ['head', head.list],
    ['hhea', hhea.list],
    ['hmtx', all.reduce((out, o) => out.u16(o.advance, boundsOf(o.contours).x0), new Bytes()).list],
    ['loca', loca.list],
    ['maxp', maxp.list],
    ['name', encodeName(weight)],
    ['post', new Bytes().u32(0x30000, 0).u16(-75, 50).u32(0, 0, 0, 0, 0).list],
  ])
  return { tables, outlines }
}

const KNOWN = ['cmap', 'head', 'hhea', 'hmtx', 'maxp', 'name', 'OS/2', 'post', 'cvt ', 'fpgm', 'glyf', 'loca']

function base128(value: number): number[] {
  const out = [value & 0x7f]
  for (let rest = value >>> 7; rest > 0; rest >>>= 7) out.unshift((rest & 0x7f) | 0x80)
  return out
}

/** The file whose checksums the `head` table carries: an sfnt with its tables on four-byte bounds. */
function checksum(tables: Map<string, number[]>) {
  const sum = (bytes: number[]) => {
    const padded = new Bytes().u8(...bytes).pad(4).list
    let total = 0
    for (let i = 0; i < padded.length; i += 4)
      total = (total + new DataView(Uint8Array.from(padded.slice(i, i + 4)).buffer).getUint32(0)) >>> 0
    return total
  }
  const n = tables.size
  const log = Math.floor(Math.log2(n))
  const file = new Bytes().u32(0x10000).u16(n, 16 * 2 ** log, log, 16 * n - 16 * 2 ** log)
  let offset = 12 + 16 * n
  for (const [tag, bytes] of tables) {
    file.text(tag).u32(sum(bytes), offset, bytes.length)
    offset += Math.ceil(bytes.length / 4) * 4
  }
  let total = sum(file.list)
  for (const bytes of tables.values()) total = (total + sum(bytes)) >>> 0
  const head = tables.get('head')
  if (head) head.splice(8, 4, ...new Bytes().u32((0xb1b0afba - total) >>> 0).list)
}

/** WOFF2 (W3C) with the outlines left as they are: transform version 3 for glyf and loca. */
function woff2(tables: Map<string, number[]>): Buffer {
  checksum(tables)
  const directory = new Bytes()
  const data: number[] = []
  let plain = 12 + 16 * tables.size
  for (const [tag, bytes] of tables) {
    const known = KNOWN.indexOf(tag)
    directory.u8(known | (tag === 'glyf' || tag === 'loca' ? 0xc0 : 0), ...base128(bytes.length))
    for (const byte of bytes) data.push(byte)
    plain += Math.ceil(bytes.length / 4) * 4
  }
  const packed = brotliCompressSync(Uint8Array.from(data), {
    params: {
      [constants.BROTLI_PARAM_QUALITY]: 11,
      [constants.BROTLI_PARAM_MODE]: constants.BROTLI_MODE_FONT,
    },
  })
  const length = Math.ceil((48 + directory.list.length + packed.length) / 4) * 4
  const out = new Bytes().text('wOF2').u32(0x10000, length).u16(tables.size, 0).u32(plain, packed.length)
  out.u16(1, 0).u32(0, 0, 0, 0, 0)
  return Buffer.from(new Bytes().u8(...out.list, ...directory.list, ...packed).pad(4).list)
}

const quoteTs = (text: string) => `'${text.replace(/[\\']/g, '\\$&')}'`

function widthLines(outlines: Outline[]): string {
  const byWidth = new Map<number, string>()
  for (const { code, advance } of outlines)
    byWidth.set(advance, (byWidth.get(advance) ?? '') + String.fromCodePoint(code))
  return [...byWidth]
    .sort((a, b) => a[0] - b[0])
    .map(([w, chars]) => `  [${w}, ${quoteTs(chars)}],`)
    .join('\n')
}

const MADE = '// Made by tests/setup/make-font.ts; do not edit.\n'

function main() {
  const write = (name: string, text: string) => writeFileSync(`src/draw/font/${name}`, MADE + text)
  const made = ([400, 700] as const).map((weight) => ({ weight, ...tablesOf(weight) }))
  const type = 'readonly (readonly [number, string])[]'
  const widths = made.map(
    ({ weight, outlines }) =>
      `/** Advance in thousandths of the text size, with the characters that have it. */\nexport const ADVANCES_${weight}: ${type} = [\n${widthLines(outlines)}\n]\n`,
  )
  write('advances.ts', `// biome-ignore-all format: a table\n${widths.join('\n')}`)
  const fonts = made.map(
    ({ weight, tables }) =>
      `/** WOFF2 of weight ${weight}, base64. Outlines under the SIL Open Font License 1.1, © IBM Corp. */\nexport const FONT_${weight} =\n  '${woff2(tables).toString('base64')}'\n`,
  )
  write('font-data.ts', `// biome-ignore-all format: data\n${fonts.join('\n')}`)
}

main()
