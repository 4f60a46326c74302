import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import { type Changes, isEmpty } from '../../src/compare/changes.ts'
import { changesMarkdown } from '../../src/compare/changes-markdown.ts'
import { compare } from '../../src/compare/compare.ts'
import { headline, thingSentence } from '../../src/compare/sentences.ts'
import { type Data, demoDocuments, find, type Harness, renameConnector, revisionOf } from './revisions.ts'

const JOBS = [
  'pickup/planned.ts',
  'pickup/mended.ts',
  'launch/planned.ts',
  'launch/mended.ts',
  'party-line/planned.ts',
  'party-line/mended.ts',
  'bench/bench-lead.ts',
  'null-modem.json',
]
const demos = new Map<string, Awaited<ReturnType<typeof demoDocuments>>>()
beforeAll(async () => {
  for (const job of JOBS) demos.set(job, await demoDocuments(job))
})
const dataOf = (job: string): Data => structuredClone(demos.get(job)?.[0]?.data ?? {})
const asRevision = (data: Data) => revisionOf([{ name: 'shop.json', data: { loomwright: 1, ...data } }])

/** Numbers from 0 to 1 that are the same again for the same seed. */
function drawer(seed: number): () => number {
  let state = seed
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
}

/** A random order that can be drawn again. */
function shuffled<T>(list: readonly T[], random: () => number): T[] {
  return list
    .map((item) => ({ item, at: random() }))
    .sort((a, b) => a.at - b.at)
    .map(({ item }) => item)
}

/** Every list whose order is no fact, and every table, in another order. */
function disordered(value: unknown, random: () => number, key = ''): unknown {
  if (Array.isArray(value)) {
    const items = value.map((one) => disordered(one, random, key))
    // The order of a mated pair and of notes is the writer's own.
    return ['notes', 'mates', 'joins'].includes(key) ? items : shuffled(items, random)
  }
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    shuffled(Object.entries(value), random).map(([name, one]) => [name, disordered(one, random, name)]),
  )
}

/** Wires written from their other end. */
function turned(data: Data, random: () => number): Data {
  for (const harness of data.harnesses ?? [])
    for (const wire of harness.wires ?? []) if (random() < 0.5) [wire.from, wire.to] = [wire.to, wire.from]
  return data
}

const wordsOf = (changes: Changes): string => changesMarkdown(changes, { before: 'a', after: 'b' })

describe('no difference in meaning', () => {
  test.each(JOBS)('%s is the same as itself', (job) => {
    const revision = asRevision(dataOf(job))
    expect(isEmpty(compare(revision, revision))).toBe(true)
    expect(wordsOf(compare(revision, asRevision(dataOf(job))))).toMatch(/Nothing changed in meaning/)
  })

  test('the order of lists and fields, and the end a wire is written from, change nothing', () => {
    fc.assert(
      fc.property(fc.constantFrom(...JOBS), fc.integer({ min: 1 }), (job, seed) => {
        const random = drawer(seed)
        const other = turned(disordered(dataOf(job), random) as Data, random)
        const { subjects, nets, findings } = compare(asRevision(dataOf(job)), asRevision(other))
        expect(subjects.flatMap(({ id, things }) => [id, ...things.map(thingSentence)])).toEqual([])
        expect(nets).toEqual([])
        expect(findings.appeared.map(({ rule, subject }) => `${rule} ${subject}`)).toEqual([])
        expect(findings.gone.map(({ finding }) => `${finding.rule} ${finding.subject}`)).toEqual([])
      }),
      { numRuns: 24 },
    )
  })
})

describe('two revisions either way round', () => {
  const pairs = [
    ['pickup/planned.ts', 'pickup/mended.ts'],
    ['launch/planned.ts', 'launch/mended.ts'],
    ['party-line/planned.ts', 'party-line/mended.ts'],
    ['pickup/planned.ts', 'launch/planned.ts'],
  ] as const
  test.each(pairs)('%s and %s: what is added one way is removed the other', (one, two) => {
    const [a, b] = [asRevision(dataOf(one)), asRevision(dataOf(two))]
    const [there, back] = [compare(a, b), compare(b, a)]
    const listed = ({ subjects }: Changes, change: string) => [
      ...subjects.filter((subject) => subject.change === change).map(({ of, id }) => `${of} ${id}`),
      ...subjects.flatMap(({ of, things }) =>
        things.filter((thing) => thing.change === change).map(({ kind, id }) => `${of} ${kind} ${id}`),
      ),
    ]
    expect(listed(there, 'added').length + listed(there, 'removed').length).toBeGreaterThan(0)
    expect(listed(back, 'removed').sort()).toEqual(listed(there, 'added').sort())
    expect(listed(back, 'added').sort()).toEqual(listed(there, 'removed').sort())
    const moves = ({ subjects }: Changes, ends: 'to' | 'from') =>
      subjects
        .flatMap(({ things }) => things.flatMap((thing) => thing.moves.map((move) => move[ends])))
        .sort()
    expect(moves(back, 'from')).toEqual(moves(there, 'to'))
    const nets = ({ nets: all }: Changes, change: string) => all.filter((net) => net.change === change).length
    expect(nets(back, 'merged')).toBe(nets(there, 'split'))
  })
})

