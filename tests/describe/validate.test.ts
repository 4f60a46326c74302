import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { SHAPE_VERSION } from '../../src/describe/document.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { pathsOf, sample, sampleWith } from './sample.ts'

const read = (data: unknown) => describeShop([{ name: 'a.json', data }])
const lines = (data: unknown) =>
  read(data).findings.map(({ subject, what, fix }) => `${subject} | ${what} | ${fix}`)

test('a sound document is read whole, with figures in base units', () => {
  const { shop, findings, written } = read(sample())
  expect(findings).toEqual([])
  const [wire] = shop.harnesses[0]?.value.wires ?? []
  expect(wire).toMatchObject({ id: 'A1', length: 5200, size: { areaMm2: 1.5 }, colour: 'RD' })
  expect(shop.equipment[0]?.value.connectors[0]?.pins[3]).toEqual({ kind: 'unstated', name: 'SPARE' })
  expect(shop.policy).toEqual({
    value: { shop: 'Hollin', drop: { continuous: 0.5, critical: 0.03 } },
    at: { doc: 'a.json', path: ['policy'] },
  })
  expect(shop.harnesses[0]?.at).toEqual({ doc: 'a.json', path: ['harnesses', 0] })
  const pointer = { doc: 'a.json', path: ['harnesses', 0, 'wires', 2] }
  expect(written(pointer)).toEqual(pointer)
})

