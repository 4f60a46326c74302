import { describe, expect, it } from 'vitest'
import { exampleLead, rowHousing, socket, unitOf } from '../../src/check/examples/parts.ts'
import { cell, load, wired } from '../../src/check/examples/wired.ts'
import type { Rule } from '../../src/check/rule.ts'
import { crimpOnStrands } from '../../src/check/rules/crimp-on-strands.ts'
import { crimpToolNamed } from '../../src/check/rules/crimp-tool-named.ts'
import { insulationFitsContact } from '../../src/check/rules/insulation-fits-contact.ts'
import { liveHalfShrouded } from '../../src/check/rules/live-half-shrouded.ts'
import { pinchSplicePlace } from '../../src/check/rules/pinch-splice-place.ts'
import { powerPlugKeyed } from '../../src/check/rules/power-plug-keyed.ts'
import { threadsMatch } from '../../src/check/rules/threads-match.ts'
import { vibrationLocked } from '../../src/check/rules/vibration-locked.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { WireInput } from '../../src/describe/harness.ts'
import type { InstallationInput } from '../../src/describe/installation.ts'
import type { PartInput } from '../../src/describe/part.ts'
import { checkDocument } from './check-document.ts'

type Family = Extract<PartInput, { kind: 'connector' }>
type Contact = Extract<PartInput, { kind: 'contact' }>
type Part = Extract<PartInput, { kind: 'wire' }>

const by = (rule: Rule, data: DocumentInput) => {
  const { findings, notChecked } = checkDocument(data, { rules: [rule] })
  return {
    says: findings.filter((finding) => finding.rule === rule.id).map(({ what }) => what),
    asks: notChecked.filter((each) => each.rule === rule.id).map(({ needs }) => needs),
  }
}
const told = (rule: Rule, data: DocumentInput) => by(rule, data).says.length
const asked = (rule: Rule, data: DocumentInput) => by(rule, data).asks.length

/** One wire between two plugs with one contact in each. */
const crimped = (contact: Partial<Contact>, wire: Partial<WireInput>, part?: Partial<Part>) =>
  exampleLead({
    parts: [
      rowHousing(2),
      {
        kind: 'contact',
        id: 'c',
        title: 'Contact',
        join: 'crimp',
        area: '0.2..1.5 mm²',
        tool: 'T',
        ...contact,
      },
      ...(part ? [{ kind: 'wire' as const, id: 'w', title: 'Wire', ...part }] : []),
    ],
    equipment: ['a', 'b'].map((id) => unitOf(id, socket('J', 'row-2', { '1': { name: 'A' } }))),
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'a.J', contact: 'c' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'b.J', contact: 'c' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.5 mm²', ...(part ? { part: 'w' } : {}), ...wire },
      ],
    },
  })

describe('the grip on the insulation', () => {
  const grip = { insulation: '0.9..1.8 mm' } as const
  it.each([
    ['0.8 mm', 2],
    ['0.9 mm', 0],
    ['1.8 mm', 0],
    ['1.9 mm', 2],
  ] as const)('from 0.9 to 1.8 mm takes %s: %i misfits', (od, expected) => {
    expect(told(insulationFitsContact, crimped(grip, {}, { od }))).toBe(expected)
  })
  it('is not asked of a contact without one, nor of a conductor the barrel does not take', () => {
    expect(told(insulationFitsContact, crimped({}, {}, { od: '9 mm' }))).toBe(0)
    expect(told(insulationFitsContact, crimped(grip, { size: '2.5 mm²' }, { od: '9 mm' }))).toBe(0)
  })
  it('asks for the diameter where it has none', () => {
    expect(by(insulationFitsContact, crimped(grip, {})).asks).toEqual([
      'needs the diameter over insulation of A01',
      'needs the diameter over insulation of A01',
    ])
  })
})

describe('the tool of a crimp', () => {
  it.each([
    ['crimp', undefined, 1],
    ['crimp', 'Die 3', 0],
    ['pierce', undefined, 1],
    ['solder', undefined, 0],
    ['screw', undefined, 0],
  ] as const)('a %s with the tool %s', (join, tool, expected) => {
    const { tool: _, ...bare } = { tool, join }
    expect(told(crimpToolNamed, untooled(bare, tool))).toBe(expected)
  })
  const untooled = (contact: Partial<Contact>, tool: string | undefined): DocumentInput => {
    const data = crimped(contact, {})
    for (const part of data.parts ?? [])
      if (part.kind === 'contact') {
        if (tool === undefined) delete part.tool
        else part.tool = tool
      }
    return data
  }
})

