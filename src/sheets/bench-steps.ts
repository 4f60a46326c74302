import { hashCode } from '../base/hash.ts'
import type { Loom, LoomUse, Terminal } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'
import { makeSteps } from './bench-make.ts'
import type { BenchSpot, BenchStep, StepDraft } from './bench-step.ts'
import { groupBy } from './group-by.ts'
import { ringOutSteps } from './ring-out.ts'
import type { Step } from './ring-out-step.ts'

/** Everything to do to one loom at the bench, in order: cut, fit, then ring out. */
export function benchSteps(loom: Loom, use: LoomUse, solution: Solution | undefined): BenchStep[] {
  return withIds([...makeSteps(loom, use), ...testSteps(loom, use, solution)])
}

/** The id is made from what the step says, so that a mark is never carried over to a step that has changed. */
function withIds(drafts: readonly StepDraft[]): BenchStep[] {
  const seen = new Map<string, number>()
  return drafts.map((draft) => {
    const code = hashCode(JSON.stringify(draft))
    const count = (seen.get(code) ?? 0) + 1
    seen.set(code, count)
    return { id: count === 1 ? code : `${code}-${count}`, ...draft }
  })
}

function testSteps(loom: Loom, use: LoomUse, solution: Solution | undefined): StepDraft[] {
  return ringOutSteps(loom, use, solution).flatMap(({ title, note, steps }) =>
    steps.map((step) => testStep(title, note, step)),
  )
}

function testStep(section: string, note: string, step: Step): StepDraft {
  const { limit } = step
  const look = limit === undefined
  return {
    stage: 'test',
    section,
    what: `${step.a} to ${step.b}`,
    facts: [
      { name: 'Expect', text: step.expect, big: true },
      { name: 'Probe A', text: step.a },
      { name: 'Probe B', text: step.b },
      { name: 'Worked out', text: step.nominal ?? '' },
      { name: 'What', text: step.through ?? '' },
      { name: 'How', text: note },
    ].filter(({ text }) => text !== ''),
    ask: look ? 'look' : 'ohms',
    ...(limit?.minOhms === undefined ? {} : { min: limit.minOhms }),
    ...(limit?.maxOhms === undefined ? {} : { max: limit.maxOhms }),
    a: spotsOf(step.probes?.a ?? []),
    b: spotsOf(step.probes?.b ?? []),
  }
}

/** Pins by the half they are on; terminals of components have no face. */
function spotsOf(terminals: readonly Terminal[]): BenchSpot[] {
  return [...groupBy(terminals, (terminal) => terminal.half)].flatMap(([half, pins]) =>
    half ? [{ half: half.id, pins: pins.map((pin) => pin.name) }] : [],
  )
}
