import fc from 'fast-check'
import type { DocumentInput } from '../../src/describe/document.ts'

type Harness = NonNullable<DocumentInput['harnesses']>[number]
type Half = Harness['connectors'][number]
type Part = NonNullable<Harness['components']>[number]

/** Families with one pin and many; crimped, soldered, clamped and pierced; with a shell and without. */
const FAMILIES: readonly { half: Omit<Half, 'id'>; pins: readonly string[]; shell?: boolean }[] = [
  {
    half: { family: 'dsub-9', half: 'pin', contact: 'dsub-crimp-20' },
    pins: ['1', '2', '3', '6', '8'],
    shell: true,
  },
  {
    half: { family: 'dsub-9', half: 'socket', contact: 'dsub-solder' },
    pins: ['1', '2', '4', '7'],
    shell: true,
  },
  { half: { family: 'rect-power-2', half: 'socket' }, pins: ['1', '2'] },
  { half: { family: 'ring-m8', contact: 'ring-yellow' }, pins: ['1'] },
  { half: { family: 'screw-terminal-2' }, pins: ['1', '2'] },
  { half: { family: 'modular-8p8c', half: 'pin' }, pins: ['1', '2', '3', '4', '5', '6'] },
  { half: { family: 'xlr-3', half: 'pin' }, pins: ['1', '2', '3'] },
]

const PARTS = {
  fuse: { make: (id: string): Part => ({ kind: 'fuse', id, rating: '5 A' }), terminals: ['in', 'out'] },
  diode: { make: (id: string): Part => ({ kind: 'diode', id }), terminals: ['a', 'k'] },
  resistor: { make: (id: string): Part => ({ kind: 'resistor', id, ohms: '120 Ω' }), terminals: ['1', '2'] },
  capacitor: { make: (id: string): Part => ({ kind: 'capacitor', id }), terminals: ['1', '2'] },
} as const

const pick = <T>(list: readonly T[], index: number): T => list[index % list.length] as T
const number = fc.nat(10_000)

const wire = fc.record({
  from: number,
  to: number,
  size: fc.constantFrom('0.22 mm²', '0.5 mm²', '20 AWG', '1.5 mm²'),
  colour: fc.constantFrom('RD', 'BK', 'GNYE', 'WHBU', undefined),
  lengthMm: fc.option(fc.integer({ min: 30, max: 9000 }), { nil: undefined, freq: 8 }),
  pair: fc.option(fc.constantFrom('TP1', 'TP2'), { nil: undefined, freq: 3 }),
})

const shape = fc.record({
  plugs: fc.array(fc.record({ kind: fc.constantFrom(...FAMILIES), plugEmpty: fc.boolean() }), {
    minLength: 2,
    maxLength: 6,
  }),
  wires: fc.array(wire, { minLength: 1, maxLength: 14 }),
  splices: fc.nat(2),
  parts: fc.array(fc.constantFrom(...Object.values(PARTS)), { maxLength: 3 }),
  cable: fc.option(fc.record({ from: number, to: number, landed: fc.boolean() }), { nil: undefined }),
})

/** A harness of random shape with nothing mated: plugs, rings, splices, fuses, diodes, resistors, a screened cable. */
export const randomLoom: fc.Arbitrary<DocumentInput> = shape.map(
  ({ plugs, wires, splices, parts, cable }) => {
    const spliceIds = Array.from({ length: splices }, (_, index) => `SP${index}`)
    const places = [
      ...plugs.flatMap(({ kind }, index) => kind.pins.map((pin) => `P${index + 1}.${pin}`)),
      ...spliceIds,
      ...parts.flatMap(({ terminals }, index) => terminals.map((name) => `X${index}.${name}`)),
    ]
    // A conductor that ends where it starts is refused by the description.
    const ends = (from: number, to: number) => ({
      from: pick(places, from),
      to: pick(places, to) === pick(places, from) ? pick(places, to + 1) : pick(places, to),
    })
    const shell = plugs.findIndex(({ kind }) => kind.shell)
    const harness: Harness = {
      id: 'random',
      title: 'Random loom',
      revision: 'A',
      connectors: plugs.map(({ kind, plugEmpty }, index) => ({
        id: `P${index + 1}`,
        ...kind.half,
        plugEmpty,
      })),
      splices: spliceIds.map((id) => ({ id })),
      components: parts.map(({ make }, index) => make(`X${index}`)),
      wires: wires.map(({ from, to, size, colour, lengthMm, pair }, index) => ({
        id: `A${index + 1}`,
        ...ends(from, to),
        size,
        ...(colour === undefined ? {} : { colour }),
        ...(lengthMm === undefined ? {} : { length: `${lengthMm} mm` }),
        ...(pair === undefined ? {} : { pair }),
      })),
      cables: cable
        ? [
            {
              id: 'W1',
              part: 'screened-1x2x0.22',
              length: '2 m',
              cores: [
                { core: '1a', ...ends(cable.from, cable.to) },
                { core: '1b', ...ends(cable.from + 1, cable.to + 1) },
              ],
              shields: [
                { shield: 'screen', ...(cable.landed && shell >= 0 ? { from: `P${shell + 1}.shell` } : {}) },
              ],
            },
          ]
        : [],
    }
    return { loomwright: 1, harnesses: [harness] }
  },
)
