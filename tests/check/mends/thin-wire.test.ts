import fc from 'fast-check'
import { parse } from 'jsonc-parser'
import { describe, expect, test } from 'vitest'
import type { Finding } from '../../../src/base/finding.ts'
import { applyTextEdits } from '../../../src/base/text-edit.ts'
import { parseWireSize, type WireSize } from '../../../src/base/wire-size.ts'
import type { DocumentInput } from '../../../src/describe/document.ts'
import { editJson } from '../../../src/read/edit-json.ts'
import { fuseForLoad } from '../../../src/solve/formulas/fuse-for-load.ts'
import { checkDocuments } from '../check-document.ts'
import { planOf } from './plan-of.ts'

/** A sound job with one wire too thin for what flows in it. */
interface Planted {
  readonly awg: boolean
  readonly branches: readonly { readonly amps: number; readonly metres: number }[]
  /** Which of the feed, return and branch wires is planted. */
  readonly thin: number
  readonly layout: 'two' | 'tabs' | 'line'
  readonly crlf: boolean
  readonly comments: boolean
}

const planted: fc.Arbitrary<Planted> = fc.record({
  awg: fc.boolean(),
  branches: fc.array(
    fc.record({ amps: fc.integer({ min: 3, max: 6 }), metres: fc.integer({ min: 1, max: 4 }) }),
    { minLength: 1, maxLength: 3 },
  ),
  thin: fc.nat(50),
  layout: fc.constantFrom('two', 'tabs', 'line'),
  crlf: fc.boolean(),
  comments: fc.boolean(),
})

const SIZES = { metric: { good: '16 mm²', thin: '0.5 mm²' }, awg: { good: '6 AWG', thin: '20 AWG' } } as const

function describeJob({ awg, branches, thin }: Planted, spoil: boolean): DocumentInput {
  const total = branches.reduce((sum, { amps }) => sum + amps, 0)
  const { good, thin: poor } = SIZES[awg ? 'awg' : 'metric']
  const runs: (readonly [string, string, number])[] = [
    ['X1.1', 'F1.in', 0.2],
    ['F1.out', 'SP1', 2],
    ['SP2', 'X2.1', 2],
    ...branches.flatMap(({ metres }, index) => [
      ['SP1', `P${index}.1`, metres] as const,
      [`P${index}.2`, 'SP2', metres] as const,
    ]),
  ]
  return {
    loomwright: 1,
    parts: [
      { kind: 'contact', id: 'any', title: 'Any', join: 'crimp', area: '0.2..300 mm²', tool: 'Hand tool' },
      {
        kind: 'connector',
        id: 'two',
        title: 'Plug',
        pins: ['1', '2'],
        style: 'housing',
        lock: 'latch',
        contacts: ['any'],
      },
      {
        kind: 'connector',
        id: 'post',
        title: 'Post',
        pins: ['1'],
        style: 'stud',
        manyWires: true,
        matesWith: ['eye'],
      },
      { kind: 'connector', id: 'eye', title: 'Ring', pins: ['1'], style: 'ring', matesWith: ['post'] },
    ],
    equipment: [
      {
        id: 'cell',
        title: 'Battery',
        role: 'battery',
        connectors: [
          {
            id: 'P',
            family: 'post',
            pins: { '1': { kind: 'supply-out', volts: '12 V', battery: true, capacity: '900 Ah' } },
          },
          { id: 'N', family: 'post', pins: { '1': { kind: 'return' } } },
        ],
      },
      ...branches.map(({ amps }, index) => ({
        id: `load-${index}`,
        title: 'Load',
        connectors: [
          {
            id: 'J',
            family: 'two',
            half: 'socket' as const,
            view: 'mating' as const,
            pins: {
              '1': {
                kind: 'supply-in' as const,
                volts: '10..15 V' as const,
                amps: { off: '0 A' as const, standby: `${amps} A` as const },
                port: 'dc',
              },
              '2': { kind: 'return' as const, port: 'dc' },
            },
          },
        ],
      })),
    ],
    harnesses: [
      {
        id: 'loom',
        title: 'Loom',
        connectors: [
          { id: 'X1', family: 'eye', fits: 'cell.P' },
          { id: 'X2', family: 'eye', fits: 'cell.N' },
          ...branches.map((_, index) => ({
            id: `P${index}`,
            family: 'two',
            half: 'pin' as const,
            fits: `load-${index}.J`,
          })),
        ],
        splices: [{ id: 'SP1' }, { id: 'SP2' }],
        components: [{ kind: 'fuse', id: 'F1', rating: `${fuseForLoad(total) ?? 0} A` }],
        wires: runs.map(([from, to, metres], index) => ({
          id: `A${index + 1}`,
          from,
          to,
          size: (spoil && index === thin % runs.length ? poor : good) as WireSize,
          length: `${metres} m` as const,
        })),
      },
    ],
    installations: [
      {
        id: 'van',
        title: 'Van',
        setting: 'vehicle',
        units: [
          { id: 'cell', of: 'cell' },
          ...branches.map((_, index) => ({ id: `load-${index}`, of: `load-${index}` })),
        ],
        looms: [{ id: 'main', of: 'loom' }],
      },
    ],
  }
}

