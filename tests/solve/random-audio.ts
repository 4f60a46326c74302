import fc from 'fast-check'
import type { DocumentInput } from '../../src/describe/document.ts'

type Content = Omit<DocumentInput, 'loomwright'>

/** An audio line of random shape: a source, a run of splices with wire, pads and coupling capacitors, and inputs on it. */
export interface RandomAudio {
  readonly hertz: number
  readonly sourceOhms: number
  readonly steps: readonly {
    readonly onto: number
    readonly mm: number
    readonly ohms?: number
    readonly nF?: number
  }[]
  readonly shunts: readonly { readonly at: number; readonly ohms: number }[]
  readonly inputs: readonly { readonly at: number; readonly ohms: number; readonly mm: number }[]
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
  shunts: fc.array(fc.record({ at: fc.nat(1000), ohms: fc.integer({ min: 100, max: 20_000 }) }), {
    maxLength: 2,
  }),
  inputs: fc.array(
    fc.record({
      at: fc.nat(1000),
      ohms: fc.integer({ min: 200, max: 100_000 }),
      mm: fc.integer({ min: 100, max: 9000 }),
    }),
    { minLength: 1, maxLength: 4 },
  ),
})

const ways = ['1', '2']

/** The description of a random audio line. */
export function describeAudio(line: RandomAudio): Content {
  const wires: NonNullable<NonNullable<Content['harnesses']>[number]['wires']> = []
  const components: NonNullable<NonNullable<Content['harnesses']>[number]['components']> = []
  const run = (from: string, to: string, mm: number): void => {
    wires.push({ id: `W${wires.length + 1}`, from, to, size: '0.22 mm²', length: `${mm} mm` })
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
  line.shunts.forEach(({ at, ohms }, index) => {
    components.push({ kind: 'resistor', id: `Y${index}`, ohms: `${ohms} Ω` })
    run(splice(at), `Y${index}.1`, 30)
    run(`Y${index}.2`, 'G0', 30)
  })
  line.inputs.forEach(({ at, mm }, index) => {
    run(splice(at), `I${index}.1`, mm)
    run('G0', `I${index}.2`, mm)
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
