import { describe, expect, test } from 'vitest'
import type { Loom, LoomUse } from '../../src/resolve/loom.ts'
import { openSite, type Site } from '../../src/wiki/page.ts'
import { pathData, pathMarkup, type StepData } from '../../src/wiki/path-data.ts'
import { type PathStep, pathSteps } from '../../src/wiki/path-steps.ts'
import { job, jobIds } from '../demos/demo-shop.ts'
import { siteInput } from './site-parts.ts'
import { twoLooms } from './two-looms.ts'

/** Terminals a step touches: those of contacts, both ends of what is gone along. */
function ends(step: PathStep) {
  if (step.kind === 'pins') return [...step.terminals]
  if (step.kind === 'through') return [step.link.a, step.link.b]
  return [step.conductor.from, step.conductor.to].filter((end) => end !== undefined)
}

describe.each(jobIds)('the ways of %s', (id) => {
  const { loom } = job(id)
  const circuits = loom.circuits
    .map((circuit) => pathSteps(loom, circuit))
    .filter((steps) => steps.length > 0)

  test('hold every conductor and every pin with a conductor once', () => {
    const steps = circuits.flat()
    const conductors = steps.flatMap((step) => (step.kind === 'conductor' ? [step.conductor.address] : []))
    const landed = loom.conductors.filter(({ from, to }) => from ?? to)
    expect(conductors.sort()).toEqual(landed.map(({ address }) => address).sort())
    const pins = steps.flatMap((step) => (step.kind === 'pins' ? step.terminals.map((t) => t.address) : []))
    expect(new Set(pins).size).toBe(pins.length)
    for (const { from, to } of landed)
      for (const end of [from, to]) if (end) expect(pins).toContain(end.address)
  })

  test('go on only where metal or a fuse does', () => {
    for (const steps of circuits)
      for (const [index, step] of steps.entries()) {
        const parent = steps[step.parent]
        expect(step.parent).toBeLessThan(index)
        if (!parent) expect(index).toBe(0)
        else expect(ends(parent).some((end) => ends(step).includes(end))).toBe(true)
        for (const end of step.kind === 'through' ? [] : ends(step))
          expect(loom.netOf[end.index]).toBe(step.net)
      }
  })
})

/** The words from the start of a circuit through a thing to the only end, as a page says them. */
function trail(site: Site, path: string, loom: Loom, own: LoomUse | undefined, address: string): string[] {
  const { circuits } = pathData(site, path, loom, own)
  for (const steps of circuits) {
    let at = steps.findIndex((step) => step[4].includes(address))
    if (at < 0) continue
    for (;;) {
      const next = steps.findIndex((step) => step[0] === at)
      if (next < 0) break
      at = next
    }
    const words: string[] = []
    for (let step: StepData | undefined = steps[at]; step; step = steps[step[0]]) words.unshift(step[2])
    return words.filter((one) => one !== '')
  }
  return []
}

describe('two looms that are mated', () => {
  const open = async (word?: string) => {
    const input = await siteInput(twoLooms(word))
    const loom = input.looms.find((one) => one.loom.kind === 'installation')?.loom
    if (!loom) throw new Error('no installation')
    return { site: openSite(input), loom, front: loom.looms[0] }
  }

  test('are one way, told from what drives it to the far end', async () => {
    const { site, loom, front } = await open()
    expect(trail(site, 'installation/van.html', loom, undefined, 'one.A4')).toEqual([
      'radio J1/one P1 pin 3 (SPK+)',
      'one A4 · WHBU white and blue · 0.75 mm² (≈18 AWG) · 1.2 m',
      'one X2A/two X2B pin 1',
      'two B1 · WH white · 0.75 mm² (≈18 AWG) · 3 m',
      'two S1/horn T pin 1 (SPK in+)',
    ])
    expect(trail(site, 'harness/front.html', loom, front, 'one.A4').slice(0, 3)).toEqual([
      'radio J1/P1 pin 3 (SPK+)',
      'A4 · WHBU white and blue · 0.75 mm² (≈18 AWG) · 1.2 m',
      'X2A/two X2B pin 1',
    ])
    expect(trail(site, 'harness/front.html', loom, front, 'one.P1.1').slice(1, 4)).toEqual([
      'A1 · RD red · 1 mm² (18–16 AWG) · 300 mm',
      'through fuse F1',
      'A2 · RD red · 1 mm² (18–16 AWG) · 2 m',
    ])
  })

  test('link to the page where the way goes on, and to the job', async () => {
    const { site, loom, front } = await open()
    const data = pathData(site, 'harness/front.html', loom, front)
    const hrefs = new Map(
      data.circuits.flat().flatMap((step) => step[4].map((address) => [address, step[5]])),
    )
    expect(hrefs.get('one.A4')).toBe('')
    expect(hrefs.get('two.B1')).toBe('../harness/rear.html#wire=B1')
    expect(hrefs.get('horn.T.1')).toBe('../equipment/speaker.html#pin-T__1')
    expect(data.whole).toEqual(['../installation/van.html', 'Van SPK'])
    expect(data.own).toBe('one.')
  })

  test('bring only the ways that touch the page', async () => {
    const { site, loom } = await open()
    const rear = loom.looms[1]
    const addresses = pathData(site, 'harness/rear.html', loom, rear)
      .circuits.flat()
      .flatMap((step) => step[4])
    expect(addresses).toContain('one.A4')
    expect(addresses).not.toContain('one.A2')
  })

  test('stay text whatever they are called', async () => {
    const { site, loom } = await open('</script><!--\u2028')
    const text = String(pathMarkup(pathData(site, 'installation/van.html', loom, undefined)))
    expect(text).not.toMatch(/[<>\u2028]/)
  })
})
