import { execFileSync } from 'node:child_process'
import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { replaceTexts } from '../../src/write/replace-text.ts'
import { builtCli } from './built-cli.ts'
import { tinyShop, writeShop } from './tiny-shop.ts'

const cli = builtCli()
const fresh = (name: string): string => mkdtempSync(join(cli.scratch, `${name}-`))

/** The tiny shop with a lamp that its fuse does not carry for long. */
const spoilt = () =>
  tinyShop((shop) => {
    const pin = shop.equipment[1]?.connectors[0]?.pins['1']
    if (pin?.kind === 'supply-in') pin.amps = { off: '0 A', standby: '4.5 A' }
  })

/** As a person might keep it: tabs, comments, a trailing comma. */
const typed = (): string =>
  JSON.stringify(spoilt(), null, '\t')
    .replace('"part": "blade-5"', '"part": "blade-5", // from the drawer')
    .replace('"title": "Lamp lead",', '"title": "Lamp lead", /* HT-7 */')

const mended = (text: string): string => text.replace('blade-5"', 'blade-7.5"')

const LEVELS = ['fuse-loaded', 'F1 to 7.5 A'] as const

describe('check --mend on JSON', () => {
  test.each([
    ['tabs and comments', typed()],
    ['line ends of two characters', typed().replaceAll('\n', '\r\n')],
    ['a byte order mark', `\ufeff${typed()}`],
    ['one long line', JSON.stringify(spoilt())],
  ])('changes the one value and no other byte: %s', async (_, text) => {
    const shop = writeShop(fresh('mend'), { 'van.json': text })
    const { code, out, err } = await cli.run(['check', '.', '--mend'], { cwd: shop })
    expect(err).toBe('')
    expect(code).toBe(0)
    for (const words of LEVELS) expect(out).toContain(words)
    expect(out).toContain('"blade-5" becomes "blade-7.5"')
    expect(out).toMatch(/Checked again: \d+ findings? gone, nothing new came\./)
    expect(readFileSync(join(shop, 'van.json'), 'utf8')).toBe(mended(text))
    expect(readdirSync(shop)).toEqual(['van.json'])
  })

  test('done twice changes nothing the second time', async () => {
    const shop = writeShop(fresh('twice'), { 'van.json': typed() })
    await cli.run(['check', '.', '--mend'], { cwd: shop })
    const file = join(shop, 'van.json')
    const before = { text: readFileSync(file, 'utf8'), facts: statSync(file) }
    const { out } = await cli.run(['check', '.', '--mend'], { cwd: shop })
    expect(out).toContain('There is nothing to mend for certain.')
    expect(readFileSync(file, 'utf8')).toBe(before.text)
    expect(statSync(file).ino).toBe(before.facts.ino)
    expect(statSync(file).mtimeMs).toBe(before.facts.mtimeMs)
  })

  test('keeps the rights of the file', async () => {
    const shop = writeShop(fresh('rights'), { 'van.json': typed() })
    chmodSync(join(shop, 'van.json'), 0o640)
    await cli.run(['check', '.', '--mend'], { cwd: shop })
    expect(statSync(join(shop, 'van.json')).mode & 0o777).toBe(0o640)
  })

  test('leaves a read-only file alone and says so', async () => {
    const shop = writeShop(fresh('locked'), { 'van.json': typed() })
    chmodSync(join(shop, 'van.json'), 0o444)
    const { code, err } = await cli.run(['check', '.', '--mend'], { cwd: shop })
    expect(code).toBe(2)
    expect(err).toContain('van.json is read-only, so it was left alone')
    expect(readFileSync(join(shop, 'van.json'), 'utf8')).toBe(typed())
  })

  test.each([
    ['plain', typed()],
    ['with a byte order mark and long line ends', `\ufeff${typed().replaceAll('\n', '\r\n')}`],
  ])('with --dry-run writes nothing and prints a patch that git takes: %s', async (_, text) => {
    const shop = writeShop(fresh('dry'), { 'van.json': text })
    const { out } = await cli.run(['check', '.', '--mend', '--dry-run'], { cwd: shop })
    expect(readFileSync(join(shop, 'van.json'), 'utf8')).toBe(text)
    writeFileSync(join(shop, 'mend.patch'), out)
    execFileSync('git', ['apply', '--whitespace=nowarn', 'mend.patch'], { cwd: shop, stdio: 'pipe' })
    expect(readFileSync(join(shop, 'van.json'), 'utf8')).toBe(mended(text))
  })

  test('gives findings with their edits as data', async () => {
    const shop = writeShop(fresh('data'), { 'van.json': typed() })
    const { out } = await cli.run(['check', '.', '--mend', '--dry-run', '-f', 'json'], { cwd: shop })
    const report = JSON.parse(out) as { findings: { rule: string; edit?: { changes: unknown[] } }[] }
    const finding = report.findings.find(({ rule }) => rule === 'fuse-loaded')
    expect(finding?.edit?.changes).toEqual([
      {
        doc: 'van.json',
        at: expect.objectContaining({ file: 'van.json', path: ['harnesses', 0, 'components', 0, 'part'] }),
        value: 'blade-7.5',
      },
    ])
  })

  test.each([
    [['--dry-run'], '--dry-run goes with --mend'],
    [['--mend', '--format', 'sarif'], '--mend cannot print sarif'],
    [['--mend', '--baseline', 'HEAD'], 'it takes no --baseline'],
  ])('refuses %j', async (options, words) => {
    const shop = writeShop(fresh('refuse'), { 'van.json': typed() })
    const { code, err } = await cli.run(['check', '.', ...options], { cwd: shop })
    expect(code).toBe(2)
    expect(err).toContain(words)
  })
})

