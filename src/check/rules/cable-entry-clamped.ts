import type { HarnessConnector } from '../../describe/harness.ts'
import type { CableUse, Half, Loom } from '../../resolve/loom.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf, unknown } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (clamp: 'none' | 'clip') =>
  wired({
    units: { box: { pins: { '1': { name: 'A' } } }, panel: { pins: { '1': { name: 'A' } } } },
    parts: [
      {
        kind: 'cable',
        id: 'control-1',
        title: 'Jacketed core',
        cores: [{ name: '1', size: '0.5 mm²' }],
        od: '4 mm',
      },
    ],
    cables: [
      { id: 'W1', part: 'control-1', length: '2 m', cores: [{ core: '1', from: 'box.1', to: 'panel.1' }] },
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'box.J', clamp },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'panel.J', clamp: 'clip' },
      ],
    },
  })

/** Cables that enter each half of a loom. */
function entries(loom: Loom): ReadonlyMap<Half, readonly CableUse[]> {
  const byHalf = new Map<Half, CableUse[]>()
  for (const use of loom.looms)
    for (const cable of use.cables) {
      const ends = cable.conductors.flatMap(({ from, to }) => [from?.half, to?.half])
      for (const half of new Set(ends)) {
        if (half?.side !== 'harness' || half.family?.style === 'ring' || half.family?.style === 'stud')
          continue
        const list = byHalf.get(half) ?? []
        byHalf.set(half, list)
        list.push(cable)
      }
    }
  return byHalf
}

/** Whether something holds the cable: as this connector says, else as its family is made. */
function isClamped(half: Half): boolean | undefined {
  const { clamp } = half.source as HarnessConnector
  return clamp === undefined ? half.family?.clamp : clamp !== 'none'
}

function report(half: Half, cables: readonly CableUse[]): Outcome {
  const wires = cables.flatMap(({ conductors }) => conductors).length
  return found({
    subject: half.address,
    what: `Nothing holds ${listOf(cables.map(({ id }) => id))} at ${half.address}`,
    why: `${wires} conductors end there, and a pull on the jacket comes onto ${wires === 1 ? 'its crimp' : 'their crimps'}: the shortest breaks first.`,
    fix: 'Fit a hood with a clamp, a gland, or a clip on the jacket close behind, and say which ("clamp").',
    facts: { cables: { value: cables.map(({ id }) => id).join(' ') }, conductors: { value: wires } },
    at: half.at,
    marks: [half.address],
  })
}

export const cableEntryClamped: Rule = {
  id: 'cable-entry-clamped',
  title: 'A cable is held where it enters',
  family: 'routing',
  level: 'warning',
  covers: ['E5'],
  reason:
    'Contacts are made to conduct, not to carry. Without a clamp on the jacket every pull and every shake ends at the shortest core.',
  remedy: 'A hood with a clamp, a gland, or a clip on the jacket within a hand’s width.',
  needs: '"clamp" of connectors that cables enter, or of their family',
  sources: ['FAA AC 43.13-1B ¶11-235', 'IPC/WHMA-A-620 clause 14, from memory'],
  examples: { trips: example('none'), passes: example('clip') },
  *check({ loom }) {
    const silent: Half[] = []
    for (const [half, cables] of entries(loom)) {
      const clamped = isClamped(half)
      if (clamped === false) yield report(half, cables)
      else if (clamped === undefined) silent.push(half)
    }
    if (silent.length > 0)
      yield unknown(
        silent[0]?.loom?.id ?? loom.id,
        `needs what holds the cable at ${listOf(silent.map(({ address }) => address))} (clamp)`,
        silent[0]?.at,
      )
  },
}
