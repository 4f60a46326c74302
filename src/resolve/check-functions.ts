import { formatVolts } from '../base/format-quantity.ts'
import { below } from '../base/place.ts'
import type { GraphBuilder } from './graph-builder.ts'
import type { Terminal, Unit } from './loom.ts'

/** Statements about pins of equipment that cannot both be true. */
export function checkFunctions(b: GraphBuilder): void {
  const seen = new Set<string>()
  for (const unit of b.units) {
    if (seen.has(unit.equipment.id)) continue
    seen.add(unit.equipment.id)
    for (const half of unit.halves) for (const pin of half.pins.values()) checkPin(b, unit, pin)
    checkLegs(b, unit)
  }
}

function contradiction(
  b: GraphBuilder,
  unit: Unit,
  pin: Terminal,
  key: string,
  what: string,
  fix: string,
): void {
  b.report({
    rule: 'contradiction',
    subject: `${unit.equipment.id}/${pin.half?.id}.${pin.name}`,
    what,
    fix,
    at: below(pin.at, key),
    marks: [pin.address],
  })
}

function checkPin(b: GraphBuilder, unit: Unit, pin: Terminal): void {
  const { does } = pin
  const name = `${unit.equipment.id} ${pin.half?.id}.${pin.name}`
  if (does.connect === 'must' && (does.kind === 'reserved' || does.kind === 'spare'))
    contradiction(
      b,
      unit,
      pin,
      'connect',
      `${name} is ${does.kind} and yet must be connected`,
      'Say what the pin does, or drop "must".',
    )
  if ((does.kind === 'supply-in' || does.kind === 'supply-out') && does.volts && does.limit) {
    const { volts, limit } = does
    if (volts.max > limit.max || volts.min < limit.min)
      contradiction(
        b,
        unit,
        pin,
        'limit',
        `${name} works at ${formatVolts(volts.min)} to ${formatVolts(volts.max)}, but its limit is ${formatVolts(limit.min)} to ${formatVolts(limit.max)}`,
        'Correct the working range or the limit.',
      )
  }
  if (does.kind === 'rf' && does.from !== undefined && does.to !== undefined && does.from > does.to)
    contradiction(
      b,
      unit,
      pin,
      'from',
      `${name} runs from a higher frequency to a lower one`,
      'Write the lower frequency under "from".',
    )
}

/** Two pins of one port cannot both be its hot leg. */
function checkLegs(b: GraphBuilder, unit: Unit): void {
  const legs = new Map<string, Terminal>()
  for (const half of unit.halves)
    for (const pin of half.pins.values()) {
      const { does } = pin
      if ((does.kind !== 'audio-in' && does.kind !== 'audio-out') || does.port === undefined) continue
      if (does.leg === undefined || does.leg === 'single') continue
      const key = `${does.kind}\n${does.port}\n${does.leg}`
      const first = legs.get(key)
      if (first)
        contradiction(
          b,
          unit,
          pin,
          'leg',
          `${unit.equipment.id} ${first.half?.id}.${first.name} and ${half.id}.${pin.name} are both the ${does.leg} leg of port ${does.port}`,
          'Correct one leg, or give the second output a port of its own.',
        )
      else legs.set(key, pin)
    }
}
