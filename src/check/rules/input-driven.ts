import type { PinFunction } from '../../describe/function.ts'
import type { Terminal } from '../../resolve/loom.ts'
import { type Crosses, throughMetal } from '../../solve/reach.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf } from '../outcome.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (driven: boolean) =>
  wired({
    units: {
      controller: {
        pins: { '1': { kind: 'switch-in', name: 'COR', active: 'high', pull: 'none' } },
      },
      receiver: {
        pins: {
          '1': driven
            ? { kind: 'switch-out', name: 'COR', form: 'push-pull', active: 'high' }
            : { kind: 'switch-in', name: 'INHIBIT', active: 'high', pull: 'none' },
        },
      },
    },
    runs: [['controller.1', 'receiver.1']],
  })

const INPUT_WORDS: Partial<Record<PinFunction['kind'], string>> = {
  'switch-in': 'A switching input left open reads high or low as its first stage drifts',
  'audio-in': 'An audio input left open amplifies what its wire picks up',
  data: 'A data input left open reads noise as characters',
}

/** Inputs that need something to set their level. The cold leg of an input has a rule of its own. */
function needsDriver({ does }: Terminal): boolean {
  if (does.kind === 'switch-in') return does.pull === undefined || does.pull === 'none'
  if (does.kind === 'audio-in') return does.leg !== 'cold' && does.bias === undefined
  // Which line of a serial port meets which is judged by the directions of that standard.
  return does.kind === 'data' && does.direction === 'in' && does.standard !== 'tia-232'
}

/** Pins that set no level: other inputs and pins without a function in the circuit. */
const PASSIVE: ReadonlySet<PinFunction['kind']> = new Set([
  'switch-in',
  'audio-in',
  'sense',
  'shield',
  'spare',
  'reserved',
])

function setsLevel(input: Terminal, { does, half }: Terminal): boolean {
  // A station of a party line speaks and listens on one pin.
  if (does.kind === 'audio-in' && half?.unit?.equipment.role === 'intercom') return true
  if (does.kind === 'data') return does.direction !== 'in'
  if (does.kind === 'switch-in') return does.pull === 'up' || does.pull === 'down'
  if (PASSIVE.has(does.kind)) return false
  // A level of 0 V is an answer to a switch; silence on a hot leg is not.
  const ground = ['return', 'chassis', 'signal-return'].includes(does.kind)
  return !(ground && input.does.kind !== 'switch-in')
}

interface Line {
  readonly driven: boolean
  /** It leaves what is described: a plug that mates with nothing, a pin whose function is not stated. */
  readonly leavesDescription: boolean
  readonly pins: readonly Terminal[]
}

/** What an input is joined to, through components and transformers too, as far as grounds and supplies, which hold their level. */
function reached({ paths }: RuleContext, input: Terminal): ReadonlySet<Terminal> {
  const holds = (pin: Terminal): boolean => {
    const net = paths.nets.net(pin)
    return paths.nets.isGround(net) || paths.nets.pins(net, 'supply-out').length > 0
  }
  const crosses: Crosses = (link, from) => throughMetal(link, from) || !holds(from)
  const met = new Set<Terminal>()
  const starts = [input]
  for (const start of starts) {
    if (met.has(start)) continue
    for (const pin of paths.from(start, crosses).order) {
      met.add(pin)
      if (pin.component?.source.kind === 'transformer') starts.push(...pin.component.terminals.values())
    }
  }
  met.delete(input)
  return met
}

function lineOf(context: RuleContext, input: Terminal): Line {
  const all = [...reached(context, input)]
  const pins = all.filter((pin) => pin.on === 'equipment')
  return {
    pins,
    driven: pins.some((pin) => setsLevel(input, pin)),
    leavesDescription:
      pins.some((pin) => pin.does.kind === 'unstated') ||
      all.some((pin) => pin.half?.side === 'harness' && pin.half.mates.length === 0),
  }
}

function report(input: Terminal, line: Line): Outcome {
  const others = line.pins.filter((pin) => pin.half?.unit !== input.half?.unit || pin.name !== input.name)
  const met = others.length > 0 ? `meets only ${listOf(others.map(pinWords), 4)}` : 'ends at no output'
  return found({
    subject: input.address,
    what: `${pinWords(input)} is wired and nothing drives it`,
    why: `Its line ${met}; 0 outputs and no pull. ${INPUT_WORDS[input.does.kind] ?? ''}.`,
    fix: 'Wire the output that belongs on it, fit a pull resistor to the level it should rest at, or state the pull it has inside.',
    facts: { drivers: { value: 0 }, pins: { value: line.pins.length } },
    at: input.at,
    marks: [input.address, ...others.map(({ address }) => address)],
  })
}

export const inputDriven: Rule = {
  id: 'input-driven',
  title: 'A wired input has something that sets its level',
  family: 'pins',
  level: 'warning',
  covers: ['P7'],
  reason:
    'An input wired to nothing that drives it behaves on the bench and fails in the vehicle: it reads high, or hums, or keys a transmitter when somebody walks past.',
  remedy: 'Wire its output, or fit a pull resistor.',
  needs: 'what each pin does, and "pull" of switching inputs',
  sources: ['common practice', 'repeater controller manuals: an unconnected input reads high'],
  examples: { trips: example(false), passes: example(true) },
  *check(context) {
    const told = new Set<Terminal>()
    for (const input of context.loom.terminals) {
      if (input.on !== 'equipment' || told.has(input) || !needsDriver(input)) continue
      if (context.paths.nets.conductorsAt(input).length === 0) continue
      const line = lineOf(context, input)
      if (line.driven || line.leavesDescription) continue
      for (const pin of line.pins) told.add(pin)
      yield report(input, line)
    }
  },
}
