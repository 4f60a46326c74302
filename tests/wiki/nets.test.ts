import { beforeAll, describe, expect, test } from 'vitest'
import { papersOf } from '../../src/sheets/papers.ts'
import { publishSite } from '../../src/wiki/publish-site.ts'
import type { SiteFile, SiteInput } from '../../src/wiki/site-input.ts'
import { siteMap } from '../../src/wiki/site-map.ts'
import { siteInput } from './site-parts.ts'

let input: SiteInput
let files: SiteFile[]
beforeAll(async () => {
  input = await siteInput()
  files = publishSite(input)
})
const contentOf = (path: string): string => files.find((file) => file.path === path)?.content ?? ''

/** What stands on a page between a net's heading and the next. */
function sectionOf(path: string, id: string): string {
  const [, after = ''] = contentOf(path).split(`<h2 id="${id}">`)
  return after.split('<h2 id=')[0] ?? ''
}

describe('the page of nets', () => {
  test('shows each wire on the one net it is part of, and each net where the map says', () => {
    const map = siteMap(input)
    for (const { loom } of input.looms)
      for (const net of loom.nets.filter(({ conductors }) => conductors.length > 0)) {
        const target = map.net(loom, net)
        const section = sectionOf(target?.path ?? '', target?.anchor ?? '')
        for (const wire of loom.conductors)
          expect(section.includes(`#wire-${wire.id}"`), `${wire.id} on ${net.name}`).toBe(
            net.conductors.includes(wire),
          )
      }
  })

  test('says what feeds a net and through which fuses, as the solver found', () => {
    let fed = 0
    const map = siteMap(input)
    for (const { loom, solution } of input.looms)
      for (const net of loom.nets) {
        const target = map.net(loom, net)
        const [first] = net.terminals
        if (!target || !first || solution.paths.nets.isGround(net)) continue
        const section = sectionOf(target.path, target.anchor ?? '')
        const supplies = solution.paths.supply.supplies(first)
        expect(section.split('<dt>Fed by</dt>').length - 1).toBe(supplies.length)
        for (const fuse of supplies.flatMap(({ fuses }) => fuses)) {
          fed++
          expect(section.includes(`#part-${fuse.id}"`), fuse.id).toBe(true)
        }
      }
    expect(fed).toBeGreaterThan(0)
  })

  test('asks every continuity step of the ring-out sheet on the net it proves', () => {
    const { loom, solution } = input.looms.find((job) => job.loom.id === 'van-7') ?? { loom: undefined }
    const use = loom?.looms.find(({ harness }) => harness.id === 'van')
    if (!loom || !use || !solution) throw new Error('the sample has no van')
    const sheet = papersOf(loom, use, solution).find(({ id }) => id === 'ring-out')
    const rows = sheet?.sections.find(({ title }) => title === 'Continuity')?.rows ?? []
    expect(rows.length).toBeGreaterThan(3)
    for (const { cells, address } of rows) {
      const terminal = loom.terminalAt.get(address ?? '')
      const net = terminal && loom.nets[loom.netOf[terminal.index] ?? -1]
      const target = net && siteMap(input).net(loom, net)
      expect(
        sectionOf(target?.path ?? '', target?.anchor ?? '').includes(
          `Step ${cells.step}: ${cells.a} to ${cells.b}`,
        ),
      ).toBe(true)
    }
  })

  test('is linked from the wires and the pinouts of a harness, and found by search', () => {
    const page = contentOf('harness/van.html')
    const links = page.match(/href="\.\.\/net\/installation-van-7\.html#net-[^"]+"/g) ?? []
    const wires = input.looms[0]?.loom.conductors.length ?? 0
    expect(links.length).toBeGreaterThan(wires)
    const data = JSON.parse(contentOf('assets/find-data.js').replace(/^window\.findData = /, ''))
    const net = data.kinds.indexOf('net')
    expect(data.rows.filter(([, kind]: [string, number]) => kind === net).length).toBeGreaterThan(3)
    for (const [, kind, pageNumber, hash] of data.rows) {
      expect(data.kinds[kind]).toBeDefined()
      const [path] = data.pages[pageNumber]
      expect(contentOf(path).includes(hash === '' ? '<h1' : `id="${hash}"`), `${path}#${hash}`).toBe(true)
    }
  })
})
