import { expect, test } from 'vitest'
import { matchRevisions } from '../../src/compare/match-revisions.ts'
import type { DiagramModel } from '../../src/draw/installation-diagram/diagram-model.ts'
import { diagramModel } from '../../src/draw/installation-diagram/diagram-model.ts'
import { overlayDiagram } from '../../src/wiki/compare-diagram.ts'
import { type Data, demoDocuments, revisionOf } from '../compare/revisions.ts'

/** The diagram of the mended pickup before and after an edit, one over the other. */
async function overlaid(edit: (data: Data) => void): Promise<DiagramModel | undefined> {
  const documents = await demoDocuments('pickup/mended.ts')
  const before = revisionOf(structuredClone(documents))
  const [main] = documents
  if (!main) throw new Error('the demo is there')
  edit(main.data)
  const after = revisionOf(documents)
  const job = matchRevisions(before, after).jobs.get('council-pickup')
  if (!job) throw new Error('the job is there')
  return overlayDiagram(diagramModel(job.before), diagramModel(job.after), job.match.address)
}

const job = (data: Data) => {
  const found = data.installations?.find(({ id }) => id === 'council-pickup')
  if (!found) throw new Error('the job is there')
  return found
}

const marks = (model: DiagramModel | undefined) => ({
  blocks: model?.blocks.flatMap(({ title, mark }) => (mark ? [`${mark}: ${title}`] : [])),
  lines: model?.lines.flatMap(({ words, mark }) => (mark ? [`${mark}: ${words[0]}`] : [])),
})

test('what looks the same is not drawn over', async () => {
  expect(await overlaid((data) => job(data).units.reverse())).toBeUndefined()
})

test('a unit more, one in another zone, one less: each with its word', async () => {
  const model = await overlaid((data) => {
    const { units } = job(data)
    units.push({ id: 'speaker-rear', of: 'speaker-8', zone: 'floor' })
    const modem = units.find(({ id }) => id === 'modem')
    Object.assign(modem ?? {}, { zone: 'floor' })
  })
  expect(marks(model)).toEqual({ blocks: ['changed: modem CHANGED', 'new: speaker-rear NEW'], lines: [] })
})

test('a loom taken out leaves its run as it was, and the others keep their names', async () => {
  const model = await overlaid((data) => {
    const one = job(data)
    one.looms = (one.looms ?? []).filter(({ id }) => id !== 'cord')
  })
  expect(marks(model)).toEqual({
    blocks: [],
    lines: [expect.stringMatching(/^was: REMOVED cord W1 /)],
  })
})

test('a renamed unit is the same unit', async () => {
  const model = await overlaid((data) => {
    const text = JSON.stringify(data.installations)
      .replaceAll('"modem.', '"data-modem.')
      .replaceAll('"id":"modem","of"', '"id":"data-modem","of"')
    data.installations = JSON.parse(text)
  })
  expect(marks(model)).toEqual({ blocks: ['changed: data-modem CHANGED'], lines: [] })
})