describe('faults in words', () => {
  const pin = ['equipment', 0, 'connectors', 0, 'pins']
  const wire = ['harnesses', 0, 'wires', 0]
  test.each<[(string | number)[], unknown, string]>([
    [['harneses'], [], 'harneses | “harneses” is not known here | Did you mean “harnesses”?'],
    [
      [...wire, 'lenght'],
      '1 m',
      'head.A1.lenght | head.A1: “lenght” is not known here | Did you mean “length”?',
    ],
    [
      [...wire, 'rating'],
      '1 A',
      'head.A1.rating | head.A1: “rating” is not known here | Known here, and not yet used: “band”, “soldered”, “part”, “pair”, “net”, “sheathed”, “bundle”, “zone”, “label”, “note”.',
    ],
    [
      [...pin, '2', 'feed'],
      'ignition',
      'radio.J1.2.feed | radio.J1.2: “feed” is not known here | It belongs to kind “supply-out”; change the kind, or take it out.',
    ],
    [
      [...wire, 'length'],
      5,
      'head.A1.length | head.A1: length: 5 has no unit | Write it as text with one, such as "5.2 m".',
    ],
    [
      [...wire, 'length'],
      '5',
      'head.A1.length | head.A1: length: “5” has no unit | Write a length with one, such as “350 mm”.',
    ],
    [
      [...wire, 'length'],
      '1e40 m',
      'head.A1.length | head.A1: length: “1e40 m” is too large to be a length on any bench | Write one such as “350 mm”.',
    ],
    [[...wire, 'size'], 1.5, 'head.A1.size | head.A1: size: 1.5 has no unit | Write "1.5 mm²" or "1.5 AWG".'],
    [
      [...wire, 'size'],
      '1.6 AWG',
      'head.A1.size | head.A1: size: “1.6 AWG” is not a wire size | Did you mean “16 AWG”?',
    ],
    [
      [...wire, 'colour'],
      'BL',
      'head.A1.colour | head.A1: colour: “BL” is not a colour code of IEC 60757 | Write “BK” (black) or “BU” (blue).',
    ],
    [
      [...wire, 'to'],
      undefined,
      'head.A1.to | head.A1: “to” is missing | Write where the conductor lands, such as "F1.in".',
    ],
    [
      [...wire, 'id'],
      'A 1',
      'head.A 1.id | head.A 1: id: “A 1” does not fit: a name has no blanks, dots, colons, #, quotes or angle brackets | Write it like “A02”.',
    ],
    [
      [...pin, '2', 'level'],
      'lin',
      'radio.J1.2.level | radio.J1.2: level: “lin” is not a choice here | Did you mean “line”? Write one of “mic”, “line”, “headphone”, “speaker”.',
    ],
    [
      [...pin, '2', 'kind'],
      'audioout',
      'radio.J1.2.kind | radio.J1.2: kind: “audioout” is not a choice here | Did you mean “audio-out”?',
    ],
    [
      [...pin, '2', 'kind'],
      undefined,
      'radio.J1.2.level | radio.J1.2: “level” is not known here | It belongs to kind “audio-out”, “audio-in”; change the kind, or take it out.',
    ],
    [
      [...pin, '1', 'amps', 'transmit'],
      12,
      'radio.J1.1.amps.transmit | radio.J1.1.amps: transmit: 12 has no unit | Write it as text with one, such as "12 A".',
    ],
    [
      [...pin, '4', 'amps'],
      2,
      'radio.J1.4.amps | radio.J1.4: amps: 2 has no unit | Write it as text with one, such as "12 A".',
    ],
    [
      [...pin, '4', 'amps'],
      '2 V',
      'radio.J1.4.amps | radio.J1.4: amps: “V” is a unit of a voltage, but a current is expected here | Write it like “2.5 A”.',
    ],
    [
      [...pin, '4', 'amps'],
      true,
      'radio.J1.4.amps | radio.J1.4: amps: true does not fit here | Write a current such as "12 A", or one for each operating state: { "standby": "0.35 A", "transmit": "12 A" }.',
    ],
    [
      ['harnesses', 0, 'title'],
      7,
      'head.title | head: title: 7 stands where text in quotation marks is needed | Write text in quotation marks.',
    ],
    [
      ['harnesses', 0, 'wires'],
      {},
      'head.wires | head: wires: an object stands where a list in square brackets is needed | Write a list in square brackets.',
    ],
    [
      ['harnesses', 0, 'date'],
      '2023-02-29',
      'head.date | head: date: “2023-02-29” does not fit here | Write a date as YYYY-MM-DD.',
    ],
    [
      ['harnesses', 0, 'bundled'],
      0,
      'head.bundled | head: bundled: 0 is out of bounds | Write a number of at least 1.',
    ],
    [
      ['harnesses', 0, 'bundled'],
      1 / 0,
      'head.bundled | head: bundled: this number is too large to be one | Write a number below 1.8e308.',
    ],
    [
      ['installations', 0, 'mates', 0],
      ['main.P1'],
      'pickup.mates[0] | pickup.mates: the list has 1 entry | It takes at least 2.',
    ],
    [
      ['installations', 0, 'units'],
      [],
      'pickup.units | pickup: units: the list has 0 entries | It takes at least 1.',
    ],
    [
      ['parts', 0, 'kind'],
      'conector',
      'block-4.kind | block-4: kind: “conector” is not a choice here | Did you mean “connector”? Write one of “connector”, “contact”, “seal”, “wire”, “cable”, “fuse”.',
    ],
    [
      ['policy', 'drop', 'critical'],
      3,
      'policy.drop.critical | policy.drop: critical: 3 stands where text in quotation marks is needed | Write text in quotation marks.',
    ],
  ])('%j = %j', (path, value, line) => {
    expect(lines(sampleWith(path, value))[0]).toBe(line)
    const [finding] = read(sampleWith(path, value)).findings
    expect(finding).toMatchObject({ rule: 'description-shape', level: 'stop', at: { doc: 'a.json' } })
  })

  test.each<[unknown, string]>([
    [undefined, 'undefined is not a description, which is an object in braces'],
    [[1], 'a list is not a description, which is an object in braces'],
    ['loomwright', '“loomwright” is not a description, which is an object in braces'],
    [{ parts: [] }, 'the version of the description is missing'],
    [
      { loomwright: SHAPE_VERSION + 1 },
      `the description follows shape ${SHAPE_VERSION + 1}, and this tool reads up to ${SHAPE_VERSION}`,
    ],
    [{ loomwright: '1' }, '“1” is not a version of the description'],
    [{ loomwright: 0.5, oddity: 1 }, '0.5 is not a version of the description'],
  ])('%j is no document of this shape, and that is all there is to say', (data, what) => {
    expect(read(data).findings.map((finding) => finding.what)).toEqual([what])
  })

  test('the same slip in many wires has one cause', () => {
    const data = sample()
    for (const wire of data.harnesses[0]?.wires ?? []) Object.assign(wire, { lenght: '1 m' })
    const causes = read(data).findings.map(({ cause }) => cause)
    expect(causes).toHaveLength(3)
    expect(new Set(causes).size).toBe(1)
  })
})

