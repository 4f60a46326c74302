import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { inflateSync } from 'node:zlib'
import { afterAll, describe, expect, it } from 'vitest'
import { drawFormboard } from '../../src/draw/formboard/draw-formboard.ts'
import { loomSheet } from '../../src/draw/loom-sheet.ts'
import { pdfDocument } from '../../src/draw/pdf/pdf-document.ts'
import { pdfPath } from '../../src/draw/pdf/pdf-path.ts'
import { classPaints } from '../../src/draw/pdf/pdf-style.ts'
import { planWiring } from '../../src/draw/plan-wiring.ts'
import { line, text } from '../../src/draw/scene.ts'
import type { ScenePage } from '../../src/draw/scene-page.ts'
import { wiringPage } from '../../src/draw/wiring-page.ts'
import { pdfTools } from '../../src/write/pdf-tools.ts'
import { job } from '../demos/demo-shop.ts'

const folder = mkdtempSync(join(tmpdir(), 'loomwright-pdf-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** poppler-utils, which reads PDF by other code than ours; what needs it is skipped where it is missing. */
const hasPoppler = (() => {
  try {
    execFileSync('pdfinfo', ['-v'], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
})()
const run = (tool: string, ...args: string[]) =>
  execFileSync(tool, args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] })

function saved(name: string, bytes: Uint8Array): string {
  const path = join(folder, name)
  writeFileSync(path, bytes)
  return path
}

const page = (items: ScenePage['layers'][number]['items'], wMm = 297, hMm = 210): ScenePage => ({
  name: 'one',
  wMm,
  hMm,
  title: 'One',
  description: '',
  layers: [{ items, at: [0, 0], scale: 1 }],
})

/** Grey picture as rows of bytes, from the portable format of pdftoppm. */
function raster(
  pdf: string,
  dpi: number,
  number = 1,
): { w: number; h: number; dark(x: number, y: number): boolean } {
  const stem = join(folder, `raster${number}`)
  run(
    'pdftoppm',
    '-gray',
    '-r',
    String(dpi),
    '-f',
    String(number),
    '-l',
    String(number),
    '-singlefile',
    pdf,
    stem,
  )
  const data = readFileSync(`${stem}.pgm`)
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(data.subarray(0, 40).toString('latin1'))
  const [w, h] = [Number(head?.[1]), Number(head?.[2])]
  const start = head?.[0].length ?? 0
  return { w, h, dark: (x, y) => (data[start + y * w + x] ?? 255) < 100 }
}

describe('outlines', () => {
  it.each([
    ['M1 2L3 4h5v-6Z', ['1 2 m', '3 4 l', '8 4 l', '8 -2 l', 'h']],
    ['M0 0 10 0 10 10', ['0 0 m', '10 0 l', '10 10 l']],
    ['M0 0Q3 3 6 0', ['0 0 m', '2 2 4 2 6 0 c']],
    ['m1 1c1 0 2 1 2 2s-1 2-2 2', ['1 1 m', '2 1 3 2 3 3 c', '3 4 2 5 1 5 c']],
    ['M0 0X5 5', ['0 0 m']],
    ['', []],
  ])('%s', (d, ops) => {
    expect(pdfPath(d)).toEqual(ops)
  })

  it('turns a circle of arcs into curves that stay on it', () => {
    const points = pdfPath('M-10 0a10 10 0 1 1 20 0a10 10 0 1 1 -20 0Z')
      .filter((op) => op.endsWith('c'))
      .map((op) => op.split(' ').slice(4, 6).map(Number))
    expect(points.length).toBe(4)
    for (const [x = 0, y = 0] of points) expect(Math.hypot(x, y)).toBeCloseTo(10, 2)
  })

  it('reads the paints of the drawing style', () => {
    expect(classPaints().get('lw-frame')).toEqual({ fill: 'none', stroke: '#000', width: 2.8 })
    expect(classPaints().get('lw-inverse')?.fill).toBe('#fff')
    expect(classPaints().get('lw-dash')?.dash).toEqual([4, 3])
  })
})

describe('a file', () => {
  it('has the same bytes twice and no date', () => {
    const pages = [page([line('lw-rule', [0, 0], [40, 40]), text(20, 20, 'R1 Größe Ω')])]
    const once = pdfDocument('Größe', pages, pdfTools)
    expect(Buffer.from(once).equals(Buffer.from(pdfDocument('Größe', pages, pdfTools)))).toBe(true)
    expect(Buffer.from(once).toString('latin1')).not.toMatch(/CreationDate|ModDate|\/ID/)
  })

  it('keeps its streams plain where nothing packs them, with the same content', () => {
    const pages = [page([text(20, 20, 'R1')])]
    const plain = Buffer.from(pdfDocument('t', pages, { unpack: pdfTools.unpack })).toString('latin1')
    const packed = Buffer.from(pdfDocument('t', pages, pdfTools))
    const at = packed.lastIndexOf('stream\n', packed.lastIndexOf('endstream') - 1) + 'stream\n'.length
    const content = inflateSync(packed.subarray(at, packed.lastIndexOf('\nendstream'))).toString('latin1')
    expect(plain).toContain(content)
    expect(content).toContain('TJ ET')
  })

  it('cannot be broken by what a user types', () => {
    const evil = '(\\) >> endobj %PDF \u0000\ud800 \u{1f600} <script>'
    const bytes = Buffer.from(pdfDocument(evil, [page([text(20, 20, evil)])], pdfTools)).toString('latin1')
    expect(bytes.match(/endobj/g)?.length).toBe(bytes.match(/\d+ 0 obj/g)?.length)
    expect(bytes).not.toContain('<script>')
  })
})

describe.skipIf(!hasPoppler)('as another program reads it', () => {
  it('has the size of its paper, its title and its text', async () => {
    const { loom } = job('council-pickup')
    const model = loomSheet(loom)
    const planned = await planWiring(model)
    const pages = planned.map((sheet) => wiringPage(sheet, planned.length, model))
    const pdf = saved('wiring.pdf', pdfDocument('Größe Ω', pages, pdfTools))
    const info = run('pdfinfo', pdf)
    expect(info).toContain('Größe Ω')
    expect(info).toMatch(/Page size:\s+1190\.55 x 841\.89 pts \(A3\)/)
    const words = run('pdftotext', pdf, '-')
    for (const word of ['A20', 'Council pickup 17', 'Transceiver behind the seat', '8 Ω'])
      expect(words).toContain(word)
    expect(run('pdffonts', pdf).match(/CID TrueType\s+Identity-H\s+yes/g)?.length).toBe(2)
  })

  it.each([
    ['a4', /841\.89 x 595\.276 pts \(A4\)/],
    ['letter', /792 x 612 pts \(letter\)/],
  ] as const)('prints formboard sheets on %s', (paper, size) => {
    const { loom } = job('council-pickup')
    const use = loom.looms[1]
    if (!use) throw new Error('no cord')
    const { tiles } = drawFormboard(loom, use, { paper })
    const pdf = saved(`${paper}.pdf`, pdfDocument('Board', tiles, pdfTools))
    expect(run('pdfinfo', pdf)).toMatch(size)
    expect(run('pdfinfo', pdf)).toMatch(new RegExp(`Pages:\\s+${tiles.length}`))
  })

  it('draws a known length to within half a millimetre', () => {
    // 150 mm level, at 40 mm from the left and 100 mm from the top.
    const pdf = saved(
      'length.pdf',
      pdfDocument('l', [page([line('lw-symbol', [160, 400], [760, 400])])], pdfTools),
    )
    const dpi = 300
    const { w, dark } = raster(pdf, dpi)
    const y = Math.round((100 / 25.4) * dpi)
    const xs = Array.from({ length: w }, (_, x) => x).filter((x) => dark(x, y))
    const mm = (pixels: number) => (pixels / dpi) * 25.4
    expect(Math.abs(mm(xs.length) - 150)).toBeLessThan(0.5)
    expect(Math.abs(mm(xs[0] ?? 0) - 40)).toBeLessThan(0.5)
  })

  it('prints the scale bar of a formboard sheet 100 mm long', () => {
    const { loom } = job('council-pickup')
    const use = loom.looms[1]
    if (!use) throw new Error('no cord')
    const pdf = saved('bar.pdf', pdfDocument('b', drawFormboard(loom, use).tiles.slice(0, 1), pdfTools))
    const dpi = 300
    const { w, dark } = raster(pdf, dpi)
    // The bar's end marks reach 1.5 mm above it: there nothing else is dark.
    const y = Math.round(((210 - 10 - 15 + 4.2) / 25.4) * dpi)
    const xs = Array.from({ length: w }, (_, x) => x).filter((x) => x > w / 2 && dark(x, y))
    const [first = 0, last = 0] = [xs[0], xs.at(-1)]
    expect(Math.abs(((last - first) / dpi) * 25.4 - 100)).toBeLessThan(1)
    expect(xs.length).toBeGreaterThan(2)
  })
})
