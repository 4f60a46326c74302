import { describe, expect, test } from 'vitest'
import { faceSeen, mirrorFace, mirrorPartners } from '../../src/catalogue/connectors/face-view.ts'
import { standardFamilies } from '../../src/catalogue/connectors/standard-families.ts'
import { type ConnectorFamily, connectorFamily, type FaceGeometry } from '../../src/describe/part.ts'

const families = standardFamilies().map((family) => connectorFamily.parse(family))
const family = (id: string): ConnectorFamily => {
  const found = families.find((candidate) => candidate.id === id)
  if (!found) throw new Error(`no family ${id}`)
  return found
}
const face = (id: string): FaceGeometry => {
  const found = family(id).face
  if (!found) throw new Error(`no face on ${id}`)
  return found
}
const faced = families.filter((candidate) => candidate.face !== undefined)

/** Pins of one face from left to right, then from top to bottom. */
const readingOrder = (geometry: FaceGeometry): string[] =>
  Object.entries(geometry.pins)
    .sort(([, a], [, b]) => b.yMm - a.yMm || a.xMm - b.xMm)
    .map(([name]) => name)

/** How far inside its outline a pin's edge lies, in mm; negative when it sticks out. */
function insideMm({ outline, pins }: FaceGeometry, name: string): number {
  const pin = pins[name]
  if (!pin) return Number.NaN
  const x = Math.abs(pin.xMm)
  const y = Math.abs(pin.yMm)
  const radius = (pin.dMm ?? 0) / 2
  switch (outline.shape) {
    case 'circle':
      return outline.dMm / 2 - Math.hypot(x, y) - radius
    case 'rect':
      return Math.min(outline.wMm / 2 - x, outline.hMm / 2 - y) - radius
    case 'd': {
      const taper = Math.tan((10 * Math.PI) / 180) * (outline.hMm / 2 - pin.yMm)
      return Math.min(outline.wMm / 2 - taper - x, outline.hMm / 2 - y) - radius
    }
    case 'jack':
      return Math.min(outline.lengthMm / 2 - x, outline.dMm / 2 - y)
    case 'polygon':
      return 0
  }
}

describe('the face of every family', () => {
  test('only a connector that comes moulded on its lead is without one', () => {
    expect(families.filter((candidate) => !candidate.face).map(({ id }) => id)).toEqual(['usb-a'])
  })

  test.each(faced.map((one) => [one.id, one] as const))(
    '%s places each pin once, apart, inside',
    (_, one) => {
      const geometry = one.face as FaceGeometry
      expect(Object.keys(geometry.pins).sort()).toEqual([...one.pins].sort())
      for (const name of one.pins) expect(insideMm(geometry, name), name).toBeGreaterThan(0)
      const pins = Object.values(geometry.pins)
      for (const [index, a] of pins.entries())
        for (const b of pins.slice(index + 1)) {
          const apart = Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm)
          expect(apart).toBeGreaterThan(Math.max(0.4, ((a.dMm ?? 0) + (b.dMm ?? 0)) / 2))
        }
    },
  )

  test('a keyed face says which way to hold it', () => {
    const keyless = faced
      .filter(({ style }) => ['housing', 'circular', 'modular', 'dsub'].includes(style))
      .filter(({ face: geometry }) => !geometry?.marks?.length)
    // A relay and its socket are keyed by their tabs, a fuse and an outlet go in either way round.
    expect(keyless.map(({ id }) => id)).toEqual([
      'relay-socket',
      'blade-fuse-holder',
      'mini-fuse-holder',
      'maxi-fuse-holder',
      'power-outlet-12v',
    ])
  })
})

describe('D-sub, IEC 60807-2: pitch 2.77 mm, rows 2.84 mm apart, half a pitch offset', () => {
  test.each([
    ['dsub-9', '1', -5.54, 1.42],
    ['dsub-9', '5', 5.54, 1.42],
    ['dsub-9', '6', -4.155, -1.42],
    ['dsub-9', '9', 4.155, -1.42],
    ['dsub-15', '1', -9.695, 1.42],
    ['dsub-15', '9', -8.31, -1.42],
    ['dsub-25', '1', -16.62, 1.42],
    ['dsub-25', '13', 16.62, 1.42],
    ['dsub-25', '14', -15.235, -1.42],
    ['dsub-37', '20', -23.545, -1.42],
  ])('%s pin %s at x %f, y %f on the pin half', (id, pin, xMm, yMm) => {
    expect(face(id).of).toBe('pin')
    expect(face(id).pins[pin]?.xMm).toBeCloseTo(xMm, 3)
    expect(face(id).pins[pin]?.yMm).toBeCloseTo(yMm, 3)
  })

  test.each([
    ['dsub-9', 12.495],
    ['dsub-25', 23.52],
  ])('%s has its jackscrews beside the D', (id, xMm) => {
    expect(face(id).marks?.map((mark) => Math.abs(mark.xMm))).toEqual([xMm, xMm])
  })
})

