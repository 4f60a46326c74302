import { describe, expect, it } from 'vitest'
import type { Finding } from '../../src/base/finding.ts'
import type { CheckResult } from '../../src/check/check.ts'
import { groupByCause } from '../../src/check/group.ts'
import { rankFindings } from '../../src/check/rank.ts'
import type { Rule } from '../../src/check/rule.ts'
import { standardRules } from '../../src/check/standard-rules.ts'
import { factsCode } from '../../src/check/waivers.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { checkDocument, checkDocuments } from './check-document.ts'

const finding = (over: Partial<Finding>): Finding => ({
  rule: 'some-rule',
  level: 'warning',
  subject: 'main.A01',
  what: 'Something',
  why: 'Because.',
  fix: 'Mend it.',
  assumed: [],
  facts: {},
  at: { doc: 'test.json', path: ['harnesses', 0] },
  notes: [],
  marks: [],
  ...over,
})

const ruleOf = (id: string): Rule => {
  const rule = standardRules.find((entry) => entry.id === id)
  if (!rule) throw new Error(`no rule ${id}`)
  return rule
}
const crimp = ruleOf('wire-fits-contact')
const rules = (result: CheckResult) => result.findings.map((entry) => entry.rule)

type PolicyInput = NonNullable<DocumentInput['policy']>
const withPolicy = (policy: PolicyInput, data: DocumentInput = crimp.examples.trips): DocumentInput => ({
  ...data,
  policy,
})

describe('the order of findings', () => {
  it('is worst first, then as a person reads addresses', () => {
    const ranked = rankFindings([
      finding({ level: 'note', subject: 'main.A01' }),
      finding({ level: 'stop', subject: 'main.A10' }),
      finding({ level: 'warning', subject: 'main.A03' }),
      finding({ level: 'stop', subject: 'main.A2' }),
    ])
    expect(ranked.map((entry) => `${entry.level} ${entry.subject}`)).toEqual([
      'stop main.A2',
      'stop main.A10',
      'warning main.A03',
      'note main.A01',
    ])
  })
})

describe('grouping by cause', () => {
  const order = (rule: string) => ['root', 'effect'].indexOf(rule)

  it('shows the worst and tells of the others in its notes', () => {
    const { shown, heldBack } = groupByCause(
      [
        finding({ rule: 'effect', cause: 'c', level: 'warning', what: 'Hum' }),
        finding({ rule: 'effect', cause: 'c', level: 'stop', what: 'Fire' }),
        finding({ rule: 'root', cause: 'c', level: 'stop', what: 'Mirror' }),
        finding({ what: 'Alone' }),
      ],
      order,
    )
    expect(shown.map((entry) => entry.what).sort()).toEqual(['Alone', 'Mirror'])
    expect(heldBack.map((entry) => entry.what).sort()).toEqual(['Fire', 'Hum'])
    expect(shown.find((entry) => entry.rule === 'root')?.notes.map((note) => note.text)).toEqual([
      'same cause: Fire (effect)',
      'same cause: Hum (effect)',
    ])
  })

  it('counts what would fill a page', () => {
    const many = Array.from({ length: 25 }, (_, index) => finding({ cause: 'c', what: `Pin ${index}` }))
    const { shown } = groupByCause(many, () => 0)
    expect(shown).toHaveLength(1)
    expect(shown[0]?.notes.at(-1)?.text).toBe('same cause: 20 more')
  })
})

describe('a rule that throws', () => {
  const broken: Rule = {
    ...crimp,
    id: 'broken',
    *check({ loom }) {
      const { what, why, fix, facts } = finding({ what: 'Seen before it broke' })
      yield { finding: { subject: 'lead.A01', what, why, fix, facts, at: loom.at } }
      throw new Error('no such thing')
    },
  }

  it('is a finding, and loses neither its own findings nor those of others', () => {
    const result = checkDocument(crimp.examples.trips, { rules: [broken, crimp] })
    expect(rules(result).sort()).toEqual(['broken', 'rule-failed', 'wire-fits-contact', 'wire-fits-contact'])
    const failure = result.findings.find((entry) => entry.rule === 'rule-failed')
    expect(failure?.what).toBe('The rule broken broke down on lead, so it has not judged all of it')
    expect(failure?.why).toContain('no such thing')
  })
})

