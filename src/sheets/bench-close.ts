import type { Half, LoomUse } from '../resolve/loom.ts'
import { listed, type StepDraft, said } from './bench-step.ts'
import { endName, endsAt, wireFacts } from './bench-wire.ts'
import { isPlugged } from './fitting.ts'
import { type Landings, landingsAt } from './landings.ts'
import { pinNames } from './names.ts'

const NOTE = 'Last look before a backshell hides it.'

/** Screens onto shells, then each connector looked over and closed, then the loom as a whole. */
export function closeSteps(use: LoomUse, landings: Landings): StepDraft[] {
  const plugs = use.halves.filter((half) => half.pins.size > 1)
  const steps = plugs.flatMap((half) => [...shellStep(half, landings), closeStep(half, landings)])
  return [...steps, wholeStep]
}

/** Whatever lands on the shell goes under its clamp when the connector is closed. */
function shellStep(half: Half, landings: Landings): StepDraft[] {
  const shell = half.pins.get('shell')
  const ends = shell ? endsAt(landingsAt(landings, shell), shell) : []
  if (!shell || ends.length === 0) return []
  return [
    {
      stage: 'close',
      section: `Close ${half.id}`,
      note: NOTE,
      what: `${listed(ends.map(endName))}, on the shell of ${half.id}`,
      facts: said([
        ...wireFacts(ends),
        { name: 'How', text: 'Under the clamp all round, no strand loose towards the contacts.' },
      ]),
      ask: 'done',
      a: [shell],
      joins: ends,
      settles: [shell],
    },
  ]
}

function closeStep(half: Half, landings: Landings): StepDraft {
  const pins = [...half.pins.values()].filter(({ name }) => name !== 'shell')
  const wired = pins.filter((pin) => landingsAt(landings, pin).length > 0)
  const bare = pins.filter((pin) => !wired.includes(pin))
  const plugged = bare.filter(({ name }) => isPlugged(half, name))
  const empty = bare.filter((pin) => !plugged.includes(pin))
  const label = 'label' in half.source ? half.source.label : undefined
  return {
    stage: 'close',
    section: `Close ${half.id}`,
    note: NOTE,
    what: `Look ${half.id} over and close it`,
    facts: said([
      { name: 'Wired', text: `${wired.length}: ${pinNames(wired)}`, big: true },
      {
        name: 'Plugged',
        text: plugged.length === 0 ? '' : `${plugged.length}: ${pinNames(plugged)}`,
        big: true,
      },
      { name: 'Empty', text: empty.length === 0 ? 'none' : `${empty.length}: ${pinNames(empty)}`, big: true },
      { name: 'Look', text: 'All contacts equally deep, no bare strand, no nicked insulation.' },
      {
        name: 'Then',
        text: 'Second lock home where there is one, strain relief on the jacket, backshell on.',
      },
      { name: 'Label', text: label ? `${half.id} ${label}` : half.id },
    ]),
    ask: 'done',
    a: wired,
    settles: empty,
  }
}

const wholeStep: StepDraft = {
  stage: 'close',
  section: 'The whole loom',
  what: 'Look the loom over',
  facts: [
    { name: 'Look', text: 'Every wire and plug has its label at both ends, reading outward.' },
    { name: 'And', text: 'Splices and breakouts covered, ties cut flush, nothing pulled tight at a plug.' },
    { name: 'Write', text: 'Serial number, revision and match code on the loom’s own label.' },
  ],
  ask: 'done',
}
