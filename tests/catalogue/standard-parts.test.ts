import { describe, expect, expectTypeOf, test } from 'vitest'
import { colourWords, parseColour } from '../../src/base/colour.ts'
import { DIN_47100, T568B } from '../../src/base/core-scheme.ts'
import {
  CORE_NAMES,
  type CoresOf,
  SHIELD_NAMES,
  type StandardCoreNames,
  type StandardShieldNames,
} from '../../src/catalogue/cables/core-names.ts'
import { M12_COLOURS } from '../../src/catalogue/connectors/m12.ts'
import {
  PIN_NAMES,
  type PinsOf,
  SHELLED,
  type StandardFamilyId,
  type StandardPinNames,
} from '../../src/catalogue/connectors/pin-names.ts'
import type { StandardContactId } from '../../src/catalogue/contacts/standard-contacts.ts'
import { DIN_72552, din72552Meaning, RELAY_ROLES } from '../../src/catalogue/din-72552.ts'
import { BLADE_COLOURS, MAXI_COLOURS, type StandardFuseId } from '../../src/catalogue/fuses.ts'
import type { StandardSealId } from '../../src/catalogue/seals.ts'
import { standardParts } from '../../src/catalogue/standard-parts.ts'
import type { StandardWireId } from '../../src/catalogue/wires.ts'
import { terminalsOf } from '../../src/describe/component-terminals.ts'
import { type Part, part } from '../../src/describe/part.ts'

const parts: Part[] = standardParts().map((input) => part.parse(input))
const ofKind = <K extends Part['kind']>(kind: K) =>
  parts.filter((one): one is Extract<Part, { kind: K }> => one.kind === kind)
const families = ofKind('connector')
const contacts = ofKind('contact')
const cables = ofKind('cable')
const get = <T extends { id: string }>(list: readonly T[], id: string): T => {
  const found = list.find((one) => one.id === id)
  if (!found) throw new Error(`no part ${id}`)
  return found
}

describe('the whole catalogue', () => {
  test('no two parts share an id, whatever their kind', () => {
    const ids = parts.map(({ id }) => id)
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([])
  })

  test('every part names where its figures come from', () => {
    expect(parts.filter(({ source }) => !source).map(({ id }) => id)).toEqual([])
  })

  test('is built anew each time, so that nobody can spoil it for the next', () => {
    expect(standardParts()).toEqual(standardParts())
    expect(standardParts()[0]).not.toBe(standardParts()[0])
  })
})

describe('connector families', () => {
  test('are the ones the types know, with the same pins in the same order', () => {
    expect(Object.fromEntries(families.map(({ id, pins }) => [id, pins]))).toEqual(PIN_NAMES)
    expect(families.filter(({ shell }) => shell).map(({ id }) => id)).toEqual(
      expect.arrayContaining([...SHELLED]),
    )
    expect(families.filter(({ shell }) => shell)).toHaveLength(SHELLED.length)
  })

  test('name contacts, seals and mates that exist', () => {
    const known = new Set(parts.map(({ id }) => id))
    for (const { id, contacts: fits = [], seals = [], matesWith = [] } of families)
      for (const name of [...fits, ...seals, ...matesWith]) expect(known, `${id}: ${name}`).toContain(name)
  })

  test('mate both ways', () => {
    for (const { id, matesWith = [id] } of families)
      for (const mate of matesWith) {
        const other = get(families, mate)
        expect(other.matesWith ?? [other.id], `${id} and ${mate}`).toContain(id)
      }
  })

  test('a ring fits only the stud of its hole', () => {
    for (const { style, studMm, matesWith = [] } of families.filter(({ studMm }) => studMm))
      for (const mate of matesWith) expect(get(families, mate).studMm, `${style} M${studMm}`).toBe(studMm)
  })

  test('everything a wire is joined to has a contact; studs and ground points have none', () => {
    const bare = families.filter(({ contacts: fits }) => !fits?.length).map(({ style }) => style)
    expect(new Set(bare)).toEqual(new Set(['stud']))
  })

  test('what a sealed housing needs is there', () => {
    for (const { seals = [] } of families.filter(({ sealed }) => sealed)) {
      const fitted = seals.map((id) => get(ofKind('seal'), id))
      expect(fitted.filter(({ plug }) => plug)).toHaveLength(1)
      expect(fitted.every(({ plug, insulation }) => plug || insulation)).toBe(true)
    }
  })

  test.each([
    // IEC 61076-2-101; MIL-DTL-24308; IEC 61076-2-103.
    ['m12-a-4', 4, 250],
    ['m12-a-5', 4, 60],
    ['m12-a-8', 2, 30],
    ['dsub-25', 5, 60],
    ['xlr-3', 16, 50],
    ['xlr-5', 7.5, 50],
  ])('%s is rated %f A and %f V', (id, amps, volts) => {
    expect(get(families, id)).toMatchObject({ amps, volts })
  })

  test('50 Ω everywhere among the coaxial ones, and each says what cable it takes', () => {
    for (const family of families.filter(({ style }) => style === 'coax'))
      expect(family).toMatchObject({ ohms: 50, pins: ['centre', 'shield'], cable: expect.anything() })
  })
})