describe('renamed things are known again', () => {
  const harnessOf = (data: Data): Harness => {
    const [harness] = data.harnesses ?? []
    if (!harness) throw new Error('no harness')
    return harness
  }
  const edited = (job: string, edit: (data: Data, harness: Harness) => void): Changes => {
    const data = dataOf(job)
    edit(data, harnessOf(data))
    return compare(asRevision(dataOf(job)), asRevision(data))
  }
  /** What a renaming may say: only names, and no finding. */
  const onlyNames = (changes: Changes, names: readonly string[]) => {
    const things = changes.subjects.flatMap((subject) => subject.things)
    expect(things.map(({ kind, was, id }) => `${kind} ${was} ${id}`).sort()).toEqual([...names].sort())
    expect(things.flatMap(({ moves, values }) => [...moves, ...values])).toEqual([])
    expect(changes.nets).toEqual([])
    expect(changes.findings.appeared).toEqual([])
    expect(changes.findings.gone).toEqual([])
    expect(changes.findings.kept.filter(({ trend }) => trend !== 'same')).toEqual([])
  }

  test('every connector of a faulty harness at once: all its findings stay the same ones', () => {
    const names: string[] = []
    const changes = edited('pickup/planned.ts', (data, harness) => {
      for (const { id } of [...harness.connectors]) {
        renameConnector(harness, id, `Z-${id}`)
        names.push(`connector ${id} Z-${id}`)
        for (const one of data.installations ?? [])
          one.mates = one.mates?.map(
            (mate) => mate.map((end) => (end === `main.${id}` ? `main.Z-${id}` : end)) as [string, string],
          )
      }
    })
    onlyNames(changes, names)
    expect(changes.findings.kept.length).toBeGreaterThan(5)
  })

  test('every wire at once, among them wires that look alike', () => {
    const names: string[] = []
    onlyNames(
      edited('launch/planned.ts', (_, harness) => {
        for (const wire of harness.wires ?? []) {
          names.push(`conductor ${wire.id} N-${wire.id}`)
          wire.id = `N-${wire.id}`
        }
      }),
      names,
    )
  })

  test('wires and connectors together', () => {
    const changes = edited('pickup/mended.ts', (data, harness) => {
      for (const wire of harness.wires ?? []) wire.id = `N${wire.id}`
      renameConnector(harness, 'P2', 'Q2')
      renameConnector(harness, 'U1', 'Q1')
      expect(data.installations).toHaveLength(1)
    })
    expect(
      changes.subjects
        .flatMap(({ things }) => things)
        .every(({ was, moves, values }) => was && moves.length + values.length === 0),
    ).toBe(true)
  })

  test('two connectors that swap names are two renamings, not two connectors rewired', () => {
    onlyNames(
      edited('pickup/mended.ts', (_, harness) => {
        renameConnector(harness, 'P2', 'tmp')
        renameConnector(harness, 'X1', 'P2')
        renameConnector(harness, 'tmp', 'X1')
      }),
      ['connector P2 X1', 'connector X1 P2'],
    )
  })

  test('a fuse, a cable with its cores, a unit, a type of equipment and a harness', () => {
    const changes = edited('pickup/mended.ts', (data, harness) => {
      find(harness.components, 'F1').id = 'F9'
      for (const wire of harness.wires ?? [])
        Object.assign(wire, { from: wire.from.replace(/^F1\./, 'F9.'), to: wire.to.replace(/^F1\./, 'F9.') })
      for (const branch of harness.branches ?? [])
        Object.assign(branch, {
          from: branch.from.replace(/^F1$/, 'F9'),
          to: branch.to.replace(/^F1$/, 'F9'),
        })
      find(harness.cables, 'W3').id = 'W33'
      const [job] = data.installations ?? []
      find(job?.units, 'pedal').id = 'foot'
      find(data.equipment, 'footswitch').id = 'pedal-2'
      find(job?.units, 'foot').of = 'pedal-2'
      find(harness.connectors, 'U1').fits = 'pedal-2.J1'
      harness.id = 'pickup-loom'
      find(job?.looms, 'main').of = 'pickup-loom'
    })
    const told = changes.subjects.flatMap(({ of, was, id, things }) => [
      ...(was === undefined ? [] : [`${of} ${was} ${id}`]),
      ...things.map((thing) => `${thing.kind} ${thing.was} ${thing.id}`),
    ])
    expect(told.sort()).toEqual([
      'cable W3 W33',
      'component F1 F9',
      'equipment footswitch pedal-2',
      'harness pickup-mended pickup-loom',
      'unit pedal foot',
    ])
    expect(headline(changes)).toMatch(/^3 other changes/)
    expect(changes.findings.appeared).toEqual([])
  })
})

