import { describe, expect, test } from 'vitest'
import { drawWiring } from '../../src/draw/draw-wiring.ts'
import { LEAST_SCALE, UNITS_PER_MM } from '../../src/draw/metrics.ts'
import { planWiring } from '../../src/draw/plan-wiring.ts'
import type { Block, Conductor, SheetModel } from '../../src/draw/sheet-model.ts'
import { splitConductors } from '../../src/draw/split-sheets.ts'
import { generatedHarness } from './generated.ts'
import { inspect } from './inspect.ts'
import { accessoryHarness } from './samples.ts'

async function faultsOf(model: SheetModel, limit?: number): Promise<string[]> {
  const sheets = await planWiring(model, limit === undefined ? {} : { limit })
  return sheets.flatMap(({ name, drawing, furniture, paper, scale }) => {
    const onPaper = { w: paper.wMm * UNITS_PER_MM, h: paper.hMm * UNITS_PER_MM }
    const small = scale < LEAST_SCALE ? [`scale ${scale}`] : []
    return [...inspect(drawing.items, drawing).faults, ...inspect(furniture, onPaper).faults, ...small].map(
      (fault) => `sheet ${name}: ${fault}`,
    )
  })
}

const lead = (text: string): SheetModel => {
  const strip = (id: string): Block => ({
    kind: 'strip',
    id,
    title: `${id} ${text}`,
    subtitle: text,
    sections: [{ id, rows: ['1', '2'].map((pin) => ({ key: pin, pin, name: text })) }],
  })
  const wire = (id: string, pin: string): Conductor => ({
    id,
    from: { block: 'P1', pin },
    to: { block: 'P2', pin },
    colour: 'RD',
    size: text,
    title: text,
    net: text,
  })
  return {
    titleBlock: { title: text, documentType: 'Wiring drawing', owner: text },
    blocks: [strip('P1'), strip('P2')],
    conductors: [wire('A1', '1'), wire('A2', '2')],
    trunks: [],
    notes: [text],
  }
}

describe('a wiring drawing', () => {
  test('can be read: nothing lies on anything else', async () => {
    expect(await faultsOf(accessoryHarness())).toEqual([])
  })

  test('keeps crossings and bends low on the sample', async () => {
    const [sheet] = await planWiring(accessoryHarness())
    if (!sheet) throw new Error('no sheet')
    const { crossings, bends } = inspect(sheet.drawing.items, sheet.drawing)
    expect(crossings).toBeLessThanOrEqual(70)
    expect(bends).toBeLessThanOrEqual(180)
  })

  test('gives the same bytes again', async () => {
    const [one, two] = [await drawWiring(accessoryHarness()), await drawWiring(accessoryHarness())]
    expect(one).toEqual(two)
  })

  test('is a page in millimetres that holds its font', async () => {
    const { sheets, stats } = await drawWiring(accessoryHarness())
    expect(stats).toMatchObject({ sheets: 1, conductors: 34, paper: 'A3' })
    expect(sheets[0]?.svg).toMatch(/^<svg [^>]*width="420mm" height="297mm"/)
    expect(sheets[0]?.svg).toContain('viewBox="0 0 1680 1188"')
    expect(sheets[0]?.svg).toContain('@font-face')
    const shared = await drawWiring(accessoryHarness(), { style: 'shared' })
    expect(shared.sheets[0]?.svg).not.toMatch(/<style|@font-face/)
  })

  test('of a short lead is as it was looked at and found good', async () => {
    const { sheets } = await drawWiring(lead('Feed'), { style: 'shared' })
    await expect(sheets[0]?.svg).toMatchFileSnapshot('golden/lead.svg')
  })

  test('marks each conductor and pin for pointing at', async () => {
    const { sheets } = await drawWiring(lead('Feed'), { style: 'shared' })
    const svg = sheets[0]?.svg ?? ''
    expect(svg).toContain('<g class="lw-cond" data-id="A1" data-net="Feed"><title>Feed</title>')
    expect(svg).toContain('<g class="lw-pin" data-block="P1" data-pin="1">')
  })

  const HOSTILE = `</text><script>alert("x")</script>&'"\u202e\u0007 <![CDATA[`
  test('lets nothing typed become markup', async () => {
    const { sheets } = await drawWiring(lead(HOSTILE), { style: 'shared' })
    const svg = sheets[0]?.svg ?? ''
    expect(svg).not.toMatch(/<script|<!\[CDATA|\u0007/)
    // A mark that turns the reading direction may stay in an attribute, where nobody reads it.
    expect(svg.replace(/"[^"]*"/g, '')).not.toMatch(/\u202e/)
    const tags = new Set([...svg.matchAll(/<\/?([a-zA-Z]+)/g)].map((m) => m[1]))
    expect([...tags].sort()).toEqual(['desc', 'g', 'path', 'rect', 'svg', 'text', 'title'])
  })

  test.each([['字'.repeat(300)], ['x'.repeat(2000)], ['']])(
    'stays readable whatever is typed (%#)',
    async (text) => {
      const faults = (await faultsOf(lead(text))).filter((fault) => !fault.includes('scale'))
      expect(faults).toEqual([])
    },
  )

  test('without any conductor is still a sheet', async () => {
    const { blocks, titleBlock } = accessoryHarness()
    const { sheets } = await drawWiring({ titleBlock, blocks, conductors: [], trunks: [] })
    expect(sheets).toHaveLength(1)
    expect(sheets[0]?.svg).toContain('J1 Accessory')
  })
})

describe('sheets', () => {
  const model = generatedHarness(5, 160)

  test('each conductor comes onto exactly one, no sheet over the limit, no cable torn', () => {
    const sheets = splitConductors(model, 40)
    expect(sheets.flat().sort((a, b) => a - b)).toEqual(model.conductors.map((_, i) => i))
    for (const sheet of sheets) expect(sheet.length).toBeLessThanOrEqual(40)
    const sheetOf = new Map(
      sheets.flatMap((sheet, s) => sheet.map((i) => [model.conductors[i]?.id, s] as const)),
    )
    for (const trunk of model.trunks)
      expect(new Set(trunk.conductors.map((id) => sheetOf.get(id))).size).toBe(1)
  })

  test('every conductor is drawn, and pins drawn elsewhere name sheet and field', async () => {
    const { sheets } = await drawWiring(accessoryHarness(), { style: 'shared', limit: 14 })
    expect(sheets.length).toBeGreaterThan(1)
    const drawn = sheets.flatMap(({ svg }) =>
      [...svg.matchAll(/class="lw-cond" data-id="([^"]+)"/g)].map((m) => m[1]),
    )
    for (const { id } of accessoryHarness().conductors) expect(drawn).toContain(id)
    expect(sheets[0]?.svg).toMatch(/→ sheet [2-9] · [A-F][1-8]</)
    for (const [i, { svg }] of sheets.entries()) expect(svg).toContain(`>${i + 1}/${sheets.length}</text>`)
  })

  test('split sheets can be read too', async () => {
    expect(await faultsOf(accessoryHarness(), 14)).toEqual([])
  })
})