describe('contacts', () => {
  test('take sane wire', () => {
    for (const { id, area, stripMm = 5, amps = 1 } of contacts) {
      expect(area.min, id).toBeGreaterThan(0.04)
      expect(area.max, id).toBeGreaterThan(area.min)
      expect(area.max, id).toBeLessThanOrEqual(50)
      expect(stripMm, id).toBeLessThanOrEqual(16)
      expect(amps, id).toBeLessThanOrEqual(250)
    }
  })

  test.each([
    ['dsub-crimp-20', 0.2, true],
    ['dsub-crimp-20', 0.5176, true],
    ['dsub-crimp-20', 0.75, false],
    ['rect-power', 4, true],
    ['rect-power', 6, false],
    ['modular-idc', 0.14, true],
    ['modular-idc', 0.25, false],
    ['xlr-5-solder', 0.75, true],
    ['xlr-5-solder', 1, false],
    ['m12-screw', 0.75, true],
    ['ring-red', 1.5, true],
    ['ring-yellow', 6, true],
    ['lug-10', 10, true],
    ['lug-10', 16, false],
  ])('%s takes %f mm²: %s', (id, areaMm2, takes) => {
    const { area } = get(contacts, id)
    expect(areaMm2 >= area.min && areaMm2 <= area.max).toBe(takes)
  })

  test('some ring terminal takes every size from 0.5 to 50 mm²', () => {
    const rings = (get(families, 'ring-m8').contacts ?? []).map((id) => get(contacts, id).area)
    for (const size of [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50])
      expect(
        rings.some(({ min, max }) => size >= min && size <= max),
        `${size} mm²`,
      ).toBe(true)
  })

  test('every crimp says what tool makes it', () => {
    expect(contacts.filter(({ join, tool }) => join === 'crimp' && !tool)).toEqual([])
  })
})

