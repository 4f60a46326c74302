import { execFileSync } from 'node:child_process'
import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { builtCli } from './built-cli.ts'
import { crossed, tinyShop, wireOf, writeShop } from './tiny-shop.ts'

const cli = builtCli()
const here = { count: 0, dir: '' }
beforeEach(() => {
  here.dir = join(cli.scratch, `case-${here.count++}`)
  mkdirSync(here.dir, { recursive: true })
})
const write = (files: Readonly<Record<string, unknown>>): string => writeShop(here.dir, files)
const run = (...args: string[]) => cli.run(args, { cwd: here.dir })
const git = (...args: string[]): string =>
  execFileSync(
    'git',
    [
      '-c',
      'user.name=A. Tester',
      '-c',
      'user.email=tester@example.org',
      '-c',
      'init.defaultBranch=main',
      ...args,
    ],
    { cwd: here.dir, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] },
  )
const commit = (files: Readonly<Record<string, unknown>>, message: string): void => {
  write(files)
  git('add', '-A')
  git('commit', '-q', '-m', message)
}
const leftovers = (): string[] =>
  readdirSync(tmpdir()).filter((name) => name.startsWith('loomwright-revision-'))

const longer = tinyShop((shop) => Object.assign(wireOf(shop, 1), { length: '2 m', colour: 'BN' }))
/** A description in TypeScript that leaves a mark when it runs. */
const running = (length: string, mark = ''): string => `import { asDocument } from 'loomwright'
${mark === '' ? '' : `import { writeFileSync } from 'node:fs'\nwriteFileSync(${JSON.stringify(mark)}, 'ran')\n`}
import { connector, harness, wire } from 'loomwright'
const R1 = connector('R1', 'ring-m6', 'genderless', { contact: 'ring-red' })
const R2 = connector('R2', 'ring-m6', 'genderless', { contact: 'ring-red' })
export const lead = harness('lead', { title: 'Lead', wires: [wire('A01', R1, R2, { size: '1 mm²', colour: 'BK', length: '${length}' })] })
void asDocument
`