describe('what is crimped', () => {
  it.each([
    ['solid', { strands: 1 }, {}, 1],
    ['seven strands', { strands: 7 }, {}, 0],
    ['strands not counted', {}, {}, 0],
    ['soldered strands', { strands: 16 }, { soldered: true }, 1],
  ] as const)('%s', (_, part, wire, expected) => {
    expect(told(crimpOnStrands, crimped({}, wire, part))).toBe(expected)
  })
  it('solid wire may be soldered or clamped', () => {
    expect(told(crimpOnStrands, crimped({ join: 'solder' }, {}, { strands: 1 }))).toBe(0)
    expect(told(crimpOnStrands, crimped({ join: 'screw' }, { soldered: true }))).toBe(0)
  })
  it('asks what a wire without a part is', () => {
    expect(by(crimpOnStrands, crimped({}, {})).asks).toEqual([
      'needs the wire part of A01: solid or stranded',
    ])
  })
})

describe('pinch-through splices', () => {
  type Zone = NonNullable<InstallationInput['zones']>[number]
  const spliced = (zone: Omit<Zone, 'id'> | undefined, makersLoom = false) =>
    wired({
      units: { a: { pins: { '1': { name: 'A' } } }, b: { pins: { '1': { name: 'A' } } } },
      runs: [
        ['a.1', 'S'],
        ['S', 'b.1'],
      ],
      harness: {
        splices: [
          { id: 'S', kind: 'pierce', ...(zone ? { zone: 'z' } : {}), ...(makersLoom ? { makersLoom } : {}) },
        ],
      },
      place: { zones: [{ id: 'z', ...zone }] },
    })
  it.each<[string, Omit<Zone, 'id'> | undefined, boolean, number, number]>([
    ['dry', {}, false, 0, 0],
    ['wet', { wet: true }, false, 1, 0],
    ['shaking', { vibration: true }, false, 1, 0],
    ['dry, in a loom of the maker', {}, true, 1, 0],
    ['nowhere stated', undefined, false, 0, 1],
  ])('%s', (_, zone, makersLoom, findings, questions) => {
    expect(told(pinchSplicePlace, spliced(zone, makersLoom))).toBe(findings)
    expect(asked(pinchSplicePlace, spliced(zone, makersLoom))).toBe(questions)
  })
})

describe('the half that stays live', () => {
  const feed = (family: Partial<Family>, radioHalf: 'pin' | 'socket', source = cell({ maxAmps: '2 A' })) => {
    const data = wired({
      units: { supply: { ...source, family: 'f' }, radio: { ...load('1 A'), family: 'f' } },
      parts: [{ kind: 'connector', id: 'f', title: 'F', style: 'circular', pins: ['1', '2'], ...family }],
      runs: [
        ['supply.1', 'radio.1'],
        ['supply.2', 'radio.2'],
      ],
    })
    const [lead] = data.harnesses ?? []
    const [, radio] = data.equipment ?? []
    if (lead?.connectors[1]) lead.connectors[1].half = radioHalf
    if (radio?.connectors[0]) radio.connectors[0].half = radioHalf === 'pin' ? 'socket' : 'pin'
    return data
  }
  it.each<[string, Partial<Family>, 'pin' | 'socket', number, number]>([
    ['pins', {}, 'pin', 1, 0],
    ['sockets', {}, 'socket', 0, 0],
    ['pins in a shroud', { shrouded: true }, 'pin', 0, 0],
    ['pins in a housing nobody described', { style: 'housing' }, 'pin', 0, 1],
    ['bare pins in a housing', { style: 'housing', shrouded: false }, 'pin', 1, 0],
    ['a modular plug', { style: 'modular' }, 'pin', 0, 0],
    ['a bare tab', { style: 'tab' }, 'pin', 1, 0],
  ])('%s', (_, family, half, findings, questions) => {
    expect(told(liveHalfShrouded, feed(family, half))).toBe(findings)
    expect(asked(liveHalfShrouded, feed(family, half))).toBe(questions)
  })
  it('does not count a half that only a load reaches', () => {
    // P1 is pins too, but the supply is on the other side of that joint.
    expect(by(liveHalfShrouded, feed({}, 'pin')).says[0]).toMatch(/^lead\.P2 has pins/)
  })
})

