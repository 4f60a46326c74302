import { formatAmps, formatOhms, formatVolts } from '../../base/format-quantity.ts'
import type { Circuit, Terminal } from '../../resolve/loom.ts'
import { coilAmps } from '../../solve/formulas/relay-coil.ts'
import { across } from '../../solve/reach.ts'
import { returnPin } from '../../solve/return-pin.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { type DrivenCoil, drivenCoils, isSwitch, type Switch } from '../queries/driven-coils.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (coil: '80 Ω' | '160 Ω') =>
  exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf(
        'radio',
        socket('J1', 'row-2', {
          '1': { kind: 'supply-out', volts: '12..14.4 V', feed: 'switched', maxAmps: '0.5 A' },
          '2': {
            kind: 'switch-out',
            name: 'ALARM',
            form: 'open-collector',
            active: 'low',
            maxAmps: '100 mA',
            maxVolts: '30 V',
          },
        }),
      ),
    ],
    harness: {
      connectors: [{ id: 'P1', family: 'row-2', half: 'pin', fits: 'radio.J1' }],
      components: [
        { id: 'F1', kind: 'fuse', rating: '0.5 A' },
        { id: 'K1', kind: 'relay', coil, coilVolts: '12 V', suppressed: 'diode' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'F1.in', size: '0.5 mm²', length: '0.1 m' },
        { id: 'A02', from: 'F1.out', to: 'K1.86', size: '0.5 mm²', length: '1 m' },
        { id: 'A03', from: 'K1.85', to: 'P1.2', size: '0.5 mm²', length: '1 m' },
      ],
    },
  })

/** One thing that draws current through an output; amps undefined where a figure is missing. */
interface Drawn {
  readonly address: string
  readonly words: string
  readonly amps?: number
  readonly volts?: number
  readonly needs?: string
}

function resisted(address: string, ohms: number | undefined, volts: number | undefined, what: string): Drawn {
  if (!ohms) return { address, words: address, needs: `the resistance of ${what} ${address}` }
  if (volts === undefined) return { address, words: address, needs: `the voltage that feeds ${address}` }
  const words = `${address}: ${formatVolts(volts)} / ${formatOhms(ohms)} = ${formatAmps(coilAmps(volts, ohms))}`
  return { address, words, volts, amps: coilAmps(volts, ohms) }
}

/** The voltage a switching output passes on, where it is the one that feeds. */
function ownVolts({ paths }: RuleContext, driver: Switch): number | undefined {
  const pins = driver.half?.unit?.halves.flatMap((half) => [...half.pins.values()]) ?? []
  const volts = pins.flatMap((pin) =>
    pin.does.kind === 'supply-in' ? [paths.highestVolts(pin)?.volts ?? 0] : [],
  )
  const highest = Math.max(0, ...volts)
  return highest > 0 ? highest : undefined
}

const isLoad = ({ does }: Terminal): boolean => does.kind === 'supply-in'

const drawsBy = ({ does }: Terminal): number | undefined => {
  if (does.kind !== 'supply-in' || does.amps === undefined) return undefined
  return typeof does.amps === 'number' ? does.amps : Math.max(...Object.values(does.amps))
}

/** Loads that hang on the output by their plus or by their return. */
function loadsOn({ terminals }: Circuit): readonly Drawn[] {
  const loads = terminals.flatMap((pin) => {
    if (pin.on !== 'equipment') return []
    if (isLoad(pin)) return [pin]
    const pins = pin.does.kind === 'return' ? (pin.half?.unit?.halves ?? []) : []
    return pins.flatMap((half) => [...half.pins.values()].filter((at) => isLoad(at) && returnPin(at) === pin))
  })
  return [...new Set(loads)].map((pin) => {
    const { address } = pin
    const amps = drawsBy(pin)
    if (amps === undefined) return { address, words: address, needs: `what ${address} draws` }
    return { address, words: `${address}: ${formatAmps(amps)}`, amps }
  })
}

