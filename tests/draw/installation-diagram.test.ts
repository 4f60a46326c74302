import { describe, expect, it } from 'vitest'
import { diagramModel } from '../../src/draw/installation-diagram/diagram-model.ts'
import { drawDiagram } from '../../src/draw/installation-diagram/draw-diagram.ts'
import { pageSvg } from '../../src/draw/scene-page.ts'
import { job } from '../demos/demo-shop.ts'
import { inspect } from './inspect.ts'

describe.each(['council-pickup', 'harbour-launch', 'theatre'])('the installation diagram of %s', (id) => {
  const { loom } = job(id)

  it('has no text on text, on a line or off the sheet', async () => {
    const page = await drawDiagram(loom)
    if (!page) throw new Error('no diagram')
    for (const { items } of page.layers) expect(inspect(items, { w: 1e5, h: 1e5 }).faults).toEqual([])
    const drawing = page.layers[1]
    expect(drawing?.scale).toBeGreaterThanOrEqual(0.72)
    expect(pageSvg(page)).toBe(pageSvg((await drawDiagram(loom)) ?? page))
  })

  it('shows every unit, fuse and zone, and every conductor between two of them', () => {
    const { blocks, lines, zones } = diagramModel(loom)
    const ids = new Set(blocks.map((block) => block.id))
    for (const unit of loom.units) if (unit.equipment.role !== 'chassis') expect(ids).toContain(unit.id)
    for (const part of loom.components) if (part.loom) expect(ids).toContain(part.address)
    for (const { zone } of blocks) if (zone) expect(zones.map((one) => one.id)).toContain(zone)
    for (const { from, to } of lines) expect([ids.has(from), ids.has(to)]).toEqual([true, true])
  })
})

it('gives the length on the line of a feeder', () => {
  const feeder = diagramModel(job('council-pickup').loom).lines.find(({ words }) =>
    words[0]?.includes('ANT FEEDER'),
  )
  expect(feeder).toMatchObject({ kind: 'cable', words: ['main W3 ANT FEEDER', '4.5 m'] })
})
