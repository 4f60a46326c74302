import { describe, expect, it } from 'vitest'
import * as bench from '../../harnesses/bench/bench-lead.ts'
import * as launchMended from '../../harnesses/launch/mended.ts'
import * as launch from '../../harnesses/launch/planned.ts'
import * as theatreMended from '../../harnesses/party-line/mended.ts'
import * as theatre from '../../harnesses/party-line/planned.ts'
import * as pickupMended from '../../harnesses/pickup/mended.ts'
import * as pickup from '../../harnesses/pickup/planned.ts'
import * as policy from '../../harnesses/shop-policy.ts'
import { asDocument } from '../../src/author/as-document.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { checkCitations, proceduresOf } from '../../src/guide/check-citations.ts'
import { parseJson } from '../../src/read/parse-json.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'
import { description, job, jobIds, resolved, source } from './demo-shop.ts'
import { serialiseLoom } from './serialise-loom.ts'

const mended = ['council-pickup', 'harbour-launch', 'theatre', 'radio-bench', 'programming-lead']
const planned = ['council-pickup-planned', 'harbour-launch-planned', 'theatre-planned']

describe('the demo shop', () => {
  it('is read without trouble and fits the shape of a description', () => {
    expect(source.troubles).toEqual([])
    expect(description.findings).toEqual([])
  })

  it('is three jobs as planned and as mended, a bench lead, and a lead written in JSON', () => {
    expect([...jobIds].sort()).toEqual([...planned, ...mended].sort())
  })

  it('leaves no name unresolved', () => {
    expect(resolved.findings.map(({ rule, what }) => `${rule}: ${what}`)).toEqual([])
  })

  it.each(mended)('%s is drawn, checked and dated', (id) => {
    const { loom } = job(id)
    for (const { harness } of loom.looms) {
      expect(harness.drawnBy, harness.id).toBeTruthy()
      expect(harness.checkedBy, harness.id).toBeTruthy()
      expect(harness.checkedBy, harness.id).not.toBe(harness.drawnBy)
      expect(harness.date, harness.id).toMatch(/^2026-/)
    }
  })

  // Two digits a wire: the numbers of the plan, less those the mending took out, plus new ones from A36, B41 and C40 on.
  it.each([
    ['council-pickup-planned', 'A', 35, []],
    ['council-pickup', 'A', 37, ['A24', 'A34']],
    ['harbour-launch-planned', 'B', 40, []],
    ['harbour-launch', 'B', 41, ['B07', 'B17']],
    ['theatre-planned', 'C', 39, []],
    ['theatre', 'C', 44, ['C18', 'C19', 'C24']],
  ] as const)('%s numbers its wires %s01 to %s%d', (id, letter, last, gone) => {
    const numbers = new Set(
      job(id).loom.conductors.flatMap((one) => one.id.match(new RegExp(`${letter}\\d\\d`, 'g')) ?? []),
    )
    const expected = Array.from({ length: last }, (_, i) => `${letter}${`${i + 1}`.padStart(2, '0')}`)
    expect([...numbers].sort()).toEqual(
      expected.filter((number) => !(gone as readonly string[]).includes(number)),
    )
  })
})

describe('procedures', () => {
  it.each(['council-pickup', 'harbour-launch', 'theatre'])('of %s cite only what is there', (id) => {
    const { loom, solution } = job(id)
    expect(proceduresOf(loom, source.procedures)).toHaveLength(1)
    expect(checkCitations(loom, solution, source.procedures).map(({ what }) => what)).toEqual([])
  })
})

describe('TypeScript and JSON', () => {
  const file = 'shop.json'
  const text = JSON.stringify(
    asDocument(pickup, pickupMended, launch, launchMended, theatre, theatreMended, bench, policy),
  )
  const json = resolveShop(describeShop([{ name: file, data: parseJson(text, file) }]).shop)

  it.each([...planned, ...mended.slice(0, -1)])('resolve %s to the same', (id) => {
    const one = json.looms.find((loom) => loom.id === id)
    expect(one && serialiseLoom(one)).toBe(serialiseLoom(job(id).loom))
  })
})
