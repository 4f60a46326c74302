import { execFileSync } from 'node:child_process'
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import {
  checkBans,
  checkImports,
  checkSizes,
  findCycles,
  machinePaths,
  type Sources,
  strayTopLevel,
} from './setup/architecture-rules.ts'
import { blankText, importsOf } from './setup/scan-source.ts'

const root = fileURLToPath(new URL('..', import.meta.url))

function filesUnder(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .map((name) => join(folder, name).split(sep).join('/'))
    .filter((path) => statSync(join(root, path)).isFile())
    .sort()
}

function readSources(): Sources {
  const paths = filesUnder('src').filter((path) => path.endsWith('.ts'))
  return new Map(paths.map((path) => [path, readFileSync(join(root, path), 'utf8')]))
}

function trackedFiles(): string[] {
  const listed = execFileSync('git', ['ls-files', '-z'], { cwd: root, encoding: 'utf8' })
  // A file deleted but not yet committed is still listed.
  return listed
    .split('\0')
    .filter((path) => path !== '' && statSync(join(root, path), { throwIfNoEntry: false }))
}

interface Manifest {
  dependencies: Record<string, string>
  devDependencies: Record<string, string>
}

function readDependencies(): Set<string> {
  const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as Manifest
  const types = Object.keys(manifest.devDependencies).filter((name) => name.startsWith('@types/'))
  return new Set([...Object.keys(manifest.dependencies), ...types])
}

describe('the source tree', () => {
  const sources = readSources()

  test('imports run one way, through the folders of the table', () => {
    expect(sources.size).toBeGreaterThan(1)
    expect(checkImports(sources, readDependencies())).toEqual([])
  })

  test('no files import each other in a circle', () => {
    expect(findCycles(sources).map((cycle) => cycle.join(' -> '))).toEqual([])
  })

  test('the core has no clock, chance, console or system, and no module keeps state', () => {
    expect(checkBans(sources)).toEqual([])
  })

  test('no source file is too long', () => {
    expect(checkSizes(sources)).toEqual([])
  })
})

describe('the repository', () => {
  const tracked = trackedFiles()

  test('holds only the agreed names at its top', () => {
    expect(tracked).toContain('package.json')
    expect(strayTopLevel(tracked)).toEqual([])
  })

  test("names no folder of anybody's machine", () => {
    const texts = tracked.filter((path) => path !== 'package-lock.json')
    const hits = texts.flatMap((path) => {
      const bytes = readFileSync(join(root, path))
      return bytes.includes(0) ? [] : machinePaths(path, bytes.toString('utf8'))
    })
    expect(hits).toEqual([])
  })

  test('pins every dependency to one version', () => {
    const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as Manifest
    const all = Object.entries({ ...manifest.dependencies, ...manifest.devDependencies })
    expect(all.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))).toEqual([])
  })
})

const installed = new Set([
  'zod',
  'elkjs',
  'svgdom',
  '@svgdotjs/svg.js',
  'handlebars',
  'unified',
  '@types/hast',
])

/** The errors for one file that stands beside an empty file in every folder. */
function errorsFor(path: string, text: string): string[] {
  const folders =
    'base describe catalogue author resolve solve check report draw sheets guide wiki read write cli'.split(
      ' ',
    )
  const sources = new Map(folders.map((folder) => [`src/${folder}/x.ts`, 'export const x = 1\n']))
  sources.set('src/index.ts', 'export {}\n')
  sources.set(path, text)
  return [...checkImports(sources, installed), ...checkBans(sources)]
}