describe('a power plug', () => {
  const plug = (family: Partial<Family>, pins = { supply: cell(), lamp: load('1 A') }) =>
    wired({
      units: { a: { ...pins.supply, family: 'f' }, b: { ...pins.lamp, family: 'f' } },
      parts: [{ kind: 'connector', id: 'f', title: 'F', style: 'housing', pins: ['1', '2'], ...family }],
      runs: [
        ['a.1', 'b.1'],
        ['a.2', 'b.2'],
      ],
    })
  it.each<[string, Partial<Family>, number, number]>([
    ['full ways', { fullWays: true }, 2, 0],
    ['full ways with a latch', { fullWays: true, lock: 'latch' }, 2, 0],
    ['keyed', { fullWays: false }, 0, 0],
    ['latched on one side', { lock: 'latch' }, 0, 0],
    ['coded', { coding: 'A' }, 0, 0],
    ['not described', {}, 0, 2],
  ])('%s', (_, family, findings, questions) => {
    expect(told(powerPlugKeyed, plug(family))).toBe(findings)
    expect(asked(powerPlugKeyed, plug(family))).toBe(questions)
  })
  it('is no matter for signals', () => {
    const signal = { pins: { '1': { kind: 'audio-in' as const, level: 'line' as const } } }
    expect(told(powerPlugKeyed, plug({ fullWays: true }, { supply: signal, lamp: signal }))).toBe(0)
  })
})

describe('locks and threads', () => {
  const shaken = (lock: Family['lock'], locked?: string, vibration = true) => {
    const data = wired({
      units: {
        a: { pins: { '1': { name: 'A' } }, family: 'f', zone: 'z' },
        b: { pins: { '1': { name: 'A' } }, family: 'f' },
      },
      parts: [
        { kind: 'connector', id: 'f', title: 'F', style: 'housing', pins: ['1'], ...(lock ? { lock } : {}) },
      ],
      runs: [['a.1', 'b.1']],
      place: { zones: [{ id: 'z', vibration }] },
    })
    const first = data.harnesses?.[0]?.connectors[0]
    if (first && locked !== undefined) first.locked = locked
    return data
  }
  it.each<[Family['lock'], string | undefined, boolean, number, number]>([
    ['none', undefined, true, 1, 0],
    ['friction', undefined, true, 1, 0],
    ['friction', 'clip', true, 0, 0],
    ['friction', undefined, false, 0, 0],
    ['latch', undefined, true, 0, 0],
    ['thread', undefined, true, 0, 0],
    [undefined, undefined, true, 0, 1],
  ])('lock %s, %s, shaking %s', (lock, locked, vibration, findings, questions) => {
    expect(told(vibrationLocked, shaken(lock, locked, vibration))).toBe(findings)
    expect(asked(vibrationLocked, shaken(lock, locked, vibration))).toBe(questions)
  })

  const screwed = (own?: string, other?: string) => {
    const data = wired({
      units: { a: { pins: { '2': { name: 'A' } }, family: 'dsub-9' } },
      runs: [['a.2', 'S']],
      splices: ['S'],
    })
    const [free, fixed] = [data.harnesses?.[0]?.connectors[0], data.equipment?.[0]?.connectors[0]]
    if (free && own !== undefined) free.thread = own
    if (fixed && other !== undefined) fixed.thread = other
    return data
  }
  it.each([
    ['UNC 4-40', 'UNC 4-40', 0, 0],
    ['4-40 UNC', 'unc 4-40', 0, 0],
    ['M3', 'UNC 4-40', 1, 0],
    ['M3', undefined, 0, 1],
    [undefined, undefined, 0, 0],
  ])('%s on %s', (own, other, findings, questions) => {
    expect(told(threadsMatch, screwed(own, other))).toBe(findings)
    expect(asked(threadsMatch, screwed(own, other))).toBe(questions)
  })
})