/** The description as a person might have typed it. */
function typed(data: DocumentInput, { layout, crlf, comments }: Planted): string {
  let text = JSON.stringify(data, null, layout === 'two' ? 2 : layout === 'tabs' ? '\t' : 0)
  if (comments && layout !== 'line')
    text = text
      .replaceAll('"wires": [', '"wires": [ // cut in this order, "size": "0.5 mm²"')
      .replaceAll(/("size": "[^"]*")(,?)/g, '$1 /* see A1 */$2')
  return crlf ? text.replaceAll('\n', '\r\n') : text
}

const grave = ({ level }: Finding): boolean => level !== 'note'
const name = ({ rule, subject }: Finding): string => `${rule} ${subject}`

const areaOf = (size: string | undefined): number => {
  const read = parseWireSize(size ?? '')
  return read.ok ? read.value.areaMm2 : Number.NaN
}

describe('a wire planted too thin', () => {
  test('is made thick enough, in its own system of sizes, and nothing else of the file changes', () => {
    let mends = 0
    fc.assert(
      fc.property(planted, (job) => {
        const sound = checkDocuments(describeJob(job, false)).findings.filter(grave).map(name)
        expect(sound.filter((one) => /voltage|fuse|ampacity|return/.test(one))).toEqual([])
        const data = describeJob(job, true)
        const before = checkDocuments(data).findings.filter(grave).map(name)
        const text = typed(data, job)
        const plan = planOf(data)
        const edits = editJson(
          text,
          plan.changes.map(({ at, value }) => ({ path: at.path, value })),
        )
        if (!edits) throw new Error('no place for an edit')
        const after = applyTextEdits(text, edits)
        const mended = parse(after) as DocumentInput
        // Gone, and nothing new.
        expect(checkDocuments(mended).findings.filter(grave).map(name)).toEqual(sound)
        if (before.length === sound.length) {
          expect(edits).toEqual([])
          return
        }
        mends++
        // Only the one size is other than it was.
        const wires = (of: DocumentInput) => of.harnesses?.[0]?.wires ?? []
        const index = job.thin % wires(data).length
        expect(edits).toHaveLength(1)
        expect(
          wires(mended).map((wire, at) => (at === index ? { ...wire, size: wires(data)[at]?.size } : wire)),
        ).toEqual(wires(data))
        const size = wires(mended)[index]?.size
        expect(size?.endsWith('AWG')).toBe(job.awg)
        expect(areaOf(size)).toBeGreaterThan(areaOf(wires(data)[index]?.size))
        // Every character outside the edited stretch is as it was.
        const [edit] = edits
        if (!edit) return
        expect(after.slice(0, edit.start)).toBe(text.slice(0, edit.start))
        expect(after.slice(edit.start + edit.text.length)).toBe(text.slice(edit.end))
        // Mending what is mended does nothing.
        expect(planOf(mended).changes).toEqual([])
      }),
      { numRuns: 60, seed: 20261125 },
    )
    expect(mends).toBeGreaterThan(30)
  }, 60_000)
})