describe('findings', () => {
  const withPolicy = (policy: Data['policy']) => asRevision({ ...dataOf('pickup/planned.ts'), policy })
  const waiver = {
    rule: 'wire-fits-contact',
    at: 'council-pickup-planned/main.P1.1',
    reason: 'Test piece.',
    by: 'A. Tester',
    date: '2026-01-01',
  }
  const becauseOf = (changes: Changes, rule: string) =>
    changes.findings.gone.filter(({ finding }) => finding.rule === rule).map(({ because }) => because)

  test('one that is accepted, or whose rule is off, is not called cured', () => {
    const before = asRevision(dataOf('pickup/planned.ts'))
    expect(becauseOf(compare(before, withPolicy({ waivers: [waiver] })), 'wire-fits-contact')).toEqual([
      'accepted',
    ])
    const off = compare(before, withPolicy({ rules: { 'wire-fits-contact': 'off' } }))
    expect(new Set(becauseOf(off, 'wire-fits-contact'))).toEqual(new Set(['switched-off']))
  })

  test('worse and better are told with their figures, by the limit they are held against', () => {
    const job = (size: '1.5 mm²' | '1 mm²') => {
      const data = dataOf('pickup/mended.ts')
      find(data.harnesses?.[0]?.wires, 'A03').size = size
      return asRevision(data)
    }
    const match = (changes: Changes) =>
      changes.findings.kept.find(({ after }) => after.rule === 'voltage-at-load')
    const worse = match(compare(job('1.5 mm²'), job('1 mm²')))
    const better = match(compare(job('1 mm²'), job('1.5 mm²')))
    expect([worse?.trend, better?.trend]).toEqual(['worse', 'better'])
    const turnedRound = better?.figures.map(({ name, before, after }) => ({
      name,
      before: after,
      after: before,
    }))
    expect(worse?.figures.length).toBeGreaterThan(0)
    expect(turnedRound).toEqual(worse?.figures)
  })

  test('a level raised by the policy is worse', () => {
    const changes = compare(
      withPolicy({ rules: { 'cold-leg-accounted': 'note' } }),
      withPolicy({ rules: { 'cold-leg-accounted': 'stop' } }),
    )
    const raised = changes.findings.kept.filter(({ trend }) => trend === 'worse')
    expect(new Set(raised.map(({ after }) => after.rule))).toEqual(new Set(['cold-leg-accounted']))
  })
})

test('names that every object has are names like any other', () => {
  const names = ['constructor', 'toString', '__proto__', 'valueOf', 'hasOwnProperty']
  const data = (pins: readonly string[], volts: string): Data => ({
    equipment: [
      {
        id: 'box',
        title: 'Box',
        connectors: [
          {
            id: 'J1',
            family: 'dsub-9',
            pins: JSON.parse(
              `{${['1', ...pins].map((name) => `${JSON.stringify(name)}:{"kind":"supply-in","amps":{"constructor":"${volts}"}}`).join(',')}}`,
            ),
          },
        ],
      },
    ],
  })
  const changes = compare(asRevision(data([], '1 A')), asRevision(data(names, '2 A')))
  const said = changes.subjects.flatMap(({ things }) => things.map(thingSentence))
  expect(said).toContain('Pin J1-1: current constructor changes from 1 A to 2 A.')
  for (const name of names.filter((one) => one !== '__proto__'))
    expect(said).toContain(`Pin J1-${name} is added: supply input.`)
  expect(isEmpty(compare(asRevision(data(names, '1 A')), asRevision(data(names, '1 A'))))).toBe(true)
})
