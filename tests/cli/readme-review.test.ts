import { execFile } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { builtCli } from './built-cli.ts'
import { tinyShop, wireOf } from './tiny-shop.ts'

/* The script for pull requests that the README prints, as printed, in a repository of its own with a stranger's branch. */

const run = promisify(execFile)
const top = fileURLToPath(new URL('../..', import.meta.url))
const cli = builtCli()
let here = ''

const script = (): string => {
  const found = /```sh\n(# review\.sh [\s\S]*?)```/.exec(readFileSync(join(top, 'README.md'), 'utf8'))?.[1]
  if (found === undefined) throw new Error('the README prints no review.sh')
  return found
}

const git = (...args: string[]) =>
  run('git', ['-c', 'user.name=A', '-c', 'user.email=a@example.org', ...args], { cwd: here })

async function commit(text: string, branch: string): Promise<void> {
  await git('checkout', '-q', '-B', branch)
  writeFileSync(join(here, 'harnesses/lamp.json'), text)
  await git('add', 'harnesses')
  await git('commit', '-q', '-m', branch)
}

beforeAll(async () => {
  here = mkdtempSync(join(tmpdir(), 'review-'))
  mkdirSync(join(here, 'harnesses'))
  mkdirSync(join(here, 'node_modules/.bin'), { recursive: true })
  writeFileSync(join(here, 'node_modules/.bin/loomwright'), `#!/bin/sh\nexec node '${cli.main}' "$@"\n`, {
    mode: 0o755,
  })
  writeFileSync(join(here, 'review.sh'), script())
  await git('init', '-q')
  const shop = tinyShop()
  await commit(JSON.stringify(shop, undefined, 2), 'trusted')
  Object.assign(wireOf(shop, 1), { size: '10 mm²' })
  await commit(JSON.stringify(shop, undefined, 2), 'proposed')
  await git('checkout', '-q', 'trusted')
})

afterAll(() => rmSync(here, { recursive: true, force: true }))

const review = (env: Record<string, string>) =>
  run('bash', ['review.sh', 'trusted', 'proposed'], { cwd: here, env: { ...process.env, ...env } }).then(
    ({ stdout }) => ({ code: 0, out: stdout }),
    (error: { code: number; stdout: string; stderr: string }) => ({
      code: error.code,
      out: error.stdout,
      err: error.stderr,
    }),
  )

test('prints marks and the summary, writes the page, and ends with 1 for a new stop', async () => {
  const { code, out } = await review({ COMMENT_URL: '' })
  expect(code).toBe(1)
  expect(out).toMatch(/^::error file=harnesses\/lamp\.json,line=\d+,/m)
  expect(out).toContain('### Harness changes')
  expect(readFileSync(join(here, 'review.html'), 'utf8')).toContain('<svg')
  expect(JSON.parse(readFileSync(join(here, 'review.sarif'), 'utf8'))).toMatchObject({ version: '2.1.0' })
})

test('posts the summary where comments are taken', async () => {
  const taken: { body: string; token: string | undefined }[] = []
  const server = createServer((request, response) => {
    let body = ''
    request.on('data', (part) => (body += part))
    request.on('end', () => {
      taken.push({ body: JSON.parse(body).body, token: request.headers.authorization })
      response.writeHead(201).end()
    })
  })
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  try {
    const { port } = server.address() as AddressInfo
    const { code, out } = await review({
      COMMENT_URL: `http://127.0.0.1:${port}/comments`,
      COMMENT_TOKEN: 'secret',
    })
    expect(code).toBe(1)
    expect(out).not.toContain('secret')
    expect(taken).toEqual([{ body: readFileSync(join(here, 'review.md'), 'utf8'), token: 'Bearer secret' }])
  } finally {
    server.close()
  }
})