/** Resistors from the output to a supply: a lamp, a heater, a pull-up. */
function resistorsOn({ loom, paths }: RuleContext, { terminals }: Circuit): readonly Drawn[] {
  return terminals.flatMap((terminal) =>
    (loom.linksAt[terminal.index] ?? []).flatMap((link): Drawn[] => {
      const far = across(link, terminal)
      const isFed = paths.nets.pins(paths.nets.net(far), 'supply-out').length > 0
      if (link.kind !== 'resistor' || !link.component || !isFed) return []
      return [resisted(link.component.address, link.ohms, paths.highestVolts(far)?.volts, 'the resistor')]
    }),
  )
}

function drawnThrough(context: RuleContext, driver: Switch, coils: readonly DrivenCoil[]): readonly Drawn[] {
  const { nets, highestVolts } = context.paths
  const circuit = nets.circuit(nets.net(driver))
  if (circuit.nets.some((net) => nets.isGround(net) || nets.pins(net, 'supply-out').length > 0)) return []
  // A motor is counted by the current it states, as a load.
  const wound = coils.filter((coil) => coil.driver === driver && ![coil.plus, coil.minus].some(isLoad))
  return [
    ...wound.map((coil) => {
      const volts = highestVolts(coil.plus)?.volts ?? ownVolts(context, driver)
      return resisted(coil.address, coil.ohms, volts, 'the coil')
    }),
    ...resistorsOn(context, circuit),
    ...loadsOn(circuit),
  ]
}

function tooMuch(driver: Switch, maxAmps: number, drawn: readonly Drawn[]): Outcome {
  const known = drawn.filter((each) => each.amps !== undefined)
  const amps = known.reduce((sum, each) => sum + (each.amps ?? 0), 0)
  const only = known.length === 1 ? known[0] : undefined
  const cure =
    only?.volts === undefined
      ? 'Take loads off it'
      : `Use a coil of ${formatOhms(Math.ceil(only.volts / maxAmps))} or more`
  return found({
    subject: driver.address,
    what: `${pinWords(driver)} has to switch ${formatAmps(amps)} (limit ${formatAmps(maxAmps)})`,
    why: `${listOf(known.map((each) => each.words))}. An output that is driven past its limit does not pull all the way down, heats, and fails.`,
    fix: `${cure}, or let a transistor or a smaller relay drive it.`,
    facts: { current: { value: amps, unit: 'A' }, limit: { value: maxAmps, unit: 'A' } },
    at: driver.at,
    marks: [driver.address, ...known.map((each) => each.address)],
  })
}

function judge(context: RuleContext, driver: Switch, coils: readonly DrivenCoil[]): Outcome | undefined {
  const drawn = drawnThrough(context, driver, coils)
  if (drawn.length === 0) return undefined
  const { maxAmps } = driver.does
  if (maxAmps === undefined)
    return unknown(driver.address, `needs the most ${driver.address} may switch`, driver.at)
  const amps = drawn.reduce((sum, each) => sum + (each.amps ?? 0), 0)
  if (amps > maxAmps) return tooMuch(driver, maxAmps, drawn)
  const missing = drawn.flatMap((each) => each.needs ?? [])
  return missing.length > 0 ? unknown(driver.address, `needs ${listOf(missing)}`, driver.at) : undefined
}

export const switchCurrent: Rule = {
  id: 'switch-current',
  title: 'A switching output is not asked for more current than it may switch',
  family: 'switching',
  level: 'stop',
  covers: ['L2'],
  reason:
    'The output for a relay is a small transistor. A coil that takes more than it may sink leaves it half on: the relay chatters, the transistor heats, and it fails shorted, with the relay pulled in for good.',
  remedy: 'Use a relay with a higher coil resistance, or a driver between.',
  needs: 'the current rating of the output, and the resistance or the current of what it switches',
  sources: ['common practice'],
  examples: { trips: example('80 Ω'), passes: example('160 Ω') },
  *check(context) {
    const coils = drivenCoils(context)
    for (const pin of context.loom.terminals) {
      if (!isSwitch(pin)) continue
      const outcome = judge(context, pin, coils)
      if (outcome) yield outcome
    }
  },
}
