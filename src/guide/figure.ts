import { formatAmps, formatDays, formatOhms, formatRange, formatVolts } from '../base/format-quantity.ts'
import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import type { Conductor, Terminal } from '../resolve/loom.ts'
import { lengthText, sizeText } from '../sheets/names.ts'
import type { StateSolution } from '../solve/solution.ts'
import type { Citation } from './citation.ts'
import { type Expansion, type Facts, found, lost } from './facts.ts'
import { findPin } from './find-pin.ts'
import { lookUp } from './lookup.ts'

const PIN_FIGURES = ['volts', 'amps', 'drop', 'drain', 'days'] as const
const WIRE_FIGURES = ['ohms', 'amps', 'length', 'size'] as const

/** A figure of a pin (`volts`, `amps`, `drop` in a state; `drain`, `days`) or of a wire (`ohms`, `amps`, `length`, `size`). */
export function figureOf(facts: Facts, citation: Citation): Expansion {
  const [quantity = '', stateId] = citation.asks
  const wire = lookUp(facts, facts.loom.conductorAt, 'wire', citation.address)
  if (wire.ok) return wireFigure(facts, wire.thing, quantity, stateId)
  const pin = findPin(facts, citation.address)
  if (pin.ok) return pinFigure(facts, pin.thing, quantity, stateId)
  return lost(pin.problem.replace(/ no pin /, ' no pin or wire '), pin.fix)
}

const noSuch = (quantity: string, known: readonly string[], of: string): Expansion => {
  const hint = didYouMean(quantity, known)
  return lost(
    `${of} has no figure ${quote(quantity)}`,
    hint === '' ? `Ask for one of: ${known.join(', ')}.` : `Correct it.${hint}`,
  )
}

/** A figure that the description is too thin for is said as such: prose must not fall silent. */
const unknown = (address: string): Expansion => found('not known', address)

function wireFigure(facts: Facts, wire: Conductor, quantity: string, stateId: string | undefined): Expansion {
  const { loom, solution } = facts
  const link = loom.links.find((one) => one.conductor === wire)
  const text = (value: string | undefined) => (value ? found(value, wire.address) : unknown(wire.address))
  switch (quantity) {
    case 'ohms': {
      const ohms = link && solution?.linkOhms[link.index]?.ohms
      return text(ohms === undefined ? undefined : formatOhms(ohms))
    }
    case 'length':
      return text(lengthText(loom, wire.lengthMm))
    case 'size':
      return text(sizeText(wire.size))
    case 'amps': {
      if (stateId === undefined) {
        const worst = solution?.worstAmps.get(wire)
        return text(worst && `${formatAmps(worst.amps)} in ${worst.state.title}`)
      }
      return inState(facts, stateId, (state) => {
        const amps = link && state.amps[link.index]
        return text(amps === undefined || Number.isNaN(amps) ? undefined : formatAmps(Math.abs(amps)))
      })
    }
    default:
      return noSuch(quantity, WIRE_FIGURES, `wire ${quote(wire.id)}`)
  }
}

function inState(facts: Facts, stateId: string, then: (state: StateSolution) => Expansion): Expansion {
  const ids = facts.loom.states.map((state) => state.id)
  if (!ids.includes(stateId)) {
    const hint = didYouMean(stateId, ids)
    return lost(
      `there is no operating state ${quote(stateId)}`,
      hint === '' ? `Use one of: ${ids.join(', ')}.` : `Correct it.${hint}`,
    )
  }
  const state = facts.solution?.states.find((one) => one.state.id === stateId)
  return state ? then(state) : found('not known')
}

function pinFigure(facts: Facts, pin: Terminal, quantity: string, stateId: string | undefined): Expansion {
  const text = (value: string | undefined) => (value ? found(value, pin.address) : unknown(pin.address))
  if (quantity === 'drain' || quantity === 'days') {
    const drain = facts.solution?.drains.find((one) => one.source === pin)
    const days = drain?.days === undefined ? undefined : formatDays(drain.days)
    return text(quantity === 'drain' ? drain && formatAmps(drain.amps) : days)
  }
  if (quantity === 'volts' && stateId === undefined)
    return text('volts' in pin.does && pin.does.volts ? formatRange(pin.does.volts, formatVolts) : undefined)
  if (!(PIN_FIGURES as readonly string[]).includes(quantity))
    return noSuch(quantity, PIN_FIGURES, `pin ${quote(pin.address)}`)
  if (stateId === undefined)
    return lost(
      `${quote(quantity)} needs an operating state`,
      `Write “${pin.address}/${quantity}/transmit”, or another state.`,
    )
  return inState(facts, stateId, (state) => text(pinInState(pin, quantity, state)))
}

function pinInState(pin: Terminal, quantity: string, state: StateSolution): string | undefined {
  const load = state.loads.find((one) => one.terminal === pin)
  if (quantity === 'volts') {
    const volts = state.volts[pin.index]
    const value = load?.volts ?? volts
    return value === undefined || Number.isNaN(value) ? undefined : formatVolts(value)
  }
  if (quantity === 'drop') return load && formatVolts(load.dropVolts)
  const amps = load?.amps ?? state.sources.find((one) => one.terminal === pin)?.amps
  return amps === undefined ? undefined : formatAmps(amps)
}
