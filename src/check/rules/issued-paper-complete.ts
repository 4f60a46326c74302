import type { Pointer } from '../../base/place.ts'
import { below } from '../../base/place.ts'
import type { Harness } from '../../describe/harness.ts'
import type { Installation } from '../../describe/installation.ts'
import { vehicleExample } from '../examples/vehicle.ts'
import { found, listOf } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

const named = { document: 'HT-0001', revision: 'A', date: '2026-03-02', drawnBy: 'J. Hollin' } as const
const example = (head: object) => vehicleExample({ place: { state: 'issued', ...named, ...head } })

const WANTED = [
  ['document', 'a document number'],
  ['revision', 'a revision'],
  ['date', 'a date'],
  ['drawnBy', 'the name of who made it'],
  ['checkedBy', 'the name of who checked it'],
] as const

const blank = (value: string | undefined): boolean => value === undefined || value.trim() === ''

function* judge(source: Harness | Installation, subject: string, at: Pointer): Iterable<Outcome> {
  if (source.state !== 'issued') return
  const missing = WANTED.filter(([key]) => blank(source[key])).map(([, words]) => words)
  if (missing.length > 0)
    yield found({
      subject,
      what: `${subject} is issued without ${listOf(missing)}`,
      why: `The papers go to the bench with ${missing.length} of ${WANTED.length} fields of their head blank: nobody can tell which issue a loom was built to, or whom to ask.`,
      fix: `Fill in ${listOf(missing)}, or call it a draft until they are known.`,
      facts: { missing: { value: missing.length } },
      at: below(at, 'state'),
    })
  const { drawnBy, checkedBy } = source
  if (!blank(drawnBy) && drawnBy?.trim() === checkedBy?.trim())
    yield found({
      subject,
      what: `${subject} is made and checked by one person, ${drawnBy}`,
      why: 'One reads over one’s own mistake: of two people reading, the second finds it.',
      fix: 'Have a second person look, and name that one under “checkedBy”.',
      facts: { person: { value: drawnBy ?? '' } },
      at: below(at, 'checkedBy'),
    })
}

export const issuedPaperComplete: Rule = {
  id: 'issued-paper-complete',
  title: 'An issued paper says what it is, which issue, and who made and checked it',
  family: 'papers',
  level: 'warning',
  covers: ['X1'],
  reason:
    'Three years on, the paper in the glove box is all there is. Without number, revision and date nobody knows whether the loom was built to it; without names nobody can ask. Page numbers and the match code are printed on every sheet.',
  remedy: 'Fill the head in before issuing, and have somebody else check it.',
  needs: 'state, document, revision, date, drawnBy and checkedBy of harnesses and installations',
  sources: [
    'NFPA 1901 ch. 13 tags with part number and revision, as quoted in public specifications',
    'common practice',
  ],
  examples: { trips: example({}), passes: example({ checkedBy: 'M. Teal' }) },
  *check({ loom }) {
    yield* judge(loom.source, loom.id, loom.at)
    if (loom.kind === 'harness') return
    for (const harness of new Set(loom.looms.map((use) => use.harness))) {
      const use = loom.looms.find((one) => one.harness === harness)
      const half = use?.halves[0]
      const at = half ? { doc: half.at.doc, path: half.at.path.slice(0, -2) } : loom.at
      yield* judge(harness, harness.id, at)
    }
  },
}