/** The tiny shop in code, with a helper that makes one of its wires. */
const CODE = `import { connector, equipment, fuse, harness, installation, loom, plug, unit, wire } from 'loomwright'

const battery = equipment('battery-12', {
  title: 'Battery',
  role: 'battery',
  connectors: [
    { id: 'PLUS', family: 'stud-m6', pins: { 1: { kind: 'supply-out', name: '+', volts: '12.0..14.4 V', battery: true, capacity: '60 Ah' } } },
    { id: 'MINUS', family: 'stud-m6', pins: { 1: { kind: 'return', name: '-' } } },
  ],
})
const lamp = equipment('lamp', {
  title: 'Work lamp',
  role: 'load',
  connectors: [
    { id: 'J1', family: 'rect-power-2', half: 'pin', view: 'wire-entry', record: 'maker',
      pins: { 1: { kind: 'supply-in', name: '+', port: 'dc', volts: '10..15 V', amps: { off: '0 A', standby: '4.5 A' } }, 2: { kind: 'return', name: '-', port: 'dc' } } },
  ],
})
const X1 = connector('X1', 'ring-m6', 'genderless', { fits: battery.at('PLUS'), contact: 'ring-blue', label: 'PLUS' })
const X2 = connector('X2', 'ring-m6', 'genderless', { fits: battery.at('MINUS'), contact: 'ring-blue', label: 'MINUS' })
const P1 = plug('P1', lamp.at('J1'), { contact: 'rect-power', view: 'wire-entry', label: 'LAMP' })
const F1 = FUSE
const red = (id: string, from: typeof X1, to: typeof F1.in) =>
  wire(id, from, to, { size: '1.5 mm²', colour: 'RD', length: '0.1 m', part: 'vehicle-thin-wall' })
export const lead = harness('lamp-lead', {
  title: 'Lamp lead',
  wires: [
    red('A01', X1, F1.in),
    wire('A02', F1.out, P1.pin(1), { size: '1.5 mm²', colour: 'RD', length: '1.5 m', part: 'vehicle-thin-wall' }),
    wire('A03', X2, P1.pin(2), { size: '1.5 mm²', colour: 'BK', length: '1.6 m', part: 'vehicle-thin-wall' }),
  ],
})
export const van = installation('van', {
  title: 'Van',
  supply: '13.8 V',
  units: [unit('battery', battery), unit('lamp', lamp)],
  looms: [loom('lead', lead)],
})
`
const written = CODE.replace('FUSE', 'fuse(\'F1\', { part: "blade-5" })')
const named = CODE.replace('FUSE', "fuse('F1', { part: small })").replace(
  'const battery',
  "const small = 'blade-5'\n\nconst battery",
)