describe('compare files', () => {
  test('two files, whatever their formatting: sentences, and status 0', async () => {
    write({ 'old.json': JSON.stringify(tinyShop()), 'new.json': longer })
    const ran = await run('compare', 'old.json', 'new.json')
    expect(ran).toMatchObject({ code: 0, err: '' })
    expect(ran.out).toBe(`Compared old.json with new.json.
Conductors: 1 changed. This change brings no new finding.

Harness lamp-lead, Lamp lead
  - Conductor A02: colour changes from RD red to BN brown; length changes from 1.5 m to 2 m.

Rework of built looms lamp-lead, Lamp lead
  [ ] Isolate the supply first: battery negative off, fuses out, nothing live on this loom.
  [ ] Replace A02 by BN brown, 1.5 mm² (≈16 AWG), 2 m: from F1-out to P1-1.
  [ ] Ring out A02: F1-out to P1-1 closed.
  [ ] Mark the loom as reworked and date it.
`)
    expect((await run('compare', 'old.json', 'old.json')).out).toMatch(/^Nothing changed in meaning\.$/m)
  })

  test('a new stop gives status 1, in every format; taking it away again gives 0', async () => {
    write({ 'old.json': tinyShop(), 'new.json': tinyShop(crossed) })
    for (const format of ['text', 'markdown', 'json', 'sarif', 'annotations'])
      expect((await run('compare', 'old.json', 'new.json', '-f', format)).code).toBe(1)
    expect((await run('compare', 'new.json', 'old.json')).code).toBe(0)
    expect((await run('compare', 'new.json', 'new.json')).code).toBe(0)
    const brought = await run('compare', 'old.json', 'new.json', '--baseline')
    expect(brought.out).toMatch(/^New findings\n {2}- STOP /m)
    expect(brought.out).not.toMatch(/Rework|Harness lamp-lead/)
  })

  test('JSON says where each change is written', async () => {
    write({ 'old.json': tinyShop(), 'new.json': longer })
    const data = JSON.parse((await run('compare', 'old.json', 'new.json', '-f', 'json')).out)
    const [subject] = data.subjects
    expect(subject.things[0]).toMatchObject({ kind: 'conductor', id: 'A02', change: 'altered' })
    const lines = readFileSync(join(here.dir, 'new.json'), 'utf8').split('\n')
    expect(lines[subject.things[0].at.line - 1]).toContain('"colour": "BN"')
    expect(data).toMatchObject({ changes: 1, bringsStop: false })
  })

  test('SARIF holds only what differs, on the changed line, with its state', async () => {
    write({ 'old.json': tinyShop(), 'new.json': tinyShop(crossed) })
    const log = JSON.parse((await run('compare', 'old.json', 'new.json', '-f', 'sarif')).out)
    const results = log.runs[0].results as {
      baselineState: string
      kind?: string
      locations: { physicalLocation: { artifactLocation: { uri: string }; region: { startLine: number } } }[]
    }[]
    const found = results.filter(({ kind }) => kind === undefined)
    expect(found.length).toBeGreaterThan(0)
    expect(found.map(({ baselineState }) => baselineState)).toContain('new')
    const lines = readFileSync(join(here.dir, 'new.json'), 'utf8').split('\n')
    const at = found[0]?.locations[0]?.physicalLocation
    expect(at?.artifactLocation.uri).toBe('new.json')
    expect(lines[(at?.region.startLine ?? 0) - 1]).toContain('"to": "P1.1"')
    const back = JSON.parse((await run('compare', 'new.json', 'old.json', '-f', 'sarif')).out)
    const states = back.runs[0].results.map((one: { baselineState: string }) => one.baselineState)
    expect(new Set(states)).toContain('absent')
  })

  test('annotations mark the changed line with what is new, and nothing else', async () => {
    write({ 'old.json': tinyShop(), 'new.json': tinyShop(crossed) })
    const back = await run('compare', 'new.json', 'old.json', '-f', 'annotations')
    expect(back).toMatchObject({ code: 0, out: '' })
    const { out } = await run('compare', 'old.json', 'new.json', '-f', 'annotations')
    expect(out).toMatch(/^::error file=new\.json,line=\d+,col=\d+,title=/)
  })

  test('HTML is one page that needs nothing else, and nothing typed is markup in it', async () => {
    const bad = '</script><img src=x onerror=alert(1)>'
    write({
      'old.json': tinyShop(),
      'new.json': tinyShop((shop) => Object.assign(wireOf(shop, 1), { to: 'P1.2', note: bad, label: bad })),
    })
    await run('compare', 'old.json', 'new.json', '-f', 'html', '--output', 'review.html')
    const page = readFileSync(join(here.dir, 'review.html'), 'utf8').replaceAll('&#x3D;', '=')
    expect(page).not.toContain('<img')
    expect(page).not.toMatch(/(src|href)="(?!#)/)
    expect(page).toContain('A02 WAS HERE')
    expect(page).toMatch(/script-src 'sha256-[A-Za-z0-9+/=]{44}'/)
  })

  test('what was typed cannot steer a terminal or a comment', async () => {
    const bad = '\u001b[31m**x** <img src=x> [y](javascript:z) |'
    write({
      'old.json': tinyShop(),
      'new.json': tinyShop((shop) =>
        Object.assign(wireOf(shop, 1), { note: 'x', label: '**x** <img src=x> [y](z:1)' }),
      ),
      'bad.json': tinyShop((shop) => Object.assign(wireOf(shop, 1), { note: bad })),
    })
    const markdown = (await run('compare', 'old.json', 'new.json', '-f', 'markdown')).out
    expect(markdown).not.toMatch(/<img|\*\*x\*\*|\]\(z/)
    for (const format of ['text', 'markdown', 'json'])
      expect((await run('compare', 'old.json', 'bad.json', '-f', format)).out).not.toContain('\u001b')
  })

  test('one side alone, a name that is nothing, and a result over a description', async () => {
    write({ 'old.json': tinyShop(), 'new.json': longer })
    expect(await run('compare', 'old.json')).toMatchObject({ code: 2, out: '' })
    const none = await run('compare', 'old.json', 'nwe.json')
    expect(none.code).toBe(2)
    expect(none.err).toMatch(/there is no file or folder “nwe\.json”/)
    expect((await run('compare', 'old.json', 'new.json', '--output', 'new.json')).code).toBe(2)
    write({ 'broken.json': '{ "loomwright": 1,' })
    const broken = await run('compare', 'old.json', 'broken.json')
    expect(broken.err).toMatch(/^broken\.json:1:\d+: in “broken\.json”: /)
  })
})

describe('compare git revisions', () => {
  const repository = (): void => {
    git('init', '-q')
    commit({ 'shop/lamp.json': tinyShop(), 'notes.txt': 'x' }, 'Describe the lamp lead')
    git('tag', 'v1')
    commit({ 'shop/lamp.json': longer }, 'Lengthen the lead')
  }

  test('a range, two names, a revision and a folder, from the top or from within', async () => {
    repository()
    const before = leftovers()
    const sentence = /Conductor A02: colour changes from RD red to BN brown/
    for (const args of [
      ['v1..HEAD', '--in', 'shop'],
      ['v1..', '--in', 'shop'],
      ['v1', 'HEAD', '--in', 'shop'],
      ['v1', 'shop'],
      ['v1...HEAD'],
    ]) {
      const ran = await run('compare', ...args)
      expect(ran.out).toMatch(sentence)
      expect(ran).toMatchObject({ code: 0, err: '' })
    }
    const within = await cli.run(['compare', 'v1..HEAD'], { cwd: join(here.dir, 'shop') })
    expect(within.out).toMatch(sentence)
    expect((await run('compare', 'HEAD', 'shop')).out).toMatch(/Nothing changed in meaning/)
    expect(leftovers()).toEqual(before)
    expect(git('status', '--porcelain')).toBe('')
  })

  test('places are those of the working tree', async () => {
    repository()
    const data = JSON.parse((await run('compare', 'v1..HEAD', '-f', 'json')).out)
    expect(data.subjects[0].things[0].at).toMatchObject({ file: 'shop/lamp.json', path: expect.any(Array) })
  })

  test('a branch against where it parted, and the first description of all', async () => {
    repository()
    git('checkout', '-q', '-b', 'side', 'v1')
    commit({ 'shop/lamp.json': tinyShop(crossed) }, 'Cross the wires')
    const ran = await run('compare', 'main...side', '--in', 'shop')
    expect(ran.code).toBe(1)
    expect(ran.out).not.toMatch(/colour/)
    const root = git('rev-list', '--max-parents=0', 'HEAD').trim()
    git('checkout', '-q', '--orphan', 'empty')
    git('rm', '-rq', '--cached', '.')
    git('commit', '-q', '--allow-empty', '-m', 'Nothing yet')
    const first = await run('compare', 'empty', root, '--in', 'shop')
    expect(first.out).toMatch(/Harness lamp-lead is added: Lamp lead, 3 conductors/)
  })

  test('TypeScript is read from a commit, with what it imports from beside it', async () => {
    git('init', '-q')
    commit(
      { 'a/lead.ts': running('1 m').replace("'1 m'", 'how'), 'b/how.ts': "export const how = '1 m'\n" },
      'One',
    )
    write({ 'a/lead.ts': `import { how } from '../b/how.ts'\n${running('1 m').replace("'1 m'", 'how')}` })
    commit({}, 'Two')
    commit({ 'b/how.ts': "export const how = '3 m'\n" }, 'Three')
    const ran = await run('compare', 'HEAD~1..HEAD', '--in', 'a')
    expect(ran.out).toMatch(/Conductor A01: length changes from 1 m to 3 m\./)
  })

  test('TypeScript that is no part of what is checked out does not run unless asked', async () => {
    git('init', '-q')
    commit({ 'lead.ts': running('1 m') }, 'One')
    const mark = join(here.dir, 'ran.txt')
    git('checkout', '-q', '-b', 'stranger')
    commit({ 'lead.ts': running('2 m', mark) }, 'From somebody else')
    git('checkout', '-q', 'main')
    const refused = await run('compare', 'main..stranger')
    expect(refused).toMatchObject({ code: 2, out: '' })
    expect(refused.err).toMatch(/“stranger” holds TypeScript and is no part of what is checked out/)
    expect(readdirSync(here.dir)).not.toContain('ran.txt')
    const apart = await run('compare', 'main..stranger', '--apart')
    expect(apart.code).toBe(2)
    expect(readdirSync(here.dir)).not.toContain('ran.txt')
    const asked = await run('compare', 'main..stranger', '--run-code')
    expect(asked.out).toMatch(/length changes from 1 m to 2 m/)
    expect(readdirSync(here.dir)).toContain('ran.txt')
  })

  test('a stranger’s harmless TypeScript is compared when it runs apart', async () => {
    git('init', '-q')
    commit({ 'lead.ts': running('1 m') }, 'One')
    git('checkout', '-q', '-b', 'stranger')
    commit({ 'lead.ts': running('2 m') }, 'From somebody else')
    git('checkout', '-q', 'main')
    const ran = await run('compare', 'main..stranger', '--apart')
    expect(ran.out).toMatch(/length changes from 1 m to 2 m/)
  })

  test('links in a commit are left out, and names cannot be options or commands', async () => {
    repository()
    symlinkSync('/etc', join(here.dir, 'shop/etc'))
    symlinkSync('/etc/passwd', join(here.dir, 'shop/passwd.json'))
    commit({}, 'Links out of the tree')
    expect((await run('compare', 'HEAD~1..HEAD')).out).toMatch(/Nothing changed in meaning/)
    const mark = join(here.dir, 'mark')
    for (const name of [
      '--output=mark',
      '-h',
      `$(touch ${mark})`,
      `;touch ${mark}`,
      'HEAD:shop',
      'a b',
      '@{-1}',
    ]) {
      const ran = await run('compare', '--', name, 'shop')
      expect(ran.code).toBe(2)
      expect(ran.err).toMatch(/^loomwright: /)
    }
    expect(readdirSync(here.dir)).not.toContain('mark')
  })

  test('hooks, filters and settings of the repository are not run', async () => {
    repository()
    const mark = join(here.dir, 'ran.txt')
    const script = join(here.dir, '.git/evil.sh')
    writeFileSync(script, `#!/bin/sh\ntouch ${mark}\ncat\n`, { mode: 0o755 })
    writeFileSync(join(here.dir, '.git/info/attributes'), '*.json filter=evil diff=evil\n')
    for (const key of [
      'filter.evil.smudge',
      'filter.evil.clean',
      'diff.evil.textconv',
      'core.fsmonitor',
      'core.pager',
      'core.sshCommand',
    ])
      git('config', key, script)
    expect((await run('compare', 'v1..HEAD')).code).toBe(0)
    expect(readdirSync(here.dir)).not.toContain('ran.txt')
  })

  test('no repository, and a commit that is not there', async () => {
    write({ 'old.json': tinyShop() })
    const outside = await cli.run(['compare', 'main..HEAD'], {
      cwd: here.dir,
      env: { GIT_CEILING_DIRECTORIES: tmpdir() },
    })
    expect(outside.err).toMatch(/this folder is not in a git repository/)
    git('init', '-q')
    commit({}, 'One')
    const unknown = await run('compare', 'nosuch..HEAD')
    expect(unknown).toMatchObject({ code: 2, out: '' })
    expect(unknown.err).toMatch(/“nosuch” is neither a file or folder nor a revision git knows/)
  })
})

describe('build --history', () => {
  test('a page for each harness with its revisions and what each commit changed, through a renaming', async () => {
    git('init', '-q')
    const first = tinyShop((shop) =>
      Object.assign(shop.harnesses[0] ?? {}, {
        revision: 'A',
        revisions: [{ revision: 'A', date: '2026-01-02', by: 'A. Tester', what: 'First plan.' }],
      }),
    )
    commit({ 'shop/lamp.json': first }, 'Describe <the> lead')
    commit({ 'shop/other.txt': 'x' }, 'Not about the lead')
    const second = structuredClone(first)
    Object.assign(wireOf(second, 1), { length: '2 m' })
    commit({ 'shop/lamp.json': second }, 'Lengthen the lead')
    const third = structuredClone(second)
    Object.assign(third.harnesses[0] ?? {}, { id: 'lamp-loom' })
    Object.assign(third.installations[0]?.looms?.[0] ?? {}, { of: 'lamp-loom' })
    commit({ 'shop/lamp.json': third }, 'Call it a loom')
    const fourth = structuredClone(third)
    Object.assign(wireOf(fourth, 2), { colour: 'BU', size: '10 mm²' })
    write({ 'shop/lamp.json': fourth })
    const ran = await run('build', 'shop', '--history', '5', '--allow-stops')
    expect(ran.code).toBe(0)
    const page = readFileSync(join(here.dir, 'out/history/lamp-loom.html'), 'utf8')
    const text = page.slice(page.indexOf('<main')).replace(/<[^>]+>/g, '')
    const order = [
      'First plan.',
      'Not committed yet',
      'Conductor A03: colour changes from BK black to BU blue; size changes from',
      'New or worse findings:',
      'STOP wire-fits-contact: A03',
      'Call it a loom',
      'Harness lamp-lead, now lamp-loom, Lamp lead.',
      'Lengthen the lead',
      'Conductor A02: length changes from 1.5 m to 2 m.',
      'Describe &lt;the&gt; lead',
      'Harness lamp-lead is added: Lamp lead, 3 conductors.',
    ].map((words) => [words, text.indexOf(words)] as const)
    expect(order.filter(([, at]) => at < 0)).toEqual([])
    expect(order).toEqual([...order].sort(([, a], [, b]) => a - b))
    expect(text).not.toContain('Not about the lead')
    expect(readFileSync(join(here.dir, 'out/harness/lamp-loom.html'), 'utf8')).toContain(
      '../history/lamp-loom.html',
    )
    expect(leftovers()).toEqual([])
  })

  test('without git, and without the option, only the written revisions', async () => {
    const shop = tinyShop((one) =>
      Object.assign(one.harnesses[0] ?? {}, {
        revisions: [{ revision: 'A', date: '2026-01-02', by: 'A. Tester', what: 'First plan.' }],
      }),
    )
    write({ 'lamp.json': shop })
    const outside = { cwd: here.dir, env: { GIT_CEILING_DIRECTORIES: tmpdir() } }
    for (const more of [[], ['--history', '3']]) {
      expect((await cli.run(['build', '.', ...more], outside)).code).toBe(0)
      const page = readFileSync(join(here.dir, 'out/history/lamp-lead.html'), 'utf8')
      expect(page).toContain('First plan.')
      expect(page).toContain('Not asked for')
    }
    for (const bad of ['0', '-1', 'all', '1e9'])
      expect((await run('build', '.', `--history=${bad}`)).code).toBe(2)
  })
})

describe('check --baseline', () => {
  const spoilt = (): ReturnType<typeof tinyShop> =>
    tinyShop((shop) => {
      crossed(shop)
      Object.assign(wireOf(shop, 1), { size: '10 mm²' })
    })
  const rules = (out: string): string[] => JSON.parse(out).findings.map((one: { rule: string }) => one.rule)

  test('against an earlier report, a folder and a revision: only what is new, and the status by it alone', async () => {
    git('init', '-q')
    commit({ 'shop/lamp.json': tinyShop(crossed) }, 'Faulty from the start')
    const all = await run('check', 'shop', '-f', 'json', '-o', 'report.json')
    expect(all.code).toBe(1)
    write({ 'old/lamp.json': tinyShop(crossed) })
    for (const baseline of ['report.json', 'old', 'HEAD'])
      expect(await run('check', 'shop', '--baseline', baseline, '-f', 'json')).toMatchObject({ code: 0 })
    write({ 'shop/lamp.json': spoilt() })
    for (const baseline of ['report.json', 'old', 'HEAD']) {
      const ran = await run('check', 'shop', '--baseline', baseline, '-f', 'json')
      expect(ran.code).toBe(1)
      expect(rules(ran.out)).toContain('wire-fits-contact')
      expect(rules(ran.out)).not.toContain('one-net-per-contact')
    }
    expect((await run('check', 'shop', '--baseline', 'nosuch')).code).toBe(2)
  })
})

describe('change sheets', () => {
  const issued = (revision: string, length: string, state = 'issued') =>
    tinyShop((shop) => {
      Object.assign(wireOf(shop, 1), { length })
      Object.assign((shop.harnesses ?? [])[0] ?? {}, { revision, state })
    })
  const sheet = () => readFileSync(join(here.dir, 'out/paper/lamp-lead-change-sheet.md'), 'utf8')

  test('from the last issue of a harness, past drafts, with both match codes and the work in order', async () => {
    git('init', '-q')
    commit({ 'shop/a.json': issued('A', '1.5 m') }, 'Issue A')
    commit({ 'shop/a.json': issued('B', '1.7 m', 'draft') }, 'Try')
    commit({ 'shop/a.json': issued('B', '2 m') }, 'Issue B')
    expect((await run('build', 'shop', '--history', '9', '--allow-stops')).code).toBe(0)
    const text = sheet().replaceAll('\\', '')
    const codes = /built to rev A, match (\w{4}-\w{4}): brings it to rev B, match (\w{4}-\w{4})/.exec(text)
    expect(codes?.[1]).not.toBe(codes?.[2])
    expect(text).toContain(`Match code: ${codes?.[2]}`)
    expect(text).toMatch(/Check the length of A02: 1.5 m before, 2 m now/)
    expect(text).not.toContain('1.7 m')
    expect(text.indexOf('Isolate the supply first')).toBeLessThan(text.indexOf('Check the length'))
    expect(text).toMatch(/Reworked by: ________/)
    const page = readFileSync(join(here.dir, 'out/paper/lamp-lead-change-sheet.html'), 'utf8')
    expect(page).toContain(codes?.[1] ?? '-')
    expect(readFileSync(join(here.dir, 'out/harness/lamp-lead.html'), 'utf8')).toContain(
      'lamp-lead-change-sheet.html',
    )
  })

  test('from a revision or folder that is named; none where nothing differs', async () => {
    git('init', '-q')
    commit({ 'shop/a.json': issued('A', '1.5 m', 'draft') }, 'Draft')
    write({ 'shop/a.json': issued('B', '2 m', 'draft') })
    expect((await run('build', 'shop', '--since', 'HEAD', '--allow-stops')).code).toBe(0)
    expect(sheet()).toContain('1.5 m before, 2 m now')
    write({ 'old/a.json': issued('B', '2 m', 'draft') })
    expect((await run('build', 'shop', '--since', 'old', '--allow-stops')).code).toBe(0)
    expect(() => sheet()).toThrow()
    expect((await run('build', 'shop', '--since', 'nowhere', '--allow-stops')).code).toBe(2)
  })

  test('compare prints them as Markdown', async () => {
    write({ 'old.json': issued('A', '1.5 m'), 'new.json': issued('B', '2 m') })
    const { out } = await run('compare', 'old.json', 'new.json', '--format', 'rework')
    expect(out).toMatch(/^# Change sheet: Lamp lead/)
    expect((await run('compare', 'old.json', 'old.json', '-f', 'rework')).out).toMatch(/^No harness/)
  })
})