describe('the rules themselves', () => {
  test.each([
    ['src/base/a.ts', "import { x } from '../describe/x.ts'", /base may not see describe/],
    ['src/solve/a.ts', "import type { X } from '../check/x.ts'", /solve may not see check/],
    ['src/draw/a.ts', "import { x } from '../report/x.ts'", /draw may not see report/],
    ['src/author/a.ts', "import { x } from '../resolve/x.ts'", /author may not see resolve/],
    ['src/check/a.ts', "import { x } from '../author/x.ts'", /check may not see author/],
    ['src/report/a.ts', "import { x } from '../draw/x.ts'", /report may not see draw/],
    ['src/guide/a.ts', "export { x } from '../report/x.ts'", /guide may not see report/],
    ['src/guide/a.ts', "const x = import('../wiki/x.ts')", /guide may not see wiki/],
    ['src/check/a.ts', "type X = import('../draw/x.ts').X", /check may not see draw/],
    ['src/read/a.ts', "import { x } from '../check/x.ts'", /may take only types/],
    ['src/write/a.ts', "import { x } from '../read/x.ts'", /write may not see read/],
    ['src/index.ts', "export { x } from './read/x.ts'", /index.ts may not see read/],
    ['src/base/a.ts', "import { x } from '../index.ts'", /base may not see index.ts/],
    ['src/misc/a.ts', 'export {}', /no folder or file 'misc'/],
    ['src/base/index.ts', 'export {}', /only src\/index.ts may be an index/],
    ['src/base/a.ts', "export * from './x.ts'", /re-exports everything/],
    ['src/base/a.ts', "import { x } from './x'", /file's ending/],
    ['src/base/a.ts', "import { x } from './gone.ts'", /not there/],
    ['src/base/a.ts', "import { x } from '../../tests/x.ts'", /only import from src/],
    ['src/check/a.ts', "import { readFileSync } from 'node:fs'", /run in a browser/],
    ['src/check/a.ts', "import { join } from 'path'", /run in a browser/],
    ['src/sheets/a.ts', "import Elk from 'elkjs/lib/elk.bundled.js'", /allowed in draw only/],
    ['src/wiki/a.ts', "import { SVG } from '@svgdotjs/svg.js'", /allowed in draw only/],
    ['src/cli/a.ts', "import { createSVGWindow } from 'svgdom'", /allowed in draw only/],
    ['src/draw/a.ts', "import Handlebars from 'handlebars'", /allowed in sheets, guide, wiki only/],
    ['src/check/a.ts', "import type { Root } from 'hast'", /allowed in sheets, guide, wiki only/],
    ['src/base/a.ts', "import pad from 'left-out'", /not in "dependencies"/],
    ['src/base/a.ts', "import { harness } from 'loomwright'", /own package name/],
    ['src/base/a.ts', 'export const a = () => process.env', /uses process/],
    ['src/base/a.ts', "console.log('a')", /uses console/],
    ['src/base/a.ts', 'export const a = () => Date.now()', /uses Date.now/],
    ['src/base/a.ts', 'export const a = new Date()', /uses new Date/],
    ['src/base/a.ts', 'export const a = `${Math.random()}`', /uses Math.random/],
    ['src/base/a.ts', 'setTimeout(() => {}, 1)', /uses setTimeout/],
    ['src/base/a.ts', 'list.sort((a, b) => a.id.localeCompare(b.id))', /locale left to the machine/],
    ['src/base/a.ts', 'let count = 0', /changeable state/],
    ['src/cli/a.ts', 'export let count = 0', /changeable state/],
  ])('%s: %s is refused', (path, text, message) => {
    const errors = errorsFor(path, `${text}\n`)
    expect(errors).toHaveLength(1)
    expect(errors[0]).toMatch(message)
  })

  test.each([
    ['src/wiki/a.ts', "import { x } from '../report/x.ts'\nimport { y } from '../guide/x.ts'"],
    [
      'src/write/a.ts',
      "import type { X } from '../check/x.ts'\nimport { writeFile } from 'node:fs/promises'",
    ],
    [
      'src/cli/a.ts',
      "import { x } from '../read/x.ts'\nconst now = new Date()\nconsole.log(process.pid, now)",
    ],
    ['src/draw/a.ts', "import Elk from 'elkjs/lib/elk.bundled.js'\nimport { x } from '../check/x.ts'"],
    ['src/index.ts', "export * from './wiki/x.ts'"],
    ['src/base/a.ts', "// import { x } from '../wiki/x.ts'\nexport const a = 'process.env, Date.now()'"],
    ['src/base/a.ts', 'export const a = /console.log(process.env)/\nfor (let i = 0; i < 1; i++) a.test("")'],
    ['src/base/a.ts', 'step.process.run()\nlist.sort((a, b) => f(a).localeCompare(f(b), "en"))'],
    ['src/wiki/a.ts', "import type { Root } from 'hast'"],
  ])('%s: %s is allowed', (path, text) => {
    expect(errorsFor(path, `${text}\n`)).toEqual([])
  })

  test('a circle is named file by file, types included', () => {
    const sources = new Map([
      ['src/base/a.ts', "import { b } from './b.ts'\n"],
      ['src/base/b.ts', "import type { C } from './c.ts'\n"],
      ['src/base/c.ts', "export { a } from './a.ts'\n"],
      ['src/base/d.ts', "import { a } from './a.ts'\n"],
    ])
    expect(findCycles(sources)).toEqual([
      ['src/base/a.ts', 'src/base/b.ts', 'src/base/c.ts', 'src/base/a.ts'],
    ])
    sources.set('src/base/c.ts', 'export {}\n')
    expect(findCycles(sources)).toEqual([])
  })

  test('a long file, a stray name and a machine path are found', () => {
    expect(checkSizes(new Map([['src/a.ts', 'x\n'.repeat(501)]]))).toHaveLength(1)
    expect(checkSizes(new Map([['src/a.ts', 'x\n'.repeat(500)]]))).toEqual([])
    expect(strayTopLevel(['src/a.ts', '.ci/run', 'notes.md', 'docs/a.md'])).toEqual(['docs', 'notes.md'])
    const path = ['', 'tmp', 'a.txt'].join('/')
    expect(machinePaths('a.md', `one\nsee ${path}\n`)).toEqual([`a.md:2 see ${path}`])
    expect(machinePaths('a.md', `https://example.org${path} and shop${path}`)).toEqual([])
  })

  test('imports are read from many lines, and not from strings', () => {
    const source =
      "import {\n  a,\n  type B,\n} from './b.ts'\nconst s = \"import x from './c.ts'\"\nimport './d.ts'\n"
    expect(importsOf(source).map(({ from, line }) => [from, line])).toEqual([
      ['./b.ts', 1],
      ['./d.ts', 6],
    ])
    expect(importsOf("import type from './t.ts'")[0]?.typeOnly).toBe(false)
    expect(importsOf("import type { T } from './t.ts'")[0]?.typeOnly).toBe(true)
  })

  test('blanking keeps the length and the code inside templates', () => {
    const source = 'const a = `x ${f({ b: `y ${c}` })} z` // end'
    const blanked = blankText(source)
    expect(blanked).toHaveLength(source.length)
    expect(blanked).toContain('f({ b: `')
    expect(blanked).not.toMatch(/[xyz]|end/)
  })
})