describe('check --mend on TypeScript', () => {
  test('prints a patch that git takes, and after it the finding is gone', async () => {
    const shop = writeShop(fresh('code'), { 'van.ts': written })
    const before = await cli.run(['check', '.'], { cwd: shop })
    expect(before.out).toContain('fuse-loaded')
    const { out } = await cli.run(['check', '.', '--mend'], { cwd: shop })
    expect(out).toContain('the patch below makes the changes (1)')
    expect(readFileSync(join(shop, 'van.ts'), 'utf8')).toBe(written)
    const dry = await cli.run(['check', '.', '--mend', '--dry-run'], { cwd: shop })
    writeFileSync(join(shop, 'mend.patch'), dry.out)
    execFileSync('git', ['apply', 'mend.patch'], { cwd: shop, stdio: 'pipe' })
    expect(readFileSync(join(shop, 'van.ts'), 'utf8')).toBe(written.replace('"blade-5"', '"blade-7.5"'))
    const after = await cli.run(['check', '.'], { cwd: shop })
    expect(after.out).not.toContain('fuse-loaded')
  })

  test('says the edit in words where the value has no place of its own', async () => {
    const shop = writeShop(fresh('words'), { 'van.ts': named })
    const { out } = await cli.run(['check', '.', '--mend', '--dry-run'], { cwd: shop })
    expect(out).toContain('to be changed by hand (1)')
    expect(out).toMatch(/van\.ts:\d+:\d+ · part: "blade-5" becomes "blade-7\.5"/)
    expect(out).not.toContain('+++ ')
  })

  test('does not patch a literal that serves several things', async () => {
    const twice = written
      .replace(
        'const F1 = fuse(',
        'const guard = (id: string) => fuse(id, { part: "blade-5" })\nconst F1 = (',
      )
      .replace(/\('F1', \{ part: "blade-5" \}\)/, "guard('F1')")
      .replace('wires: [', "components: [guard('F2')],\n  wires: [")
    const shop = writeShop(fresh('shared'), { 'van.ts': twice })
    const { out } = await cli.run(['check', '.', '--mend', '--dry-run'], { cwd: shop })
    expect(out).toContain('F1 to 7.5 A')
    expect(out).not.toContain('+++ ')
  })
})

describe('replacing texts', () => {
  const folder = () =>
    writeShop(fresh('replace'), { 'in/a.json': 'old', 'in/b.json': 'old', 'out.json': 'old' })
  const one = (root: string, name: string, before = 'old') => ({
    path: join(root, name),
    file: name,
    before,
    after: 'new',
  })

  test('refuses all when one has changed since it was read', async () => {
    const root = folder()
    writeFileSync(join(root, 'in/b.json'), 'newer')
    await expect(replaceTexts([one(root, 'in/a.json'), one(root, 'in/b.json')], root)).rejects.toThrow(
      'in/b.json has changed since it was read, so it was left alone',
    )
    expect(readFileSync(join(root, 'in/a.json'), 'utf8')).toBe('old')
  })

  test('refuses what lies outside the shop, also through a link', async () => {
    const root = folder()
    const shop = join(root, 'in')
    symlinkSync(join(root, 'out.json'), join(shop, 'link.json'))
    for (const name of ['out.json', 'in/link.json'])
      await expect(replaceTexts([one(root, name)], shop)).rejects.toThrow('not in the shop’s folder')
    expect(readFileSync(join(root, 'out.json'), 'utf8')).toBe('old')
  })

  test('says what the system says', async () => {
    const root = folder()
    await expect(replaceTexts([one(root, 'in/gone.json')], root)).rejects.toThrow('cannot write in/gone.json')
  })
})
