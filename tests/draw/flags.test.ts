import { describe, expect, test } from 'vitest'
import { checkLoom } from '../../src/check/check.ts'
import { drawingFlags, faceScenes } from '../../src/cli/draw-looms.ts'
import { facePages } from '../../src/draw/face-pages.ts'
import { flagsBelow } from '../../src/draw/flags-below.ts'
import { drawFormboardOverview } from '../../src/draw/formboard/draw-formboard.ts'
import { drawDiagram } from '../../src/draw/installation-diagram/draw-diagram.ts'
import { pdfDocument } from '../../src/draw/pdf/pdf-document.ts'
import type { Item } from '../../src/draw/scene.ts'
import type { ScenePage } from '../../src/draw/scene-page.ts'
import { pdfTools } from '../../src/write/pdf-tools.ts'
import { job } from '../demos/demo-shop.ts'
import { inspect } from './inspect.ts'

/** Numbers of the marks on a page, with the data of the group each stands in. */
function marksOn(page: ScenePage | undefined): { readonly number: number; readonly on: string }[] {
  const found: { number: number; on: string }[] = []
  const walk = (items: readonly Item[], on: string): void => {
    for (const item of items) {
      if (item.kind !== 'group') continue
      if (item.className === 'lw-flag') found.push({ number: Number(item.data?.finding), on })
      else walk(item.items, item.data?.id ?? on)
    }
  }
  for (const { items } of page?.layers ?? []) walk(items, '')
  return found
}

describe.each(['council-pickup-planned', 'harbour-launch-planned', 'theatre-planned'])(
  'marks of findings in %s',
  (id) => {
    const { loom, solution } = job(id)
    const { findings } = checkLoom(loom, solution)

    test('stand on the diagram at the unit or run they are about, by the numbers of the report', async () => {
      const page = await drawDiagram(loom, { flags: drawingFlags(loom, undefined, findings) })
      const marks = marksOn(page)
      expect(marks.length).toBeGreaterThan(5)
      for (const { number } of marks) expect(findings[number - 1]).toBeDefined()
      for (const { number, on } of marks.filter((one) => loom.units.some((unit) => unit.id === one.on))) {
        const finding = findings[number - 1]
        const places = [finding?.subject.slice(loom.id.length + 1), ...(finding?.marks ?? [])]
        expect(places.some((place) => place === on || place?.startsWith(`${on}.`))).toBe(true)
      }
      for (const { items } of page?.layers ?? [])
        expect(inspect(items, { w: 1e5, h: 1e5 }).faults).toEqual([])
    })

    test('stand on the formboard beside the names', () => {
      for (const use of loom.looms) {
        const flags = drawingFlags(loom, use, findings)
        const page = drawFormboardOverview(loom, use, { flags })
        const known = use.halves.filter(({ address }) => flagsBelow(flags, [address]).length > 0)
        if (page && known.length > 0) expect(marksOn(page).length).toBeGreaterThan(0)
        for (const { items } of page?.layers.slice(2) ?? []) {
          // The board has its own origin, so its edges are no edges of the sheet.
          const faults = inspect(items, { w: 1e5, h: 1e5 }).faults.filter(
            (one) => !one.includes('leaves the sheet'),
          )
          expect(faults).toEqual([])
        }
      }
    })
  },
)

test('each number once and in order, four at most, of what lies below and nothing beside', () => {
  const flag = (number: number) => ({ number, level: 'warning' as const })
  const flags = new Map([
    ['main.P1.3', [flag(3), flag(1)]],
    ['main.P1', [flag(3), flag(2)]],
    ['main.P10', [flag(9)]],
    ['main.P1.4', [flag(5), flag(6)]],
  ])
  expect(flagsBelow(flags, ['main.P1']).map(({ number }) => number)).toEqual([1, 2, 3, 5])
  expect(flagsBelow(undefined, ['main.P1'])).toEqual([])
})

describe('faces on sheets', () => {
  const { loom } = job('council-pickup')
  const [use] = loom.looms

  test('every half with more than one way is there, within its sheet, none over another', () => {
    const scenes = faceScenes(loom, use)
    expect(scenes.length).toBe(use?.halves.filter(({ pins, family }) => pins.size > 1 && family?.face).length)
    const pages = facePages(scenes, 'Pickup', 'CODE')
    expect(pages.flatMap(({ layers }) => layers.slice(1))).toHaveLength(scenes.length)
    for (const { layers, wMm, hMm } of pages) {
      const boxes = layers.slice(1).map(({ items, at, scale }) => {
        const scene = scenes.find((one) => one.items === items)
        return { x: at[0], y: at[1], w: (scene?.w ?? 0) * scale, h: (scene?.h ?? 0) * scale }
      })
      for (const [i, a] of boxes.entries()) {
        expect(a.x + a.w).toBeLessThanOrEqual(wMm * 4)
        expect(a.y + a.h).toBeLessThanOrEqual(hMm * 4)
        for (const b of boxes.slice(i + 1))
          expect(a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.h <= b.y || b.y + b.h <= a.y).toBe(true)
      }
    }
  })

  test('become a PDF with as many pages', () => {
    const pages = facePages(faceScenes(loom, use), 'Pickup', 'CODE')
    const bytes = pdfDocument('Faces', pages, pdfTools)
    const text = new TextDecoder('latin1').decode(bytes)
    expect(text.startsWith('%PDF-')).toBe(true)
    expect(text.match(/\/Type\s*\/Page\b/g)).toHaveLength(pages.length)
  })
})
