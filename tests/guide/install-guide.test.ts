import { describe, expect, test } from 'vitest'
import type { DocumentInput } from '../../src/describe/document.ts'
import { guideMarkdown } from '../../src/guide/guide-markdown.ts'
import { guideView } from '../../src/guide/guide-view.ts'
import { hazardsOf } from '../../src/guide/hazards.ts'
import { installGuide } from '../../src/guide/install-guide.ts'
import { phaseNamed } from '../../src/guide/phases.ts'
import { sample, vanRadio } from '../sheets/sample-shop.ts'

const { loom, solution, jobs } = sample()
const findings = jobs[0]?.findings ?? []
const guideOf = (text = '') => installGuide({ loom, solution, findings }, [{ file: 'fit.md', text }])
const stepsIn = (id: string, guide = guideOf()) =>
  guide.phases.find((phase) => phase.id === id)?.steps.map((step) => step.text) ?? []

describe('the order in which the hands move', () => {
  test('phases run from isolation to hand-over, grounds before loads before signals before the fuse', () => {
    const ids = guideOf().phases.map((phase) => phase.id)
    const order = [
      'prepare',
      'isolate',
      'mount',
      'route',
      'loads',
      'signals',
      'supply',
      'power-up',
      'test',
      'refit',
      'hand-over',
    ]
    expect(ids.filter((id) => order.includes(id))).toEqual(order)
  })

  test('the battery negative comes off first and on after the positive, the fuse last of all', () => {
    expect(stepsIn('isolate').findIndex((text) => /negative off battery/.test(text))).toBe(1)
    const supply = stepsIn('supply')
    expect(supply.at(-1)).toMatch(/^Last: fuse F1.*20 A and no other/)
    const at = (pattern: RegExp) => supply.findIndex((text) => pattern.test(text))
    expect(at(/R1 onto battery POS/)).toBeGreaterThanOrEqual(0)
    expect(at(/R1 onto battery POS/)).toBeLessThan(at(/R2 onto battery NEG/))
    expect(at(/R2 onto battery NEG/)).toBeLessThan(at(/^Last: fuse/))
  })

  test('a free plug is capped', () => {
    expect(stepsIn('signals')).toContain('X1 stays free: cap it, label it, tie it back.')
  })

  test('expected currents and volts come from the solution', () => {
    const figures = guideOf().phases.find((phase) => phase.id === 'power-up')?.figures ?? []
    expect(
      figures.find((one) => one.state.toLowerCase().includes('transmit') && one.what === 'current out')
        ?.figure,
    ).toBe('12 A')
    expect(
      figures.find((one) => one.where.startsWith('radio J1-1') && one.what.includes('350 mA')),
    ).toBeDefined()
  })

  test('findings that say stop are said before the first step', () => {
    expect(guideOf().stops.map((stop) => stop.rule)).toContain('wire-fits-contact')
  })
})

describe('cautions stand where they bite', () => {
  const cautionsIn = (id: string) =>
    guideOf()
      .phases.find((phase) => phase.id === id)
      ?.cautions.map((c) => c.hazard)

  test.each([
    ['isolate', ['battery']],
    ['route', ['airbag']],
    ['mount', ['drilling', 'road']],
    ['supply', ['battery']],
    ['test', ['rf', 'hearing']],
  ])('%s', (phase, hazards) => {
    expect(cautionsIn(phase)).toEqual(hazards)
  })

  test.each<[string, Partial<NonNullable<DocumentInput['installations']>[number]>, string[], string[]]>([
    ['a boat', { setting: 'boat' }, ['boat', 'battery'], ['airbag', 'road']],
    ['a building', { setting: 'building' }, ['battery'], ['airbag', 'drilling', 'boat']],
    ['a 24 V lorry', { setting: 'vehicle', supply: '24 V' }, ['24-volt', 'airbag'], ['boat']],
  ])('%s', (_, change, has, hasNot) => {
    const [place] = vanRadio.installations ?? []
    if (!place) throw new Error('no installation')
    const hazards = hazardsOf(sample({ ...vanRadio, installations: [{ ...place, ...change }] }).loom)
    for (const hazard of has) expect([...hazards]).toContain(hazard)
    for (const hazard of hasNot) expect([...hazards]).not.toContain(hazard)
  })

  test('it defers to makers, local codes and licensed practice', () => {
    expect(guideMarkdown(guideOf())).toMatch(/local codes, or licensed practice/)
  })
})

