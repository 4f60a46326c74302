import fc from 'fast-check'
import type { DocumentInput } from '../../src/describe/document.ts'

type Content = Omit<DocumentInput, 'loomwright'>

/**
 * An audio line of random shape: a source, a run of splices with wire, pads and coupling capacitors, and inputs on it, some of
 * them behind a transformer.
 */
export interface RandomAudio {
  readonly hertz: number
  readonly sourceOhms: number
  readonly steps: readonly {
    readonly onto: number
    readonly mm: number
    readonly ohms?: number
    readonly nF?: number
  }[]
  readonly shunts: readonly { readonly at: number; readonly ohms: number; readonly nF?: number }[]
  readonly inputs: readonly {
    readonly at: number
    readonly ohms: number
    readonly mm: number
    /** Turns of the transformer before it, and which side faces the source. */
    readonly ratio?: number
    readonly turned?: boolean
  }[]
}

const step = fc
  .record({
    onto: fc.nat(1000),
    mm: fc.integer({ min: 50, max: 30_000 }),
    kind: fc.constantFrom('wire', 'resistor', 'capacitor'),
    value: fc.integer({ min: 10, max: 5000 }),
  })
  .map(({ onto, mm, kind, value }) => ({
    onto,
    mm,
    ...(kind === 'resistor' ? { ohms: value } : {}),
    ...(kind === 'capacitor' ? { nF: value } : {}),
  }))

export const randomAudio: fc.Arbitrary<RandomAudio> = fc.record({
  hertz: fc.constantFrom(50, 300, 1000, 3400, 15_000),
  sourceOhms: fc.integer({ min: 50, max: 2000 }),
  steps: fc.array(step, { minLength: 1, maxLength: 7 }),
  shunts: fc.array(
    fc
      .record({
        at: fc.nat(1000),
        ohms: fc.integer({ min: 100, max: 20_000 }),
        nF: fc.option(fc.integer({ min: 1, max: 200 }), { nil: undefined }),
      })
      .map(({ nF, ...rest }) => ({ ...rest, ...(nF === undefined ? {} : { nF }) })),
    { maxLength: 3 },
  ),
  inputs: fc.array(
    fc
      .record({
        at: fc.nat(1000),
        ohms: fc.integer({ min: 200, max: 100_000 }),
        mm: fc.integer({ min: 100, max: 9000 }),
        ratio: fc.option(fc.constantFrom(0.1, 0.5, 1, 1.5, 2, 8), { nil: undefined, freq: 2 }),
        turned: fc.boolean(),
      })
      .map(({ ratio, turned, ...rest }) => ({ ...rest, ...(ratio === undefined ? {} : { ratio, turned }) })),
    { minLength: 1, maxLength: 4 },
  ),
})

const ways = ['1', '2']

/** The description of a random audio line. `stretch` scales every length, `swap` turns every wire end for end. */
export function describeAudio(
  line: RandomAudio,
  options: { readonly stretch?: number; readonly swap?: boolean } = {},
): Content {
  const stretch = options.stretch ?? 1
  const wires: NonNullable<NonNullable<Content['harnesses']>[number]['wires']> = []
  const components: NonNullable<NonNullable<Content['harnesses']>[number]['components']> = []
  const run = (from: string, to: string, mm: number): void => {
    const ends = options.swap ? { from: to, to: from } : { from, to }
    wires.push({ id: `W${wires.length + 1}`, ...ends, size: '0.22 mm²', length: `${mm * stretch} mm` })
  }
  run('P.1', 'S0', 500)
  run('P.2', 'G0', 500)
  line.steps.forEach(({ onto, mm, ohms, nF }, index) => {
    const [near, far] = [`S${onto % (index + 1)}`, `S${index + 1}`]
    const id = `X${index}`
    if (ohms !== undefined) components.push({ kind: 'resistor', id, ohms: `${ohms} Ω` })
    else if (nF !== undefined) components.push({ kind: 'capacitor', id, farads: `${nF} nF` })
    const part = ohms !== undefined || nF !== undefined
    run(near, part ? `${id}.1` : far, mm)
    if (part) run(`${id}.2`, far, 20)
  })
  const splice = (at: number): string => `S${at % (line.steps.length + 1)}`
  line.shunts.forEach(({ at, ohms, nF }, index) => {
    const id = `Y${index}`
    if (nF === undefined) components.push({ kind: 'resistor', id, ohms: `${ohms} Ω` })
    else components.push({ kind: 'capacitor', id, farads: `${nF} nF` })
    run(splice(at), `Y${index}.1`, 30)
    run(`Y${index}.2`, 'G0', 30)
  })
  line.inputs.forEach(({ at, mm, ratio, turned }, index) => {
    const [near, far] = turned ? ['s', 'p'] : ['p', 's']
    const id = `T${index}`
    if (ratio !== undefined) components.push({ kind: 'transformer', id, ratio })
    run(splice(at), ratio === undefined ? `I${index}.1` : `${id}.${near}1`, mm)
    run('G0', ratio === undefined ? `I${index}.2` : `${id}.${near}2`, mm)
    if (ratio === undefined) return
    run(`${id}.${far}1`, `I${index}.1`, mm)
    run(`${id}.${far}2`, `I${index}.2`, mm)
  })
  const two = (id: string, kind: 'audio-out' | 'audio-in', ohms: number) => ({
    id,
    title: id,
    connectors: [
      {
        id: 'J',
        family: 'test-two',
        pins: {
          '1': {
            kind,
            level: 'line' as const,
            leg: 'single' as const,
            port: 'p',
            ohms: `${ohms} Ω` as const,
          },
          '2': { kind: 'signal-return' as const, port: 'p' },
        },
      },
    ],
  })
  return {
    parts: [{ kind: 'connector', id: 'test-two', title: 'Plug', pins: ways, style: 'housing' }],
    equipment: [
      two('source', 'audio-out', line.sourceOhms),
      ...line.inputs.map(({ ohms }, index) => two(`input-${index}`, 'audio-in', ohms)),
    ],
    harnesses: [
      {
        id: 'line',
        title: 'Random line',
        connectors: [
          { id: 'P', family: 'test-two', fits: 'source.J' },
          ...line.inputs.map((_, index) => ({
            id: `I${index}`,
            family: 'test-two',
            fits: `input-${index}.J`,
          })),
        ],
        splices: [
          { id: 'G0' },
          ...Array.from({ length: line.steps.length + 1 }, (_, index) => ({ id: `S${index}` })),
        ],
        components,
        wires,
      },
    ],
  }
}
