import { describe, expect, test } from 'vitest'
import { checkCitations } from '../../src/guide/check-citations.ts'
import { parseCitation } from '../../src/guide/citation.ts'
import { expandCitation } from '../../src/guide/expand-citation.ts'
import type { Facts } from '../../src/guide/facts.ts'
import { firstUse, sample, vanRadio } from '../sheets/sample-shop.ts'

const { loom, solution, jobs } = sample()
const findings = jobs[0]?.findings ?? []
const facts: Facts = { loom, solution, findings, ruleIds: ['wire-fits-contact', 'pin-map-mirrored'] }

function expand(url: string, more: Partial<Facts> = {}) {
  const citation = parseCitation(url)
  if (!citation) throw new Error(`${url} is no citation`)
  return expandCitation({ ...facts, ...more }, citation)
}

describe('a citation expands into today’s truth', () => {
  test.each([
    ['pin:radio.J1.1', 'radio J1-1 DC+, red 6 mm²'],
    ['pin:main.P1.1', 'P1-1 DC+, red 6 mm²'],
    ['pin:battery.POS', 'battery POS BAT+, red 6 mm²'],
    ['wire:main.A3', 'A3, white 0.5 mm², 3 m, P2-1 to S1-1'],
    ['wire:main.W1', 'W1, Screened cable, 1 × 2 × 0.22 mm², foil and drain over all, 2 m'],
    ['connector:main.P2', 'P2, D-sub, 9 ways (DE-9), pin half, mates with radio J2'],
    ['part:main.F1', 'F1, 20 A fuse, Radio'],
    ['figure:main.A3/length', '3 m'],
    ['figure:radio.J1.1/volts', '10.80 V to 15.60 V'],
    ['finding:pin-map-mirrored', 'no finding of pin-map-mirrored'],
  ])('%s', (url, text) => {
    expect(expand(url)).toMatchObject({ ok: true, text })
  })

  test('figures are those of the solution', () => {
    const transmit = solution.states.find((one) => one.state.id === 'transmit')
    const load = transmit?.loads.find((one) => one.terminal.address === 'radio.J1.1')
    expect(expand('figure:radio.J1.1/volts/transmit')).toMatchObject({ text: `${load?.volts.toFixed(2)} V` })
    expect(expand('figure:radio.J1.1/amps/transmit')).toMatchObject({ text: '12 A' })
    expect(expand('figure:radio.J1.1/drop/transmit')).toMatchObject({
      text: `${load?.dropVolts.toFixed(2)} V`,
    })
    const link = loom.links.find((one) => one.conductor?.address === 'main.A10')
    const ohms = link && solution.linkOhms[link.index]?.ohms
    expect(Number.parseFloat((expand('figure:main.A10/ohms') as { text: string }).text)).toBeCloseTo(
      (ohms ?? 0) * 1000,
      1,
    )
  })

  test('a finding of today is told with its level', () => {
    expect(expand('finding:wire-fits-contact')).toMatchObject({ text: expect.stringMatching(/^stop: A2/) })
  })

  test('a harness’s own procedure may use short names', () => {
    expect(expand('pin:P1.2', { scope: firstUse(loom) })).toMatchObject({ text: 'P1-2 DC-, black 6 mm²' })
  })
})

describe('a citation that is wrong says so and what to write', () => {
  test.each([
    ['pin:radio.J9.1', /no pin “radio\.J9\.1”/, /“radio\.J1\.1”/],
    ['wire:main.A33', /no wire/, /“main\.A3”/],
    ['connector:main.P3', /no connector/, /“main\.P1”|“main\.P2”/],
    ['figure:radio.J1.1/volts/transmitt', /no operating state “transmitt”/, /“transmit”/],
    ['figure:radio.J1.1/amps', /needs an operating state/, /transmit/],
    ['figure:radio.J1.1/vlots/transmit', /no figure “vlots”/, /“volts”/],
    ['finding:pin-map-mirorred', /no rule/, /“pin-map-mirrored”/],
    ['pin:nothing.at.all', /no pin/, /Cite a pin it has|Did you mean/],
  ])('%s', (url, problem, fix) => {
    const result = expand(url)
    expect(result.ok).toBe(false)
    if (result.ok) return
    expect(result.problem).toMatch(problem)
    expect(result.fix).toMatch(fix)
  })

  test('a short name that two looms have is ambiguous', () => {
    const [place] = vanRadio.installations ?? []
    if (!place) throw new Error('no installation')
    const two = sample({
      ...vanRadio,
      installations: [
        {
          ...place,
          units: [...place.units, { id: 'radio2', of: 'mobile' }],
          looms: [
            { id: 'main', of: 'van' },
            { id: 'second', of: 'van' },
          ],
        },
      ],
    })
    const citation = parseCitation('wire:A3')
    if (!citation) throw new Error('no citation')
    const result = expandCitation({ loom: two.loom, solution: two.solution }, citation)
    expect(result).toMatchObject({ ok: false, problem: expect.stringContaining('“main.A3”, “second.A3”') })
  })

  test.each(['https://example.org', 'javascript:alert(1)', 'pin:', '#x', 'other.md'])(
    '%s is no citation',
    (url) => {
      expect(parseCitation(url)).toBeUndefined()
    },
  )
})

describe('stale citations are findings at their line and column', () => {
  const text = [
    '---',
    'title: Fitting',
    '---',
    '',
    'Join [](connector:P2), then [the feed](wire:A99).',
    '',
    '1. See [][feed].',
    '   And [](pin:P1.7) twice [](pin:P1.1).',
    '',
    '[feed]: wire:A98',
    '`[](pin:in.code)`',
  ].join('\n')

  test('each once, in order', () => {
    const stale = checkCitations(loom, solution, [{ file: 'van/fit.md', text }])
    expect(stale.map(({ at }) => at.path)).toEqual([
      [5, 29],
      [8, 8],
      [10, 1],
    ])
    expect(stale.every((one) => one.rule === 'stale-citation' && one.at.doc === 'van/fit.md')).toBe(true)
    expect(stale[0]?.what).toContain('“wire:A99” in van/fit.md')
  })

  test('a procedure nobody names is not read', () => {
    expect(checkCitations(loom, solution, [{ file: 'other.md', text }])).toEqual([])
  })

  test('any text is read without a throw', () => {
    for (const wild of [
      '[](',
      '[](pin:%zz)',
      '---\n---',
      '\u0000',
      '[](figure:)',
      '[](figure://///)',
      '![](pin:P1.1)',
      '<'.repeat(2000),
    ])
      expect(() => checkCitations(loom, solution, [{ file: 'fit.md', text: wild }])).not.toThrow()
  })
})
