import { describe, expect, test } from 'vitest'
import type { DocumentInput } from '../../src/describe/document.ts'
import { resolveHarness, resolveShop } from '../../src/resolve/resolve.ts'
import { resolveRules } from '../../src/resolve/resolve-rules.ts'
import { pickup } from '../solve/pickup.ts'
import { loomOf, resolved, shopOf } from './shop-of.ts'

type Content = Omit<DocumentInput, 'loomwright'>
type Harness = NonNullable<Content['harnesses']>[number]

const parts: Content['parts'] = [
  { kind: 'connector', id: 'four', title: 'Four ways', pins: ['1', '2', '3', '4'], style: 'housing' },
  { kind: 'connector', id: 'screened', title: 'Screened', pins: ['1', '2'], shell: true, style: 'circular' },
  { kind: 'connector', id: 'test-stud', title: 'Stud', pins: ['1'], style: 'stud' },
  { kind: 'connector', id: 'test-ring', title: 'Ring', pins: ['1'], style: 'ring' },
  {
    kind: 'cable',
    id: 'test-cable',
    title: 'Two pairs',
    cores: ['1', '2', '3', '4'].map((name, n) => ({ name, size: '0.22 mm²', pair: n < 2 ? 'a' : 'b' })),
    shields: [{ name: 'screen' }],
  },
]

const box = (
  id: string,
  pins: NonNullable<Content['equipment']>[number]['connectors'][number]['pins'] = {},
) => ({
  id,
  title: `Box ${id}`,
  connectors: [{ id: 'J', family: 'four', pins }],
})

/** One harness with two plugs, changed as a case needs. */
const lead = (change: Partial<Harness> = {}): Harness => ({
  id: 'lead',
  title: 'Lead',
  connectors: [
    { id: 'P1', family: 'four' },
    { id: 'P2', family: 'four' },
  ],
  ...change,
})

const findingsOf = (content: Content) =>
  resolved({ ...content, parts: [...(content.parts ?? []), ...(parts ?? [])] }).findings

interface Case {
  readonly name: string
  readonly content: Content
  readonly rule: string
  readonly what: RegExp
  readonly fix?: RegExp
  readonly path: (string | number)[]
}

const wires = (...list: NonNullable<Harness['wires']>): Content => ({ harnesses: [lead({ wires: list })] })
const cable = (run: Partial<NonNullable<Harness['cables']>[number]>): Content => ({
  harnesses: [lead({ cables: [{ id: 'W1', part: 'test-cable', cores: [], ...run }] })],
})
const wirePath = (...rest: (string | number)[]) => ['harnesses', 0, 'wires', ...rest]