describe('the shop’s own steps', () => {
  test.each([
    ['Route', 'route'],
    ['grounds', 'ground'],
    ['The fuse', undefined],
    ['Supply, and the fuse last', 'supply'],
    ['Commissioning', 'test'],
    ['POWER-UP', 'power-up'],
  ])('a heading “%s” means %s', (heading, phase) => {
    expect(phaseNamed(heading)).toBe(phase)
  })

  test('go to the phase of their heading; what stands before goes where the front matter says', () => {
    const guide = guideOf(
      '---\ntitle: Ours\nat: mount\n---\n\nShim it.\n\n## Route\n\nBehind the sill.\n\n# Fuses\n\nOne by one.',
    )
    const own = guide.phases.flatMap((phase) => phase.own.map((piece) => [phase.id, piece.title]))
    expect(own).toEqual([
      ['mount', 'Ours'],
      ['route', 'Ours'],
      ['supply', 'Ours'],
    ])
  })

  test('an empty citation becomes the fact, a worded one keeps its words and is given the fact', () => {
    const text = guideMarkdown(guideOf('Join [](pin:P1.1) and [the return](wire:A10).'))
    expect(text).toContain('**P1-1 DC+, red 6 mm²**')
    expect(text).toContain('the return (A10, black 6 mm², 5.6 m, P1-2 to R2)')
  })

  test('with pages to link to, words become links with the fact as title', () => {
    const href = (address: string) => `x.html#${address}`
    const guide = installGuide(
      { loom, solution, findings },
      [{ file: 'fit.md', text: '[the return](wire:A10)' }],
      href,
    )
    const html = guideView(guide, href)
      .phases.flatMap((phase) => phase.own.map((own) => own.html.toString()))
      .join('')
    expect(html).toBe(
      '<p><a href="x.html#main.A10" title="A10, black 6 mm², 5.6 m, P1-2 to R2">the return</a></p>',
    )
  })

  test('nothing unsafe comes through', () => {
    const wild = [
      '<script>alert(1)</script>',
      '<img src=x onerror=alert(1)>',
      'inline <b onclick="x()">bold</b>',
      '[a](javascript:alert(1)) [b](data:text/html,x) [c](vbscript:x) [d](JaVaScRiPt:x) [e](other.md)',
      '![p](https://example.org/x.png) ![q](javascript:x)',
      '[r][s]',
      '',
      '[s]: javascript:alert(1)',
      '',
      '- [x] done',
      '',
      'Note[^1]',
      '',
      '[^1]: [f](javascript:alert(1)) <i>x</i>',
    ].join('\n')
    const html = guideView(guideOf(wild))
      .phases.flatMap((phase) => phase.own.map((own) => own.html.toString()))
      .join('')
    const tags = [...html.matchAll(/<\/?([a-z0-9]+)([^>]*)>/g)]
    expect(new Set(tags.map(([, name]) => name))).toEqual(new Set(['p', 'ul', 'li', 'blockquote']))
    expect(tags.every(([, , attributes]) => attributes === '')).toBe(true)
    expect(html).toContain('&#x3C;script>')
    const markdown = guideMarkdown(guideOf(wild))
    expect(markdown).not.toMatch(/(?<!\\)<(script|img|b|i)\b/)
    expect(markdown).not.toMatch(/\]\((javascript|data|vbscript)/i)
  })
})