describe('wires and cables', () => {
  test('a thicker wire of one kind is thicker over its insulation', () => {
    for (const { id, ods = {} } of ofKind('wire'))
      for (const unit of ['mm²', 'AWG']) {
        const outside = Object.entries(ods)
          .filter(([size]) => size.endsWith(unit) && !size.includes('/'))
          .map(([size, od]) => [Number.parseFloat(size) * (unit === 'AWG' ? -1 : 1), Number.parseFloat(od)])
          .sort(([a = 0], [b = 0]) => a - b)
          .map(([, od]) => od)
        expect(outside, `${id} ${unit}`).toEqual([...outside].sort((a = 0, b = 0) => a - b))
      }
  })

  test('boat cable of 1.5 mm² is 2.9 mm thick: too thick for the seal of thin-wall wire of that size', () => {
    const boat = get(ofKind('wire'), 'boat-tinned')
    const thin = get(ofKind('wire'), 'vehicle-thin-wall')
    const { insulation } = get(ofKind('seal'), 'seal-1.7-2.4')
    expect(boat.ods?.['1.5 mm²']).toBe('2.9 mm')
    expect(Number.parseFloat(thin.ods?.['1.5 mm²'] ?? '')).toBeLessThanOrEqual(insulation?.max ?? 0)
    expect(2.9).toBeGreaterThan(insulation?.max ?? 0)
  })

  test('cables are the ones the types know, core by core and shield by shield', () => {
    expect(Object.fromEntries(cables.map(({ id, cores }) => [id, cores.map(({ name }) => name)]))).toEqual(
      CORE_NAMES,
    )
    const shielded = cables.filter(({ shields }) => shields?.length)
    expect(
      Object.fromEntries(shielded.map(({ id, shields = [] }) => [id, shields.map(({ name }) => name)])),
    ).toEqual(SHIELD_NAMES)
  })

  test('no two cores of a cable look alike, and every colour is one of IEC 60757', () => {
    for (const { id, cores } of cables) {
      const colours = cores.flatMap(({ colour }) => colour ?? [])
      expect(new Set(colours).size, id).toBe(colours.length)
      for (const colour of colours) expect(parseColour(colour).ok, `${id} ${colour}`).toBe(true)
      if (id.startsWith('rg-')) continue
      expect(colours, id).toHaveLength(cores.length)
    }
  })

  test('pairs have two cores each, and a pair screen covers a pair that is there', () => {
    for (const { id, cores, shields = [] } of cables) {
      const pairs = new Map<string, number>()
      for (const { pair } of cores) if (pair) pairs.set(pair, (pairs.get(pair) ?? 0) + 1)
      expect(
        [...pairs.values()].every((count) => count === 2),
        id,
      ).toBe(true)
      for (const name of shields.flatMap(({ covers = [] }) => covers))
        expect([...pairs.keys()]).toContain(name)
    }
  })

  test('25 cores run through DIN 47100 as reference lists it; four cores are its exception', () => {
    const colours = (id: string) => get(cables, id).cores.map(({ colour }) => colour)
    expect(colours('multicore-25x0.5')).toEqual(DIN_47100.slice(0, 25))
    expect(colours('multicore-25x0.5').slice(8, 12)).toEqual(['BK', 'VT', 'GYPK', 'RDBU'])
    expect(colours('multicore-4x0.5')).toEqual(['WH', 'YE', 'BN', 'GN'])
  })

  test('LAN cable: TIA-568 pairs 1 to 4 are blue, orange, green, brown, and all of T568B is there', () => {
    const { cores } = get(cables, 'cat5e-utp')
    expect(cores.map(({ name, pair }) => `${name} ${pair}`)).toEqual([
      'WHBU pair1',
      'BU pair1',
      'WHOG pair2',
      'OG pair2',
      'WHGN pair3',
      'GN pair3',
      'WHBN pair4',
      'BN pair4',
    ])
    expect(new Set(cores.map(({ name }) => name))).toEqual(new Set(T568B))
    expect(cores.every(({ name, colour }) => name === colour)).toBe(true)
  })

  test('M12 leads, IEC 60947-5-2: brown +, white, blue 0 V, black, grey', () => {
    expect(get(cables, 'm12-lead-5x0.34').cores.map(({ colour }) => colourWords(`${colour}`))).toEqual([
      'brown',
      'white',
      'blue',
      'black',
      'grey',
    ])
    expect(M12_COLOURS['3']).toBe('BU')
  })

  test.each([
    // dB per 100 ft × 3.2808; a generic coaxial table, repeater training guide appendix H.
    ['rg-58', '150', 20.01],
    ['rg-58', '50', 10.83],
    ['rg-213', '450', 16.31],
    ['rg-8x', '150', 15.42],
  ])('%s at %s MHz loses %f dB in 100 m', (id, mhz, db) => {
    expect(get(cables, id).lossDb100m?.[mhz]).toBeCloseTo(db, 2)
  })

  test('the screen of a 60 m party line is 1.2 Ω', () => {
    const screen = get(cables, 'party-line-4x0.22').shields?.[0]
    expect(((screen?.ohmsPerKm ?? 0) * 60) / 1000).toBeCloseTo(1.2, 9)
  })
})

