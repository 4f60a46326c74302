import { describe, expect, test } from 'vitest'
import { compareProcedures } from '../../src/compare/compare-procedures.ts'
import { subjectHeading, subjectSentences } from '../../src/compare/sentences.ts'

const FILE = 'fit.md'
const OLD = `# Fit the set

1. Battery off, negative first.
2. Run W1 under the sill,
   label at each end.
3. Fit F1 last.

Close up.
`

function told(text: string, file = FILE): string[] {
  return compareProcedures([{ file: FILE, text: OLD }], [{ file, text }]).flatMap((subject) => [
    subjectHeading(subject),
    ...subjectSentences(subject),
  ])
}

describe('procedures are compared passage by passage', () => {
  test.each([
    { name: 'nothing', text: OLD, says: [] },
    {
      name: 'only how lines are broken, spaces, line ends and the numbers of a list',
      text: OLD.replace('sill,\n   label', 'sill, label')
        .replace('3. Fit', '7)   Fit')
        .replaceAll('\n', '\r\n'),
      says: [],
    },
    {
      name: 'a word',
      text: OLD.replace('F1 last', 'F2 last'),
      says: [
        'Procedure fit.md, Fit the set',
        'Passage at line 6: text changes from “Fit F1 last.” to “Fit F2 last.”.',
      ],
    },
    {
      name: 'a step between, which renumbers the rest',
      text: OLD.replace('3. Fit F1 last.', '3. Ring out W1.\n4. Fit F1 last.'),
      says: ['Procedure fit.md, Fit the set', 'Passage at line 6 is added: “Ring out W1.”.'],
    },
    {
      name: 'a step less',
      text: OLD.replace('1. Battery off, negative first.\n', ''),
      says: [
        'Procedure fit.md, Fit the set',
        'Passage at line 3 is removed: “Battery off, negative first.”.',
      ],
    },
    {
      name: 'another file name',
      text: OLD,
      file: 'fit-set.md',
      says: ['Procedure fit.md, now fit-set.md, Fit the set'],
    },
    { name: 'another folder', text: OLD, file: 'new/fit.md', says: [] },
    {
      name: 'another procedure',
      text: '# Take it out\n\nAll of it.\n',
      file: 'out.md',
      says: ['Procedure out.md is added: Take it out', 'Procedure fit.md is removed: Fit the set'],
    },
  ])('$name', ({ text, file, says }) => {
    expect(told(text, file)).toEqual(says)
  })

  test('files too long to be laid side by side are compared all the same', () => {
    const lines = Array.from({ length: 3000 }, (_, i) => `Step number ${i} of many.`)
    const [before, after] = [lines, lines.toSpliced(1500, 1)].map((list) => ({
      file: FILE,
      text: list.join('\n\n'),
    }))
    if (!before || !after) throw new Error('both are there')
    const [subject] = compareProcedures([before], [after])
    expect(subject?.things.map(({ change, facts }) => [change, facts])).toEqual([
      ['removed', '“Step number 1500 of many.”'],
    ])
  })
})