describe('shop policy', () => {
  it('changes the severity of a rule', () => {
    const result = checkDocument(withPolicy({ rules: { 'wire-fits-contact': 'note' } }))
    expect(result.findings.map((entry) => entry.level)).toEqual(['note', 'note'])
  })

  it('switches a rule off, and the list of rules that ran says so', () => {
    const result = checkDocument(withPolicy({ rules: { 'wire-fits-contact': 'off' } }))
    expect(result.findings).toEqual([])
    expect(result.rulesRun).not.toContain('wire-fits-contact')
    expect(result.rulesRun.length).toBe(standardRules.length - 1)
  })

  it('with a misspelt rule is a finding with a suggestion', () => {
    const result = checkDocuments(
      withPolicy({ rules: { 'wire-fits-contacts': 'off' } }, crimp.examples.passes),
    )
    expect(result.findings).toHaveLength(1)
    expect(result.findings[0]).toMatchObject({
      rule: 'rule-unknown',
      level: 'warning',
      fix: 'Correct or delete the name. Did you mean “wire-fits-contact”?',
      at: { path: ['policy', 'rules', 'wire-fits-contacts'] },
    })
  })

  it('may name a finding that is made while resolving', () => {
    const result = checkDocuments(withPolicy({ rules: { 'duplicate-name': 'note' } }, crimp.examples.passes))
    expect(result.findings).toEqual([])
  })
})

describe('a waiver', () => {
  const waiver = { rule: 'wire-fits-contact', by: 'Pat', date: '2024-03-01', reason: 'Tested by pull.' }

  it('takes out the finding at its address and no other', () => {
    const result = checkDocuments(withPolicy({ waivers: [{ ...waiver, at: 'lead.P1.1' }] }))
    expect(result.findings.map((entry) => entry.subject)).toEqual(['lead.P2.1', 'policy.waivers.1'])
    expect(result.waived.map((entry) => [entry.finding.subject, entry.waiver.by])).toEqual([
      ['lead.P1.1', 'Pat'],
    ])
  })

  it('holds while the facts are those it was given for', () => {
    const found = checkDocuments(crimp.examples.trips).findings.find((entry) => entry.subject === 'lead.P1.1')
    if (!found) throw new Error('no finding')
    const same = checkDocuments(
      withPolicy({ waivers: [{ ...waiver, at: 'lead.P1.1', facts: factsCode(found) }] }),
    )
    expect(same.waived).toHaveLength(1)
    const other = checkDocuments(
      withPolicy({ waivers: [{ ...waiver, at: 'lead.P1.1', facts: 'XXXX-XXXX' }] }),
    )
    expect(other.waived).toEqual([])
    expect(
      other.findings.find((entry) => entry.subject === 'lead.P1.1')?.notes.map((note) => note.text),
    ).toEqual([
      `accepted by Pat on 2024-03-01 for other figures (match code XXXX-XXXX, now ${factsCode(found)}); look again`,
    ])
    expect(rules(other)).not.toContain('waiver-stale')
  })

  it('without the code of its facts never ends: a note that prints the code', () => {
    const open = checkDocuments(withPolicy({ waivers: [{ ...waiver, at: 'lead.P1.1' }] }))
    const note = open.findings.find(({ rule }) => rule === 'waiver-endless')
    const code = String(note?.facts.code?.value)
    expect(note).toMatchObject({ level: 'note', at: { path: ['policy', 'waivers', 0] } })
    expect(note?.fix).toContain(`facts: "${code}"`)
    const closed = checkDocuments(withPolicy({ waivers: [{ ...waiver, at: 'lead.P1.1', facts: code }] }))
    expect(closed.waived).toHaveLength(1)
    expect(rules(closed)).not.toContain('waiver-endless')
    const off = checkDocuments(
      withPolicy({ waivers: [{ ...waiver, at: 'lead.P1.1' }], rules: { 'waiver-endless': 'off' } }),
    )
    expect(rules(off)).not.toContain('waiver-endless')
  })

  it.each(['by', 'reason', 'date'])('cannot leave %s blank', (field) => {
    const bad = { ...waiver, at: 'lead.P1.1', [field]: ' ' }
    expect(() => checkDocuments(withPolicy({ waivers: [bad] }))).toThrow()
  })

  it('that matches nothing is a finding at its line', () => {
    const result = checkDocuments(
      withPolicy({ waivers: [{ ...waiver, at: 'lead.P9' }] }, crimp.examples.passes),
    )
    expect(result.findings).toHaveLength(1)
    expect(result.findings[0]).toMatchObject({
      rule: 'waiver-stale',
      at: { path: ['policy', 'waivers', 0] },
      what: 'The waiver of “wire-fits-contact” at “lead.P9” matches no finding',
    })
  })
})