const cases: Case[] = [
  {
    name: 'an unknown family',
    content: { harnesses: [lead({ connectors: [{ id: 'P1', family: 'fuor' }] })] },
    rule: 'name-not-found',
    what: /P1 is of the family “fuor”/,
    fix: /Did you mean “four”\?/,
    path: ['harnesses', 0, 'connectors', 0, 'family'],
  },
  {
    name: 'an unknown connector at the end of a wire',
    content: wires({ id: 'A1', from: 'P3.1', to: 'P2.1' }),
    rule: 'name-not-found',
    what: /wire A1 ends at “P3.1”, but harness lead has nothing called “P3”/,
    fix: /Did you mean “P1” or “P2”\?/,
    path: wirePath(0, 'from'),
  },
  {
    name: 'a pin that the family does not have',
    content: wires({ id: 'A1', from: 'P1.5', to: 'P2.1' }),
    rule: 'pin-exists',
    what: /P1 \(four\) has no pin “5”/,
    path: wirePath(0, 'from'),
  },
  {
    name: 'the shell of a family without one',
    content: wires({ id: 'A1', from: 'P1.shell', to: 'P2.1' }),
    rule: 'pin-exists',
    what: /no pin “shell”/,
    path: wirePath(0, 'from'),
  },
  {
    name: 'a connector of several pins named bare',
    content: wires({ id: 'A1', from: 'P1', to: 'P2.1' }),
    rule: 'name-not-found',
    what: /has 4 pins, without saying which/,
    fix: /“P1.1”/,
    path: wirePath(0, 'from'),
  },
  {
    name: 'a wire from a pin to itself',
    content: wires({ id: 'A1', from: 'P1.1', to: 'P1.1' }),
    rule: 'contradiction',
    what: /wire A1 starts and ends at the same place, lead.P1.1/,
    path: wirePath(0, 'to'),
  },
  {
    name: 'a wire number given twice',
    content: wires({ id: 'A1', from: 'P1.1', to: 'P2.1' }, { id: 'A1', from: 'P1.2', to: 'P2.2' }),
    rule: 'duplicate-name',
    what: /two wires called A1/,
    path: wirePath(1, 'id'),
  },
  {
    name: 'a connector and a splice of one name',
    content: { harnesses: [lead({ splices: [{ id: 'P1' }] })] },
    rule: 'duplicate-name',
    what: /a connector and a splice called P1/,
    path: ['harnesses', 0, 'splices', 0, 'id'],
  },
  {
    name: 'a pair of one wire',
    content: wires({ id: 'A1', from: 'P1.1', to: 'P2.1', pair: 'TP1' }),
    rule: 'contradiction',
    what: /Pair TP1 has one wire, A1; a pair is two/,
    path: wirePath(0, 'pair'),
  },
  {
    name: 'two names on one net',
    content: wires(
      { id: 'A1', from: 'P1.1', to: 'P2.1', net: 'ON' },
      { id: 'A2', from: 'P1.1', to: 'P2.2', net: 'OFF' },
    ),
    rule: 'contradiction',
    what: /A2 is on net “OFF” and A1 on net “ON”, but they are joined/,
    path: wirePath(1, 'net'),
  },
  {
    name: 'one name on two nets',
    content: wires(
      { id: 'A1', from: 'P1.1', to: 'P2.1', net: 'ON' },
      { id: 'A2', from: 'P1.2', to: 'P2.2', net: 'ON' },
    ),
    rule: 'contradiction',
    what: /A1 and A2 are both on net “ON”, but nothing joins them/,
    path: wirePath(1, 'net'),
  },
  {
    name: 'a core used twice',
    content: cable({
      cores: [
        { core: '1', from: 'P1.1', to: 'P2.1' },
        { core: '1', from: 'P1.2', to: 'P2.2' },
      ],
    }),
    rule: 'core-used-once',
    what: /Core 1 of cable W1 is used twice: P1.1 to P2.1, and P1.2 to P2.2/,
    fix: /free core: 2, 3, 4/,
    path: ['harnesses', 0, 'cables', 0, 'cores', 1, 'core'],
  },
  {
    name: 'a core the cable does not have',
    content: cable({ cores: [{ core: '7', from: 'P1.1', to: 'P2.1' }] }),
    rule: 'core-used-once',
    what: /Cable W1 \(test-cable\) has no core “7”/,
    path: ['harnesses', 0, 'cables', 0, 'cores', 0, 'core'],
  },
  {
    name: 'a shield the cable does not have',
    content: cable({ shields: [{ shield: 'scren', from: 'P1.1' }] }),
    rule: 'name-not-found',
    what: /no shield “scren”/,
    fix: /“screen”/,
    path: ['harnesses', 0, 'cables', 0, 'shields', 0, 'shield'],
  },
  {
    name: 'a terminal a component does not have',
    content: {
      harnesses: [
        lead({ components: [{ kind: 'fuse', id: 'F1' }], wires: [{ id: 'A1', from: 'P1.1', to: 'F1.inn' }] }),
      ],
    },
    rule: 'name-not-found',
    what: /a fuse has no terminal “inn”/,
    fix: /“F1.in” or “F1.out”/,
    path: wirePath(0, 'to'),
  },
  {
    name: 'a fit to equipment that is not described',
    content: {
      equipment: [box('radio')],
      harnesses: [lead({ connectors: [{ id: 'P1', family: 'four', fits: 'raido.J' }] })],
    },
    rule: 'name-not-found',
    what: /P1 fits “raido.J”, but no equipment is called “raido”/,
    fix: /“radio”/,
    path: ['harnesses', 0, 'connectors', 0, 'fits'],
  },
  {
    name: 'a pin of equipment that its family does not have',
    content: {
      equipment: [box('radio', { '9': { kind: 'return' } })],
      harnesses: [lead({ connectors: [{ id: 'P1', family: 'four', fits: 'radio.J' }] })],
    },
    rule: 'pin-exists',
    what: /J describes pin “9”, which a four does not have/,
    path: ['equipment', 0, 'connectors', 0, 'pins', '9'],
  },
  {
    name: 'a reserved pin that must be connected',
    content: {
      equipment: [box('radio', { '1': { kind: 'reserved', connect: 'must' } })],
      harnesses: [lead({ connectors: [{ id: 'P1', family: 'four', fits: 'radio.J' }] })],
    },
    rule: 'contradiction',
    what: /radio J.1 is reserved and yet must be connected/,
    path: ['equipment', 0, 'connectors', 0, 'pins', '1', 'connect'],
  },
  {
    name: 'a state nobody has',
    content: {
      equipment: [box('radio', { '1': { kind: 'supply-in', amps: { trasmit: '5 A' } } })],
      harnesses: [lead({ connectors: [{ id: 'P1', family: 'four', fits: 'radio.J' }] })],
    },
    rule: 'name-not-found',
    what: /in the state “trasmit”/,
    fix: /“transmit”/,
    path: ['equipment', 0, 'connectors', 0, 'pins', '1', 'amps', 'trasmit'],
  },
  {
    name: 'two units of one name',
    content: { equipment: [box('radio')], installations: [site([unit('a'), unit('a')])] },
    rule: 'duplicate-name',
    what: /two units or looms called a/,
    path: ['installations', 0, 'units', 1, 'id'],
  },
  {
    name: 'a unit of no known type',
    content: { equipment: [box('radio')], installations: [site([unit('a', 'rado')])] },
    rule: 'name-not-found',
    what: /a is “rado”, but no equipment is called that/,
    path: ['installations', 0, 'units', 0, 'of'],
  },
  {
    name: 'two equipment types of one name',
    content: { equipment: [box('radio'), box('radio')] },
    rule: 'duplicate-name',
    what: /Two equipment entries are called radio/,
    path: ['equipment', 1, 'id'],
  },
  {
    name: 'a plug mated with a connector it is not made for',
    content: mated(['l.P1', 'b.J'], { fits: 'radio.J' }, [unit('a'), unit('b', 'other')]),
    rule: 'contradiction',
    what: /l.P1 is made for radio.J but is mated with b.J, a other.J/,
    path: ['installations', 0, 'mates', 0],
  },
  {
    name: 'a plug that could go into either of two',
    content: mated(undefined, { fits: 'radio.J' }, [unit('a'), unit('b')]),
    rule: 'mate-unclear',
    what: /it is not clear which: a.J, b.J are free for l.P1/,
    fix: /\["l.P1", "a.J"\]/,
    path: ['harnesses', 0, 'connectors', 0, 'fits'],
  },
  {
    name: 'a mate that does not exist',
    content: mated(['l.P9', 'a.J'], {}, [unit('a')]),
    rule: 'name-not-found',
    what: /l has no connector “P9”/,
    fix: /“l.P1”/,
    path: ['installations', 0, 'mates', 0, 0],
  },
]

