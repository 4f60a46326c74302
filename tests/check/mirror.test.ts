import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { mirrorImage } from '../../src/check/queries/mirror-image.ts'
import { mirroredHalves } from '../../src/check/queries/mirrored-halves.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { PinFunctionInput } from '../../src/describe/function.ts'
import { standardCatalogue } from '../../src/resolve/part-index.ts'
import { checkDocument, onlyLoom } from './check-document.ts'

const families = new Map(
  standardCatalogue()
    .map(({ value }) => value())
    .flatMap((part) => (part.kind === 'connector' ? [[part.id, part]] : [])),
)

function imageOf(id: string): ReadonlyMap<string, string> {
  const family = families.get(id)
  const image = family && mirrorImage(family)
  if (!image) throw new Error(`${id} has no mirror image`)
  return image
}

describe('the face seen from the other side', () => {
  // D-sub numbering of IEC 60807, 8-way modular of IEC 60603-7, round audio connectors of IEC 61076-2-103.
  it.each([
    ['dsub-25', (n: number) => (n <= 13 ? 14 - n : 39 - n), 25],
    ['dsub-9', (n: number) => (n <= 5 ? 6 - n : 15 - n), 9],
    ['modular-8p8c', (n: number) => 9 - n, 8],
    ['xlr-4', (n: number) => 5 - n, 4],
  ])('of %s', (id, mirrored, pins) => {
    const image = imageOf(id)
    for (let pin = 1; pin <= pins; pin++) expect(image.get(`${pin}`)).toBe(`${mirrored(pin)}`)
  })

  it('of a three-way audio connector swaps 1 and 2', () => {
    expect([...imageOf('xlr-3')]).toEqual([
      ['1', '2'],
      ['2', '1'],
      ['3', '3'],
    ])
  })

  it('is its own inverse', () => {
    for (const family of families.values()) {
      const image = mirrorImage(family)
      for (const [pin, other] of image ?? []) expect(image?.get(other)).toBe(pin)
    }
  })
})

/** A lead with one wire for each pair of pins; both ends name all their pins alike. */
function lead(family: string, pairs: readonly (readonly [string, string])[]): DocumentInput {
  const pins = Object.fromEntries(
    (families.get(family)?.pins ?? []).map((pin): [string, PinFunctionInput] => [
      pin,
      { kind: 'unstated', name: `SIG${pin}` },
    ]),
  )
  const unit = (id: string) => ({
    id,
    title: id,
    connectors: [{ id: 'J1', family, half: 'socket' as const, view: 'mating' as const, pins }],
  })
  return {
    loomwright: 1,
    equipment: [unit('alpha'), unit('beta')],
    harnesses: [
      {
        id: 'lead',
        title: 'Lead',
        connectors: [
          { id: 'P1', family, half: 'pin', fits: 'alpha.J1' },
          { id: 'P2', family, half: 'pin', fits: 'beta.J1' },
        ],
        wires: pairs.map(([from, to], index) => ({ id: `A${index}`, from: `P1.${from}`, to: `P2.${to}` })),
      },
    ],
  }
}

const faced = ['dsub-25', 'dsub-9', 'modular-8p8c', 'xlr-4', 'm12-a-8', 'rect-6']
const somePins = (family: string) => fc.subarray([...(families.get(family)?.pins ?? [])], { minLength: 3 })
const casesOf = fc.constantFrom(...faced).chain((family) => fc.tuple(fc.constant(family), somePins(family)))