describe('numbering seen from the front', () => {
  test('XLR-3 pin half, latch up: 2 and 1 above, 3 below; the socket half reads 1, 2, 3', () => {
    // "2 1 / 3 male, 1 2 / 3 female": a microphone chapter of an audio engineering handbook, figure 22.14.
    expect(readingOrder(face('xlr-3'))).toEqual(['2', '1', '3'])
    expect(readingOrder(faceSeen(face('xlr-3'), 'socket', 'mating'))).toEqual(['1', '2', '3'])
    expect(face('xlr-3').marks?.[0]).toMatchObject({ kind: 'latch', xMm: 0 })
    expect(face('xlr-3').marks?.[0]?.yMm).toBeGreaterThan(0)
  })

  test('XLR-4 and XLR-5 run clockwise from upper right on the pin half', () => {
    expect(clockwise(face('xlr-4'))).toEqual(['1', '2', '3', '4'])
    expect(clockwise(face('xlr-5'))).toEqual(['1', '2', '3', '4', '5'])
    expect(face('xlr-5').pins['3']).toMatchObject({ xMm: 0, yMm: -4.6 })
  })

  test('8P8C socket, latch down, counts from the left (networking FAQ: jack 12345678, plug 87654321)', () => {
    expect(face('modular-8p8c').of).toBe('socket')
    expect(readingOrder(face('modular-8p8c')).join('')).toBe('12345678')
    expect(readingOrder(faceSeen(face('modular-8p8c'), 'pin', 'mating')).join('')).toBe('87654321')
    expect(face('modular-8p8c').marks?.[0]?.yMm).toBeLessThan(0)
  })

  test('M12 pin half, key up: 1 to 4 anticlockwise from right of the key; the fifth or eighth in the middle', () => {
    expect(clockwise(face('m12-a-4'))).toEqual(['1', '4', '3', '2'])
    expect(face('m12-a-4').pins['1']?.xMm).toBeGreaterThan(0)
    expect(face('m12-a-4').pins['1']?.yMm).toBeGreaterThan(0)
    expect(face('m12-a-5').pins['5']).toMatchObject({ xMm: 0, yMm: 0 })
    expect(face('m12-a-8').pins['8']).toMatchObject({ xMm: 0, yMm: 0 })
    const { '1': one, '2': two, '5': five } = face('m12-a-8').pins
    expect(one?.xMm).toBeCloseTo(-(two?.xMm ?? 0), 3)
    expect(one?.yMm).toBeGreaterThan(0)
    expect(five).toMatchObject({ xMm: 0, yMm: -2.75 })
  })

  test('five-pin DIN reads 1-4-2-5-3 round the arc, pin 2 opposite the key', () => {
    const pins = Object.entries(face('din-5-180').pins).sort(([, a], [, b]) => a.xMm - b.xMm)
    expect(pins.map(([name]) => name).join('-')).toBe('1-4-2-5-3')
    expect(face('din-5-180').pins['2']).toMatchObject({ xMm: 0, yMm: -3.5 })
  })

  test('a two-row housing with an odd number of ways leaves its last place empty', () => {
    const { pins } = face('rect-7')
    expect(readingOrder(face('rect-7')).join('')).toBe('1234567')
    expect(pins['5']?.xMm).toBe(pins['1']?.xMm)
    expect(pins['7']?.xMm).toBe(pins['3']?.xMm)
  })
})

describe('seen from the other half or from behind', () => {
  test('the wire entry of the socket half looks like the mating face of the pin half', () => {
    const pinHalf = faceSeen(face('dsub-25'), 'pin', 'mating')
    expect(faceSeen(face('dsub-25'), 'socket', 'wire-entry').pins).toEqual(pinHalf.pins)
    expect(faceSeen(face('dsub-25'), 'socket', 'mating').pins['1']?.xMm).toBe(16.62)
    expect(faceSeen(face('dsub-25'), 'pin', 'wire-entry').pins['1']?.xMm).toBe(16.62)
  })

  test.each(faced.map((one) => [one.id, one] as const))('%s turned over twice is itself', (_, one) => {
    const geometry = one.face as FaceGeometry
    expect(mirrorFace(mirrorFace(geometry))).toEqual(geometry)
  })

  test.each([
    ['dsub-9', { '1': '5', '2': '4', '3': '3', '6': '9', '7': '8' }],
    ['modular-8p8c', { '1': '8', '4': '5', '8': '1' }],
    ['xlr-4', { '1': '4', '2': '3' }],
    ['xlr-3', { '1': '2', '3': '3' }],
    ['m12-a-5', { '1': '2', '3': '4', '5': '5' }],
  ])('%s read from the wrong side swaps pins', (id, swaps) => {
    const partners = mirrorPartners(face(id))
    for (const [pin, other] of Object.entries(swaps)) expect(partners.get(pin)).toBe(other)
    expect(partners.size).toBe(family(id).pins.length)
  })
})

/** Pins in clockwise order starting at pin 1. */
function clockwise({ pins }: FaceGeometry): string[] {
  const order = Object.entries(pins)
    .sort(([, a], [, b]) => Math.atan2(b.yMm, b.xMm) - Math.atan2(a.yMm, a.xMm))
    .map(([name]) => name)
  const start = order.indexOf('1')
  return [...order.slice(start), ...order.slice(0, start)]
}
