import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

const root = fileURLToPath(new URL('../..', import.meta.url))

/** Compiles a description by itself and gives the compiler's messages by line. */
function compile(text: string): Map<number, string> {
  const folder = mkdtempSync(join(tmpdir(), 'types-'))
  try {
    writeFileSync(join(folder, 'job.ts'), text)
    const options = { types: [], paths: { loomwright: [join(root, 'src/index.ts')] }, noUnusedLocals: false }
    const config = {
      extends: join(root, 'tsconfig.json'),
      compilerOptions: options,
      include: ['job.ts'],
      exclude: [],
    }
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify(config))
    const out = run(folder)
    const rows = [...out.matchAll(/job\.ts\((\d+),\d+\): error TS\d+: (.*)/g)]
    return new Map(rows.map((row) => [Number(row[1]), row[2] ?? '']))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

function run(folder: string): string {
  try {
    return execFileSync(process.execPath, [join(root, 'node_modules/typescript/bin/tsc'), '-p', folder], {
      encoding: 'utf8',
    })
  } catch (error) {
    return String((error as { stdout: unknown }).stdout)
  }
}

const opening = `import { cable, connector, equipment, fuse, harness, installation, jack, loom, mate, part, plug, relay, splice, unit, wire } from 'loomwright'
const radio = equipment('mobile-40', { title: 'Radio', connectors: [
  jack('J1', 'rect-power-2', 'pin', { 1: { kind: 'supply-in', volts: '10.8..15.6 V', amps: { transmit: '12 A' } } }),
  jack('J2', 'dsub-25', 'socket', { 1: { name: 'SPK+' }, 14: { kind: 'audio-out', level: 'speaker' }, shell: { kind: 'shield' } }),
] })
const battery = equipment('battery', { title: 'Battery', connectors: [jack('POS', 'stud-m8', 'genderless', { 1: { kind: 'supply-out' } })] })
const block = part.connector('block-4', { title: 'Block', pins: ['A', 'B'], style: 'terminal', shell: true })
const duo = part.cable('duo', { title: 'Duo', cores: [{ name: 'tip', size: '0.22 mm²' }, { name: 'ring', size: '0.22 mm²' }], shields: [{ name: 'braid' }] })
const P1 = plug('P1', radio.at('J1'))
const P2 = connector('P2', 'dsub-25', 'pin', { fits: radio.at('J2'), contact: 'dsub-crimp-20' })
const R1 = plug('R1', battery.at('POS'), { family: 'ring-m8' })
const X1 = connector('X1', block)
const F1 = fuse('F1')
const K1 = relay('K1')
const SP1 = splice('SP1')
const head = harness('head', { title: 'Head', connectors: [P1, P2] })
const main = loom('main', head)
const rad = unit('radio', radio)
`

// Each row: one line of a description, and what the compiler says about it; nothing where it is right.
const rows: readonly (readonly [line: string, message?: string])[] = [
  ["wire('A1', R1, F1.in, { size: '6 mm²', colour: 'RD', length: '0.4 m' })"],
  ["wire('A1', F1.out, P1.pin(1), { size: '18 AWG', colour: 'WHBU', length: '5 ft' })"],
  ["wire('A1', P2.p[1], X1.pin('shell'), { size: '1.5 mm2' })"],
  ["wire('A1', K1[86], SP1)"],
  ["const spk: 'SPK+' | undefined = P2.p[1].does"],
  ["const out: 'audio-out' | undefined = P2.pin('14').does"],
  ['const none: undefined = P2.p[3].does'],
  [
    "cable('W1', 'mic-2x0.22', { cores: { 1: [P2.pin(1), SP1] }, shields: { screen: { from: P2.p.shell } } })",
  ],
  ["cable('W1', duo, { cores: { tip: [P2.pin(1), SP1] }, shields: { braid: { to: SP1 } } })"],
  [
    "installation('i', { title: 'I', units: [rad], looms: [main], mates: [mate(main.at('P1'), rad.at('J1'))] })",
  ],
  [
    "equipment('e', { title: 'E', connectors: [jack('J', block, 'pin', { A: {} })], joins: [{ pins: ['J.A', 'J.B'] }] })",
  ],
  [
    "P2.pin('26')",
    'Argument of type \'"26"\' is not assignable to parameter of type \'"connector P2 has no pin 26"\'.',
  ],
  [
    'P2.pin(26)',
    "Argument of type '26' is not assignable to parameter of type '\"connector P2 has no pin 26\"'.",
  ],
  ['P2.p.SPK', "Property 'SPK' does not exist on type "],
  ["X1.pin('C')", 'is not assignable to parameter of type \'"connector X1 has no pin C"\'.'],
  ["R1.pin('2')", 'is not assignable to parameter of type \'"connector R1 has no pin 2"\'.'],
  ["F1.pin('inn')", 'is not assignable to parameter of type \'"fuse F1 has no terminal inn"\'.'],
  [
    "connector('P3', 'dsub-52', 'pin')",
    'is not assignable to parameter of type \'"no connector family is called dsub-52"\'.',
  ],
  [
    "plug('P3', radio.at('J3'))",
    'is not assignable to parameter of type \'"equipment mobile-40 has no connector J3"\'.',
  ],
  ["main.at('P9')", 'is not assignable to parameter of type \'"loom main has no connector P9"\'.'],
  ["rad.at('J9')", 'is not assignable to parameter of type \'"unit radio has no connector J9"\'.'],
  [
    "jack('J9', 'dsub-9', 'pin', { 1: {}, 10: {} })",
    "Type '{}' is not assignable to type '\"dsub-9 has no pin 10\"'.",
  ],
  ["jack('J9', 'dsub-9', 'pin', { 1: { kind: 'retrun' } })", 'Did you mean \'"return"\'?'],
  [
    "jack('J9', 'dsub-9', 'pn', {})",
    "Argument of type '\"pn\"' is not assignable to parameter of type 'HalfName'.",
  ],
  [
    "equipment('e', { title: 'E', connectors: [jack('J', block, 'pin', {})], joins: [{ pins: ['J.A', 'J.D'] }] })",
    'Type \'"J.D"\' is not assignable to type \'"J.A" | "J.B" | "J.shell"\'.',
  ],
  [
    "cable('W2', 'mic-2x0.22', { cores: { 1: [SP1, SP1], 3: [SP1, SP1] } })",
    '"cable mic-2x0.22 has no core 3"',
  ],
  ["cable('W2', 'mic-2x0.2', { cores: {} })", '"no cable is called mic-2x0.2"'],
  [
    "wire('A1', SP1, SP1, { size: '0.76 mm²' })",
    "Type '\"0.76 mm²\"' is not assignable to type 'WireSize | undefined'. Did you mean '\"0.75 mm²\"'?",
  ],
  ["wire('A1', SP1, SP1, { size: '19.5 AWG' })", "is not assignable to type 'WireSize | undefined'."],
  ["wire('A1', SP1, SP1, { colour: 'RED' })", "is not assignable to type 'Colour | undefined'."],
  ["wire('A1', SP1, SP1, { colour: 'YEGN' })", "is not assignable to type 'Colour | undefined'."],
  [
    "wire('A1', SP1, SP1, { length: 3 })",
    "Type 'number' is not assignable to type '`${number} cm` | `${number} ft` | `${number} in` | `${number} m` | `${number} mm` | undefined'.",
  ],
  ["wire('A1', SP1, SP1, { length: '3' })", "Type '\"3\"' is not assignable to type '`${number} cm`"],
  ["wire('A1', SP1, SP1, { lenght: '3 m' })", "Did you mean to write 'length'?"],
  ["wire('A1', 'P2.1', SP1)", "Argument of type 'string' is not assignable to parameter of type 'End'."],
  ["wire('A1', P2, SP1)", "is missing the following properties from type 'End': address, owner"],
]

test('a slip of the pen is a compile-time error that says what is wrong; what is right compiles', () => {
  const offset = opening.split('\n').length
  const messages = compile(opening + rows.map(([line]) => line).join('\n'))
  const told = rows.map(([line], index) => [line, messages.get(offset + index)])
  expect(told).toEqual(
    rows.map(([line, message]) => [
      line,
      message === undefined ? undefined : expect.stringContaining(message),
    ]),
  )
  expect(messages.size).toBe(rows.filter(([, message]) => message !== undefined).length)
})