describe('what is sound is kept', () => {
  const kept = (path: (string | number)[], value: unknown) => read(sampleWith(path, value))

  test('a faulty figure costs the figure only', () => {
    const { shop } = kept(['harnesses', 0, 'wires', 0, 'colour'], 'RED')
    expect(shop.harnesses[0]?.value.wires?.[0]).toMatchObject({ id: 'A1', length: 5200 })
    expect(shop.harnesses[0]?.value.wires?.[0]?.colour).toBeUndefined()
  })

  test('a wire without an end costs the wire; the others are still found where they were written', () => {
    const { shop, written } = kept(['harnesses', 0, 'wires', 0, 'to'], undefined)
    expect(shop.harnesses[0]?.value.wires?.map(({ id }) => id)).toEqual(['A2', 'A3'])
    expect(written({ doc: 'a.json', path: ['harnesses', 0, 'wires', 1, 'colour'] }).path).toEqual([
      'harnesses',
      0,
      'wires',
      2,
      'colour',
    ])
    expect(written({ doc: 'b.json', path: ['wires', 1] })).toEqual({ doc: 'b.json', path: ['wires', 1] })
  })

  test('a harness without a title costs the harness', () => {
    const { shop } = kept(['harnesses', 0, 'title'], undefined)
    expect(shop.harnesses).toEqual([])
    expect(shop.equipment).toHaveLength(1)
  })

  test('of two faulty entries both go, and the third keeps its place', () => {
    const data = sampleWith(['harnesses', 0, 'wires', 0], 'A1')
    Object.assign((data.harnesses as { wires: unknown[] }[])[0]?.wires[1] as object, { from: 3 })
    const { shop, written } = read(data)
    expect(shop.harnesses[0]?.value.wires?.map(({ id }) => id)).toEqual(['A3'])
    expect(written({ doc: 'a.json', path: ['harnesses', 0, 'wires', 0] }).path).toEqual([
      'harnesses',
      0,
      'wires',
      2,
    ])
  })

  test('the data given is not changed', () => {
    const data = sampleWith(['harnesses', 0, 'wires', 0, 'to'], undefined)
    const before = structuredClone(data)
    read(data)
    expect(data).toEqual(before)
  })

  test('a second policy is a finding, and the first is used', () => {
    const documents = ['a', 'b'].map((name) => ({ name, data: { loomwright: 1, policy: { shop: name } } }))
    const { shop, findings } = describeShop(documents)
    expect(shop.policy?.value.shop).toBe('a')
    expect(findings).toMatchObject([
      { at: { doc: 'b', path: ['policy'] }, notes: [{ at: { doc: 'a', path: ['policy'] } }] },
    ])
  })
})

test('ten thousand faulty wires are told within bounds', () => {
  const wires = Array.from({ length: 10_000 }, (_, n) => ({
    id: `A${n}`,
    from: 'P1.1',
    to: 'P1.2',
    length: n,
  }))
  const { findings, shop } = read(sampleWith(['harnesses', 0, 'wires'], wires))
  expect(findings.length).toBe(500)
  expect(shop.harnesses[0]?.value.wires).toHaveLength(10_000)
})

test('no data whatsoever makes it throw; what a finding points at is there, or is what is missing', () => {
  const paths = pathsOf(sample()).slice(1)
  const change = fc.tuple(
    fc.constantFrom(...paths),
    fc.oneof(fc.anything({ withBigInt: true, withDate: true }), fc.constant(undefined)),
  )
  fc.assert(
    fc.property(change, ([path, value]) => {
      const data = sampleWith(path, value)
      const { findings, shop } = read(data)
      for (const { what, fix, at } of findings) {
        expect(what).not.toMatch(/undefined|\[object|Invalid|\.$/)
        expect(fix).toMatch(/[.?]$/)
        if (!what.includes('version')) expect(at.path.length).toBeGreaterThan(0)
      }
      const given = Array.isArray(data.equipment) ? data.equipment.length : 0
      if (findings.length === 0) expect(shop.equipment).toHaveLength(given)
    }),
    { numRuns: 400 },
  )
  fc.assert(
    fc.property(fc.anything(), (data) => void read(data)),
    { numRuns: 200 },
  )
})

test('a circle in the data is a finding, not a hang', () => {
  const data: Record<string, unknown> = { loomwright: 1 }
  data.parts = [data]
  expect(lines(data).length).toBeGreaterThan(0)
})
