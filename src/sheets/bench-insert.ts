import type { Half, Loom, LoomUse } from '../resolve/loom.ts'
import { isInserted } from './bench-join.ts'
import { listed, type StepDraft, said } from './bench-step.ts'
import { endName, endsAt, wireFacts } from './bench-wire.ts'
import { type Crimp, crimpGroups } from './crimp-sheet.ts'
import { isPlugged } from './fitting.ts'
import { type Landings, landingsAt } from './landings.ts'
import { pinNames } from './names.ts'

/** Contacts into their cavities, connector by connector, each in the order in which fingers still reach; then its plugs. */
export function insertSteps(loom: Loom, use: LoomUse, landings: Landings): StepDraft[] {
  const crimps = crimpGroups(loom, use).flatMap((group) => group.crimps.filter(isInserted))
  return use.halves.flatMap((half) => [
    ...crimps
      .filter((crimp) => crimp.half === half)
      .sort((a, b) => a.insert - b.insert)
      .map((crimp, index, all) => insertStep(crimp, index + 1, all.length)),
    ...plugStep(half, landings),
  ])
}

const INSERT_NOTE = 'Hold the plug as drawn, wires towards you. Nearest the middle first.'

function insertStep({ half, terminal, wires }: Crimp, nth: number, count: number): StepDraft {
  const ends = endsAt(wires, terminal)
  const clamped = half.family?.style === 'terminal'
  return {
    stage: 'insert',
    section: `Fill ${half.id}`,
    note: INSERT_NOTE,
    what: `${listed(ends.map(endName))}, into ${half.id} cavity ${terminal.name}`,
    facts: said([
      ...wireFacts(ends),
      { name: 'How', text: clamped ? 'To the stop, clamp, then tug.' : 'Push until it clicks, then tug.' },
      { name: 'Order', text: `${nth} of ${count} in ${half.id}` },
    ]),
    ask: 'done',
    a: [terminal],
    settles: [terminal],
  }
}

function plugStep(half: Half, landings: Landings): StepDraft[] {
  const open = [...half.pins.values()].filter(
    (pin) => isPlugged(half, pin.name) && landingsAt(landings, pin).length === 0,
  )
  if (open.length === 0) return []
  return [
    {
      stage: 'insert',
      section: `Fill ${half.id}`,
      note: INSERT_NOTE,
      what: `Plug the empty cavities of ${half.id}`,
      facts: said([{ name: 'Cavities', text: pinNames(open), big: true }]),
      ask: 'done',
      a: open,
      settles: open,
    },
  ]
}