function unit(id: string, of = 'radio') {
  return { id, of }
}

function site(
  units: NonNullable<Content['installations']>[number]['units'],
  more: Partial<NonNullable<Content['installations']>[number]> = {},
) {
  return { id: 'site', title: 'Site', units, ...more }
}

function mated(
  pair: [string, string] | undefined,
  plug: Partial<Harness['connectors'][number]>,
  units: NonNullable<Content['installations']>[number]['units'],
): Content {
  return {
    equipment: [box('radio'), box('other')],
    harnesses: [lead({ connectors: [{ id: 'P1', family: 'four', ...plug }] })],
    installations: [site(units, { looms: [{ id: 'l', of: 'lead' }], ...(pair ? { mates: [pair] } : {}) })],
  }
}

describe('a name that leads nowhere, twice or both ways', () => {
  test.each(cases)('$name is found once, at its place', ({ content, rule, what, fix, path }) => {
    const found = findingsOf(content).filter((finding) => finding.level !== 'note')
    expect(found.map((finding) => [finding.rule, finding.what])).toEqual([
      [rule, expect.stringMatching(what)],
    ])
    expect(found[0]?.at).toEqual({ doc: 'job.json', path })
    if (fix) expect(found[0]?.fix).toMatch(fix)
    expect(found[0]?.why).not.toBe('')
  })

  test('every rule a finding names is documented', () => {
    const known = new Set<string>(resolveRules.map((rule) => rule.id))
    for (const { rule } of cases) expect(known).toContain(rule)
  })
})

