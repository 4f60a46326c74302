import { describe, expect, test } from 'vitest'
import { faceSeen } from '../../src/catalogue/connectors/face-view.ts'
import { standardFamilies } from '../../src/catalogue/connectors/standard-families.ts'
import { type ConnectorFamily, connectorFamily } from '../../src/describe/part.ts'
import { drawFace } from '../../src/draw/face.ts'
import type { PinMark } from '../../src/draw/face-pin.ts'
import { faceView, faceViewSize } from '../../src/draw/face-view.ts'
import { inspect } from './inspect.ts'

const families = standardFamilies().map((family) => connectorFamily.parse(family))
const familyNamed = (id: string): ConnectorFamily => {
  const found = families.find((family) => family.id === id)
  if (!found) throw new Error(`no family ${id}`)
  return found
}

/** Centres of the discs of a drawing, by view and pin. */
function centres(svg: string): Map<string, { x: number; y: number }>[] {
  const views: Map<string, { x: number; y: number }>[] = []
  for (const [, pin = '', body = ''] of svg.matchAll(
    /class="lw-facepin" data-pin="([^"]*)"[^>]*>(.*?)<\/g>/gs,
  )) {
    const disc = /class="lw-(?:ink|paper)" d="M(-?[\d.]+) (-?[\d.]+)a([\d.]+)/.exec(body)
    if (!disc || pin === '') continue
    if (views.length === 0 || views.at(-1)?.has(pin)) views.push(new Map())
    views.at(-1)?.set(pin, { x: Number(disc[1]) + Number(disc[3]), y: Number(disc[2]) })
  }
  return views
}

const xOf = (view: Map<string, { x: number; y: number }> | undefined, pin: string) =>
  view?.get(pin)?.x ?? Number.NaN

describe('the faces of a nine-way D-sub', () => {
  const family = familyNamed('dsub-9')

  test('pin half: pin 1 upper left on the mating face, upper right from the back', () => {
    const [mating, back] = centres(drawFace({ family, half: 'pin' }))
    expect(xOf(mating, '1')).toBeLessThan(xOf(mating, '5'))
    expect(mating?.get('1')?.y).toBeLessThan(mating?.get('6')?.y ?? 0)
    expect(xOf(back, '1')).toBeGreaterThan(xOf(back, '5'))
  })

  test('socket half mirrors the pin half', () => {
    const [mating] = centres(drawFace({ family, half: 'socket' }))
    expect(xOf(mating, '1')).toBeGreaterThan(xOf(mating, '5'))
  })

  test('both views say from where one looks', () => {
    const svg = drawFace({ family, half: 'pin' })
    for (const words of [
      'MATING FACE',
      'WIRE-ENTRY FACE',
      'from the back, where the wires go in',
      'pin half',
    ])
      expect(svg).toContain(words)
    expect(drawFace({ family, view: 'mating' })).not.toContain('WIRE-ENTRY')
  })

  test('is at least 60 mm wide', () => {
    const width = Number(/width="([\d.]+)mm"/.exec(drawFace({ family, view: 'mating' }))?.[1])
    expect(width).toBeGreaterThanOrEqual(60)
  })

  test('tells wired, empty, plugged, first and chosen by shape', () => {
    const svg = drawFace({
      family,
      half: 'pin',
      view: 'mating',
      used: new Set(['1', '2']),
      plugged: new Set(['9']),
      highlight: '2',
    })
    const pin = (name: string) =>
      new RegExp(`data-pin="${name}" data-state="(\\w+)">(.*?)</g>`, 's').exec(svg)
    expect(pin('1')?.[1]).toBe('wired')
    expect(pin('1')?.[2]).toContain('<rect')
    expect(pin('2')?.[2]).toContain('lw-chosen')
    expect(pin('3')?.[1]).toBe('empty')
    expect(pin('9')?.[1]).toBe('plugged')
  })

  test('is as it was looked at and found good', async () => {
    const svg = drawFace({
      family,
      half: 'pin',
      used: new Set(['1', '2', '5']),
      title: 'P1',
      style: 'shared',
    })
    await expect(svg).toMatchFileSnapshot('golden/dsub-9.svg')
  })

  test('lets nothing typed become markup', () => {
    const svg = drawFace({ family, title: '<script>"&', style: 'shared' })
    expect(svg).not.toContain('<script')
    expect(svg).toContain('&lt;script&gt;')
  })
})

describe('the faces of the catalogue', () => {
  const faced = families.filter((family) => family.face && family.face.outline.shape !== 'jack')

  test.each(faced.map((family) => [family.id, family] as const))(
    '%s: names and numbers keep clear of each other',
    (_, family) => {
      const { face } = family
      if (!face) return
      for (const side of ['mating', 'wire-entry'] as const) {
        const seen = faceSeen(face, face.of, side)
        const titles = ['WIRE-ENTRY FACE', 'from the back, where the wires go in'] as const
        const size = faceViewSize(seen, titles)
        const marks = new Map(
          family.pins.map((name): [string, PinMark] => [
            name,
            { name, state: 'empty', first: false, chosen: false },
          ]),
        )
        const items = faceView(seen, titles, marks, { x: 0, y: 0, ...size })
        const texts = inspect(items, size).faults.filter((fault) =>
          /lies on text|leaves the sheet/.test(fault),
        )
        expect(texts).toEqual([])
      }
    },
  )

  test('every pin of every face is drawn in each view', () => {
    for (const family of faced.filter((one) => one.pins.length > 1))
      for (const view of centres(drawFace({ family, style: 'shared' })))
        expect([...view.keys()].sort(), family.id).toEqual(Object.keys(family.face?.pins ?? {}).sort())
  })

  test('a jack is drawn from the side with its contacts named', () => {
    const svg = drawFace({ family: familyNamed('jack-6.35-trs'), style: 'shared' })
    for (const word of ['PLUG FROM THE SIDE', 'tip', 'ring', 'sleeve', 'data-pin="T"'])
      expect(svg).toContain(word)
  })

  test('a family without a face gives no picture', () => {
    expect(drawFace({ family: familyNamed('usb-a') })).toBe('')
  })
})
