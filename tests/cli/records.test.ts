import { join } from 'node:path'
import { expect, test } from 'vitest'
import { builtCli } from './built-cli.ts'
import { tinyShop, writeShop } from './tiny-shop.ts'

const cli = builtCli()
const READINGS = `{
  "readings": 1,
  "installation": "LAMP",
  "asset": "Van 1",
  "date": "2026-03-01",
  "values": [
    { "limit": "LIMIT", "reading": "7 Ω" },
    { "limit": "check/shwon", "reading": "yes" },
    { "limit": "check/shown", "reading": 1e309 }
  ],
  "odometre": "3 km"
}
`

test('slips in a file of readings are told by file, line and column, and stop neither check nor build', async () => {
  const { installations = [] } = tinyShop()
  const dir = join(cli.scratch, 'records')
  writeShop(dir, { 'lamp.json': tinyShop() })
  const { writeFileSync } = await import('node:fs')
  const first = await cli.run(['build', '.', '--to', 'out'], { cwd: dir })
  expect(first.code).toBe(0)
  const { readFileSync } = await import('node:fs')
  const id = installations[0]?.id ?? ''
  const table = readFileSync(join(dir, 'out/record', `${id}.csv`), 'utf8')
  const limit = /^Supply,([^,]+\/rating|[^,]+\/volts\/[^,]+),/m.exec(table)?.[1] ?? 'none'
  writeFileSync(join(dir, 'van-1.readings.json'), READINGS.replace('LAMP', id).replace('LIMIT', limit))
  const ran = await cli.run(['check', '.'], { cwd: dir })
  expect(ran.code).toBe(0)
  expect(ran.out).toMatch(/van-1\.readings\.json:7:\d+ ·/)
  expect(ran.out).toContain('“Ω” is a unit of a resistance')
  expect(ran.out).toMatch(/van-1\.readings\.json:8:\d+ ·/)
  expect(ran.out).toContain('Did you mean “check/shown”?')
  expect(ran.out).toMatch(/van-1\.readings\.json:9:\d+ ·/)
  expect(ran.out).toMatch(/van-1\.readings\.json:11:3 ·/)
  const built = await cli.run(['build', '.', '--to', 'out'], { cwd: dir })
  expect(built.code).toBe(0)
  expect(readFileSync(join(dir, 'out/fleet.csv'), 'utf8')).toContain('Van 1')
})

test('the schema of readings is printed on request', async () => {
  const ran = await cli.run(['schema', '--readings'])
  expect(JSON.parse(ran.out)).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema' })
  expect(ran.out).toContain('"values"')
})