describe('fuses, ISO 8820-3', () => {
  test.each([
    ['blade-15', 15, 'blue'],
    ['blade-20', 20, 'yellow'],
    ['blade-7.5', 7.5, 'brown'],
    ['mini-10', 10, 'red'],
    ['blade-35', 35, 'blue-green'],
    ['maxi-35', 35, 'brown'],
    ['maxi-25', 25, 'grey'],
  ])('%s is rated %f A and is %s', (id, rating, colour) => {
    expect(get(ofKind('fuse'), id)).toMatchObject({ rating, colour, volts: 32 })
  })

  test('go up in rating within each kind', () => {
    for (const style of ['blade', 'mini', 'maxi', 'strip', 'glass', 'breaker']) {
      const ratings = ofKind('fuse')
        .filter((fuse) => fuse.style === style)
        .map(({ rating }) => rating)
      expect(ratings.length).toBeGreaterThan(5)
      expect(ratings).toEqual([...ratings].sort((a, b) => a - b))
    }
  })

  // ISO 8820-3, DIN 72581-3 and SAE J1284, read in a farm paper's and a workshop's chart.
  test('blade fuses have the colours of the standards', () => {
    expect(BLADE_COLOURS).toEqual({
      '1': 'black',
      '2': 'grey',
      '3': 'violet',
      '4': 'pink',
      '5': 'tan',
      '7.5': 'brown',
      '10': 'red',
      '15': 'blue',
      '20': 'yellow',
      '25': 'clear',
      '30': 'green',
      '35': 'blue-green',
      '40': 'orange',
    })
    expect(MAXI_COLOURS).toEqual({
      '20': 'yellow',
      '25': 'grey',
      '30': 'green',
      '35': 'brown',
      '40': 'orange',
      '50': 'red',
      '60': 'blue',
      '70': 'tan',
      '80': 'clear',
      '100': 'violet',
      '120': 'purple',
    })
  })
})

describe('DIN 72552', () => {
  test.each([
    ['30', 'battery positive, direct'],
    ['31', 'battery negative or ground, direct'],
    ['15', 'switched positive after the ignition switch'],
    ['87a', 'relay contact, opens when energised'],
  ])('%s is %s', (terminal, meaning) => {
    expect(din72552Meaning(terminal)).toBe(meaning)
  })

  test('an unknown designation has no meaning, nor has a name every object carries', () => {
    expect(din72552Meaning('99')).toBeUndefined()
    expect(din72552Meaning('constructor')).toBeUndefined()
  })

  test('a relay component, its socket and its roles name the same terminals', () => {
    const terminals = Object.keys(RELAY_ROLES).sort()
    expect([...terminalsOf.relay].sort()).toEqual(terminals)
    expect([...get(families, 'relay-socket').pins].sort()).toEqual(terminals)
    for (const terminal of terminals) expect(DIN_72552).toHaveProperty(terminal)
  })
})

describe('types', () => {
  test('a misspelt pin, family, core or part is caught by the compiler', () => {
    expectTypeOf<PinsOf<'dsub-9'>>().toEqualTypeOf<
      '1' | '2' | '3' | '4' | '5' | '6' | '7' | '8' | '9' | 'shell'
    >()
    expectTypeOf<PinsOf<'jack-6.35-trs'>>().toEqualTypeOf<'T' | 'R' | 'S'>()
    expectTypeOf<PinsOf<'rect-3'>>().toEqualTypeOf<'1' | '2' | '3'>()
    expectTypeOf<PinsOf<'my-own'>>().toEqualTypeOf<string>()
    expectTypeOf<keyof StandardPinNames>().toEqualTypeOf<StandardFamilyId>()
    expectTypeOf<CoresOf<'usb-2.0-lead'>>().toEqualTypeOf<'vbus' | 'dm' | 'dp' | 'gnd'>()
    expectTypeOf<StandardCoreNames['mic-2x0.22']>().toEqualTypeOf<'1' | '2'>()
    expectTypeOf<StandardShieldNames['rg-58']>().toEqualTypeOf<'shield'>()
    expectTypeOf<StandardShieldNames['flat-8x0.14']>().toEqualTypeOf<never>()
    // @ts-expect-error a 25-way has no pin 26
    const pin: PinsOf<'dsub-25'> = '26'
    // @ts-expect-error the size is 37, not 36
    const family: StandardFamilyId = 'dsub-36'
    expect([pin, family]).toEqual(['26', 'dsub-36'])
  })

  test('part ids the types know are in the catalogue', () => {
    const contact: StandardContactId[] = ['dsub-crimp-20', 'ferrule-1.5', 'lug-25']
    const seal: StandardSealId[] = ['seal-1.7-2.4', 'cavity-plug']
    const wire: StandardWireId[] = ['vehicle-thin-wall', 'boat-tinned', 'equipment-pvc']
    const fuse: StandardFuseId[] = ['blade-7.5', 'glass-3.15', 'maxi-120', 'strip-200', 'breaker-150']
    const known = parts.map(({ id }) => id)
    expect(known).toEqual(expect.arrayContaining([...contact, ...seal, ...wire, ...fuse]))
  })
})