describe('a job resolved', () => {
  test('has nets across mated contacts, through fuses a circuit', () => {
    const loom = loomOf(pickup())
    expect(loom.findings).toEqual([])
    const net = (address: string) => loom.nets[loom.netOf[loom.terminalAt.get(address)?.index ?? -1] ?? -1]
    expect(net('bat.P.1')?.terminals.map((t) => t.address)).toEqual(['bat.P.1', 'main.R1.1', 'main.F1.in'])
    expect(net('radio.J2.10')).toBe(net('radio.J1.1'))
    const circuit = (address: string) => loom.circuitOf[net(address)?.index ?? -1]
    expect(circuit('bat.P.1')).toBe(circuit('radio.J1.1'))
    expect(circuit('bat.P.1')).not.toBe(circuit('bat.N.1'))
    expect(loom.conductorAt.get('main.A02')?.from?.address).toBe('main.F1.out')
    expect(loom.halfAt.get('main.P1')?.mate?.address).toBe('radio.J1')
  })

  test('gives the pins of a plug the functions of what it fits', () => {
    const loom = loomOf(pickup())
    expect(loom.terminalAt.get('main.P1.1')?.does.kind).toBe('supply-in')
    expect(loom.terminalAt.get('main.R1.1')?.does.kind).toBe('supply-out')
  })

  test('mates any number of rings with one stud, and shells with shells', () => {
    const loom = loomOf({
      parts: parts ?? [],
      equipment: [
        {
          id: 'body',
          title: 'Body',
          connectors: [{ id: 'G', family: 'test-stud', pins: { '1': { kind: 'chassis' } } }],
        },
        {
          id: 'amp',
          title: 'Amp',
          connectors: [{ id: 'J', family: 'screened', pins: { shell: { kind: 'chassis' } } }],
        },
      ],
      harnesses: [
        {
          id: 'lead',
          title: 'Lead',
          connectors: [
            { id: 'R1', family: 'test-ring', fits: 'body.G' },
            { id: 'R2', family: 'test-ring', fits: 'body.G' },
            { id: 'P', family: 'screened', fits: 'amp.J' },
          ],
          wires: [{ id: 'A1', from: 'R1', to: 'P.shell' }],
        },
      ],
      installations: [site([unit('car', 'body'), unit('amp', 'amp')], { looms: [{ id: 'l', of: 'lead' }] })],
    })
    expect(loom.findings).toEqual([])
    const stud = loom.halfAt.get('car.G')
    expect(stud?.mates.map((half) => half.address)).toEqual(['l.R1', 'l.R2'])
    expect(stud?.mate?.address).toBe('l.R1')
    const shell = loom.terminalAt.get('amp.J.shell')
    const ring = loom.terminalAt.get('l.R2.1')
    expect(shell && ring && loom.netOf[shell.index]).toBe(ring && loom.netOf[ring.index])
  })

  test('has a lone harness with stand-ins, a second one where the first is taken', () => {
    const { looms } = resolved({
      parts: parts ?? [],
      equipment: [box('radio', { '1': { kind: 'sense' } })],
      harnesses: [
        lead({
          connectors: [
            { id: 'P1', family: 'four', fits: 'radio.J' },
            { id: 'P2', family: 'four', fits: 'radio.J' },
          ],
        }),
      ],
    })
    expect(looms.map((loom) => [loom.kind, loom.id])).toEqual([['harness', 'lead']])
    expect(looms[0]?.units.map((entry) => [entry.id, entry.standIn])).toEqual([
      ['radio', true],
      ['radio-2', true],
    ])
    expect(looms[0]?.halfAt.get('lead.P2')?.mate?.address).toBe('radio-2.J')
  })

  test('lists a harness apart only where no installation uses it, and gives any on request', () => {
    const shop = shopOf(pickup())
    expect(resolveShop(shop).looms.map((loom) => loom.id)).toEqual(['pickup'])
    expect(resolveHarness(shop, 'head')?.units.every((entry) => entry.standIn)).toBe(true)
    expect(resolveHarness(shop, 'heads')).toBeUndefined()
  })

  test('says once what is wrong with a harness used in two installations', () => {
    const once = mated(['l.P1', 'a.J'], {}, [unit('a')])
    const [first] = once.installations ?? []
    const [harness] = once.harnesses ?? []
    if (!first || !harness) throw new Error('no case')
    const twice: Content = {
      ...once,
      parts: parts ?? [],
      harnesses: [{ ...harness, wires: [{ id: 'A1', from: 'P1.1', to: 'P1.6' }] }],
      installations: [first, { ...first, id: 'site-2' }],
    }
    const found = resolved(twice)
    expect(found.looms.map((loom) => loom.findings.filter((f) => f.rule === 'pin-exists').length)).toEqual([
      1, 1,
    ])
    expect(found.findings.filter((f) => f.rule === 'pin-exists')).toHaveLength(1)
  })

  test('needs no more than names: unknown families still give pins, wires and nets', () => {
    const loom = loomOf({
      harnesses: [
        {
          id: 'sketch',
          title: 'Sketch',
          connectors: [
            { id: 'P1', family: 'who-knows' },
            { id: 'P2', family: 'who-knows' },
          ],
          wires: [{ id: '1', from: 'P1.A', to: 'P2.B' }],
        },
      ],
    })
    expect(loom.terminals.map((t) => t.address)).toEqual(['sketch.P1.A', 'sketch.P2.B'])
    expect(loom.nets).toHaveLength(1)
  })

  test('lets a shop part take the place of a standard one, and says so in a note', () => {
    const { index, findings } = resolved({
      parts: [{ kind: 'connector', id: 'dsub-9', title: 'Ours', pins: ['1', '2'], style: 'dsub' }],
    })
    expect(index.parts.connectors.get('dsub-9')?.title).toBe('Ours')
    expect(findings.map((f) => [f.level, f.rule])).toEqual([['note', 'duplicate-name']])
  })
})
