import { UNITS_PER_MM } from '../metrics.ts'
import type { ScenePage } from '../scene-page.ts'
import { pageOps } from './pdf-content.ts'
import { type PdfFont, pdfFont } from './pdf-font.ts'
import { classPaints } from './pdf-style.ts'

/** What a PDF needs from where it is made: nothing of it is part of the language. */
export interface PdfTools {
  /** Undoes Brotli (RFC 7932). */
  readonly unpack: (packed: Uint8Array) => Uint8Array
  /** Packs as zlib does (RFC 1950); streams stay plain when left out. */
  readonly deflate?: (plain: Uint8Array) => Uint8Array
}

const POINTS_PER_MM = 72 / 25.4
const n = (value: number): string => String(Math.round(value * 10000) / 10000 + 0)

/** One byte a character: everything written here is Latin-1 or binary already. */
function bytesOf(text: string): Uint8Array {
  return Uint8Array.from(text, (char) => char.charCodeAt(0) & 0xff)
}

/** Text in UTF-16 as a hex string (ISO 32000-1, 7.9.2.2). */
function textString(text: string): string {
  let hex = 'FEFF'
  for (let i = 0; i < text.length; i += 1)
    hex += text.charCodeAt(i).toString(16).padStart(4, '0').toUpperCase()
  return `<${hex}>`
}

/** Objects of a file, numbered as they are added. */
class PdfFile {
  readonly #chunks: Uint8Array[] = [bytesOf('%PDF-1.7\n%\u00e2\u00e3\u00cf\u00d3\n')]
  readonly #offsets: (number | undefined)[] = []
  readonly #deflate: PdfTools['deflate']
  #length = this.#chunks[0]?.length ?? 0

  constructor(deflate: PdfTools['deflate']) {
    this.#deflate = deflate
  }

  /** A number for an object that is written later. */
  reserve(): number {
    this.#offsets.push(undefined)
    return this.#offsets.length
  }

  #write(chunk: Uint8Array): void {
    this.#chunks.push(chunk)
    this.#length += chunk.length
  }

  write(number: number, body: string): number {
    this.#offsets[number - 1] = this.#length
    this.#write(bytesOf(`${number} 0 obj\n${body}\nendobj\n`))
    return number
  }

  add(body: string): number {
    return this.write(this.reserve(), body)
  }

  stream(content: Uint8Array, entries = ''): number {
    const packed = this.#deflate?.(content)
    const data = packed ?? content
    const number = this.reserve()
    this.#offsets[number - 1] = this.#length
    const filter = packed ? ' /Filter /FlateDecode' : ''
    this.#write(bytesOf(`${number} 0 obj\n<< /Length ${data.length}${filter}${entries} >>\nstream\n`))
    this.#write(data)
    this.#write(bytesOf('\nendstream\nendobj\n'))
    return number
  }

  finish(root: number, info: number): Uint8Array {
    const start = this.#length
    const lines = this.#offsets.map((offset) => `${String(offset ?? 0).padStart(10, '0')} 00000 n \n`)
    const count = this.#offsets.length + 1
    this.#write(
      bytesOf(
        `xref\n0 ${count}\n0000000000 65535 f \n${lines.join('')}trailer\n<< /Size ${count} /Root ${root} 0 R /Info ${info} 0 R >>\nstartxref\n${start}\n%%EOF\n`,
      ),
    )
    const all = new Uint8Array(this.#length)
    let at = 0
    for (const chunk of this.#chunks) {
      all.set(chunk, at)
      at += chunk.length
    }
    return all
  }
}

/** Lets readers search and copy: which character each glyph stands for (ISO 32000-1, 9.10.3). */
function toUnicode({ glyphs }: PdfFont): string {
  const lines = [...glyphs].map(
    ([char, glyph]) => `<${glyph.toString(16).padStart(4, '0')}> ${textString(char).replace('FEFF', '')}`,
  )
  const blocks: string[] = []
  for (let i = 0; i < lines.length; i += 100) {
    const part = lines.slice(i, i + 100)
    blocks.push(`${part.length} beginbfchar\n${part.join('\n')}\nendbfchar`)
  }
  return `/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n${blocks.join('\n')}\nendcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n`
}

function addFont(file: PdfFile, font: PdfFont, bold: boolean): number {
  const data = file.stream(font.file, ` /Length1 ${font.file.length}`)
  const descriptor = file.add(
    `<< /Type /FontDescriptor /FontName /${font.name} /Flags 4 /FontBBox [-200 -300 1200 1100] /ItalicAngle 0 /Ascent 1025 /Descent -275 /CapHeight 698 /StemV ${bold ? 140 : 80} /FontFile2 ${data} 0 R >>`,
  )
  const inner = file.add(
    `<< /Type /Font /Subtype /CIDFontType2 /BaseFont /${font.name} /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> /FontDescriptor ${descriptor} 0 R /DW 600 /W [1 [${font.advances.join(' ')}]] /CIDToGIDMap /Identity >>`,
  )
  const map = file.stream(bytesOf(toUnicode(font)))
  return file.add(
    `<< /Type /Font /Subtype /Type0 /BaseFont /${font.name} /Encoding /Identity-H /DescendantFonts [${inner} 0 R] /ToUnicode ${map} 0 R >>`,
  )
}

/**
 * Sheets as one vector PDF (ISO 32000-1) at true size: each page as large as its paper. No dates and no chance in it: the same
 * sheets give the same bytes as long as `deflate` does.
 */
export function pdfDocument(title: string, pages: readonly ScenePage[], tools: PdfTools): Uint8Array {
  const file = new PdfFile(tools.deflate)
  const fonts = { regular: pdfFont('regular', tools.unpack), bold: pdfFont('bold', tools.unpack) }
  const inks = { paints: classPaints(), fonts }
  const resources = file.add(
    `<< /Font << /FR ${addFont(file, fonts.regular, false)} 0 R /FB ${addFont(file, fonts.bold, true)} 0 R >> >>`,
  )
  const tree = file.reserve()
  const scale = POINTS_PER_MM / UNITS_PER_MM
  const kids = pages.map((page) => {
    const [w, h] = [page.wMm * POINTS_PER_MM, page.hMm * POINTS_PER_MM]
    const ops = [`${scale.toFixed(8)} 0 0 ${(-scale).toFixed(8)} 0 ${n(h)} cm`, ...pageOps(page, inks)]
    const content = file.stream(bytesOf(ops.join('\n')))
    return file.add(
      `<< /Type /Page /Parent ${tree} 0 R /MediaBox [0 0 ${n(w)} ${n(h)}] /Resources ${resources} 0 R /Contents ${content} 0 R >>`,
    )
  })
  file.write(
    tree,
    `<< /Type /Pages /Count ${kids.length} /Kids [${kids.map((kid) => `${kid} 0 R`).join(' ')}] >>`,
  )
  // Printers that shrink to fit would spoil true size.
  const root = file.add(
    `<< /Type /Catalog /Pages ${tree} 0 R /ViewerPreferences << /PrintScaling /None >> >>`,
  )
  const info = file.add(`<< /Title ${textString(title)} /Producer (Loomwright) >>`)
  return file.finish(root, info)
}
