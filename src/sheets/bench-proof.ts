import type { Loom, LoomUse } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'
import { type StepDraft, said } from './bench-step.ts'
import { ringOutSteps, type StepGroup } from './ring-out.ts'
import type { Step } from './ring-out-step.ts'

/** The ring-out step by step: what must be joined, what must not, and what only the eye can tell. */
export function proofSteps(loom: Loom, use: LoomUse, solution: Solution | undefined): StepDraft[] {
  return ringOutSteps(loom, use, solution).flatMap((group) =>
    group.steps.map((step) => proofStep(group, step)),
  )
}

function proofStep({ title, note, proves }: StepGroup, step: Step): StepDraft {
  const { limit } = step
  const looked = proves === 'look'
  return {
    stage: proves,
    section: title,
    note,
    what: `${step.a} to ${step.b}`,
    facts: said([
      { name: 'Expect', text: step.expect, big: true },
      { name: looked ? 'End A' : 'Probe A', text: step.a },
      { name: looked ? 'End B' : 'Probe B', text: step.b },
      { name: 'Worked out', text: step.nominal ?? '' },
      // Pairs are told by their colours, which have to be read from where the cable is held.
      { name: 'What', text: step.through ?? '', big: looked },
    ]),
    ask: limit === undefined ? 'look' : 'ohms',
    ...(limit?.minOhms === undefined ? {} : { min: limit.minOhms }),
    ...(limit?.maxOhms === undefined ? {} : { max: limit.maxOhms }),
    a: step.probes?.a ?? [],
    b: step.probes?.b ?? [],
  }
}