describe('a shop', () => {
  const units = [
    { id: 'box', of: 'box' },
    { id: 'panel', of: 'panel' },
  ]
  const inTwo: DocumentInput = {
    ...crimp.examples.trips,
    installations: ['van-1', 'van-2'].map((id) => ({
      id,
      title: id,
      units,
      looms: [{ id: 'main', of: 'lead' }],
    })),
  }

  it('reports a fault of a harness once, with each installation it reaches', () => {
    const { findings } = checkDocuments(inTwo)
    expect(findings.map((entry) => entry.subject)).toEqual(['van-1/main.P1.1', 'van-1/main.P2.1'])
    expect(findings[0]?.notes.map((note) => note.text)).toContain('also at van-2/main.P1.1')
  })

  it('does not repeat what the resolver found and the loom carries', () => {
    const data: DocumentInput = {
      loomwright: 1,
      harnesses: [{ id: 'lead', title: 'Lead', connectors: [{ id: 'P1', family: 'no-such-family' }] }],
    }
    const { findings } = checkDocuments(data)
    expect(findings.filter((entry) => entry.rule === 'name-not-found')).toHaveLength(1)
  })
})

describe('a description of names and pins alone', () => {
  const pins = { '1': {}, '2': {}, '3': {}, '4': {} }
  const data: DocumentInput = {
    loomwright: 1,
    equipment: [
      { id: 'radio', title: 'Radio', connectors: [{ id: 'J1', family: 'dsub-9', pins }] },
      { id: 'modem', title: 'Modem', connectors: [{ id: 'J2', family: 'dsub-9', pins }] },
    ],
    harnesses: [
      {
        id: 'lead',
        title: 'Lead',
        connectors: [
          { id: 'P1', family: 'dsub-9', fits: 'radio.J1' },
          { id: 'P2', family: 'dsub-9', fits: 'modem.J2' },
        ],
        wires: ['1', '2', '3', '4'].map((pin) => ({ id: `A0${pin}`, from: `P1.${pin}`, to: `P2.${pin}` })),
      },
    ],
  }

  it('has no findings, and lists what is not checked', () => {
    const { findings, notChecked } = checkDocument(data)
    expect(findings).toEqual([])
    const gaps = notChecked.map((entry) => `${entry.rule}: ${entry.needs}`)
    expect(gaps).toContain('mated-halves-fit: needs the half of lead.P1: pin or socket')
    expect(gaps).toContain('pinout-view-stated: needs the view of its pinout: "mating" or "wire-entry"')
    expect(gaps).toContain('wire-fits-contact: needs the size of A01, A02, A03 and A04')
    for (const entry of notChecked) expect(entry.needs).toMatch(/^needs /)
  })
})