describe('a lead', () => {
  it('that is straight is never called mirrored', () => {
    fc.assert(
      fc.property(casesOf, ([family, pins]) => {
        const loom = onlyLoom(
          lead(
            family,
            pins.map((pin) => [pin, pin]),
          ),
        )
        expect(mirroredHalves(loom).mirrors).toEqual([])
      }),
      { numRuns: 60 },
    )
  })

  it('drawn from the other face is one finding, whichever pins are wired', () => {
    fc.assert(
      fc.property(casesOf, ([family, pins]) => {
        const image = imageOf(family)
        const moved = pins.filter((pin) => image.get(pin) !== pin)
        fc.pre(moved.length >= 2)
        const { mirrors } = mirroredHalves(
          onlyLoom(
            lead(
              family,
              pins.map((pin) => [pin, image.get(pin) ?? '']),
            ),
          ),
        )
        expect(mirrors).toHaveLength(1)
        expect(mirrors[0]?.map.half.address).toBe('beta.J1')
      }),
      { numRuns: 60 },
    )
  })

  it('with two crossed wires among many is not a mirror', () => {
    const pairs = ['1', '2', '3', '4', '5', '6', '7', '8'].map((pin): [string, string] => [pin, pin])
    pairs[0] = ['1', '2']
    pairs[1] = ['2', '1']
    expect(mirroredHalves(onlyLoom(lead('modular-8p8c', pairs))).mirrors).toEqual([])
  })

  it('without names is not judged, and says so', () => {
    const data = lead('modular-8p8c', [
      ['1', '8'],
      ['2', '7'],
      ['3', '6'],
      ['4', '5'],
    ])
    for (const unit of data.equipment ?? []) for (const each of unit.connectors) each.pins = {}
    const { findings, notChecked } = checkDocument(data)
    expect(findings).toEqual([])
    expect(
      notChecked.filter((entry) => entry.rule === 'pin-map-mirrored').map((entry) => entry.needs),
    ).toEqual(['needs the signal names of alpha.J1 and beta: 0 of 4 wires can be paired by name or function'])
  })
})

describe('consequences of a mirror', () => {
  /** A head lead with supply, ground and a reserved pin: mirrored, it shorts and lands on the reserved pin. */
  const head = (mirrored: boolean): DocumentInput => {
    const pins = (supply: PinFunctionInput): Record<string, PinFunctionInput> => ({
      '1': { ...supply, name: '12V' },
      '2': { kind: 'data', standard: 'proprietary', line: 'CLK', name: 'CLK' },
      '3': { kind: 'data', standard: 'proprietary', line: 'DATA', name: 'DATA' },
      '6': { kind: 'reserved', name: 'NC' },
      '8': { kind: 'return', name: '0V' },
    })
    const image = imageOf('modular-8p8c')
    const at = (pin: string) => (mirrored ? (image.get(pin) ?? '') : pin)
    return {
      loomwright: 1,
      equipment: [
        {
          id: 'body',
          title: 'Body',
          connectors: [
            {
              id: 'J1',
              family: 'modular-8p8c',
              half: 'socket',
              view: 'mating',
              pins: pins({ kind: 'supply-out', volts: '12 V', maxAmps: '0.5 A' }),
            },
          ],
        },
        {
          id: 'head',
          title: 'Head',
          connectors: [
            {
              id: 'J2',
              family: 'modular-8p8c',
              half: 'socket',
              view: 'mating',
              pins: pins({ kind: 'supply-in', volts: '10..15 V', amps: '0.2 A' }),
            },
          ],
        },
      ],
      harnesses: [
        {
          id: 'lead',
          title: 'Lead',
          connectors: [
            { id: 'P1', family: 'modular-8p8c', half: 'pin', fits: 'body.J1' },
            { id: 'P2', family: 'modular-8p8c', half: 'pin', fits: 'head.J2' },
          ],
          wires: ['1', '2', '3', '8'].map((pin) => ({
            id: `A0${pin}`,
            from: `P1.${pin}`,
            to: `P2.${at(pin)}`,
            size: '0.14 mm²' as const,
            length: '6 m' as const,
          })),
        },
      ],
    }
  }
  const consequences = ['never-connect', 'plus-meets-minus']

  it('are held back behind the one finding that names the cause', () => {
    const { findings, heldBack } = checkDocument(head(true))
    expect(findings[0]?.rule).toBe('pin-map-mirrored')
    expect(findings.filter((finding) => consequences.includes(finding.rule))).toEqual([])
    const held = [...new Set(heldBack.map((finding) => finding.rule))]
    for (const rule of consequences) expect(held).toContain(rule)
    expect(findings[0]?.notes.some((note) => note.text.startsWith('same cause: '))).toBe(true)
  })

  it('are gone with it', () => {
    const { findings, heldBack } = checkDocument(head(false))
    const rules = [...findings, ...heldBack].map((finding) => finding.rule)
    for (const rule of ['pin-map-mirrored', ...consequences]) expect(rules).not.toContain(rule)
  })
})
