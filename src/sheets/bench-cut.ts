import type { Loom, LoomUse } from '../resolve/loom.ts'
import { type BenchFact, type StepDraft, said } from './bench-step.ts'
import { cutList } from './cut-list.ts'
import { cellOf, type Row } from './sheet.ts'

/** Every wire and cable to cut, in the order of the cut list. */
export function cutSteps(loom: Loom, use: LoomUse): StepDraft[] {
  return cutList(loom, use).sections.flatMap(({ title, rows }) =>
    rows.map((row) => cutStep(loom, title ?? '', row)),
  )
}

function cutStep(loom: Loom, material: string, row: Row): StepDraft {
  const text = (key: string) => cellOf(row, { key, heading: key })
  const wire = loom.conductorAt.get(row.address ?? '')
  const tolerance = text('tolerance')
  const length = tolerance === '' ? text('length') : `${text('length')} (${tolerance} mm)`
  const colour: BenchFact = { name: 'Colour', text: text('colour'), big: true }
  return {
    stage: 'cut',
    section: `Cut: ${material}`,
    note: 'One reel at a time, longest piece first. Slip on what cannot be slipped on later.',
    what: `Cut ${text('wire')}`,
    facts: said([
      { name: 'Cut length', text: length, big: true },
      wire?.colour ? { ...colour, colour: wire.colour } : colour,
      { name: 'Size', text: text('size'), big: true },
      { name: 'Slip on first', text: text('first') },
      { name: 'Twist with', text: text('pair') },
      { name: 'Screen and spare cores', text: text('screen') },
      { name: 'Label at end A', text: text('labelA') },
      { name: 'Label at end B', text: text('labelB') },
    ]),
    ask: 'done',
  }
}
