import { formatAmps, formatVolts } from '../../base/format-quantity.ts'
import { type GroundLoop, groundLoops, legOf } from '../../solve/ground-loops.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found, listOf, unknown } from '../outcome.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (isolated: boolean) =>
  wired({
    units: {
      supply: cell({ maxAmps: '3 A' }),
      player: {
        pins: {
          ...load('0.5 A').pins,
          '3': { kind: 'audio-out', level: 'line', leg: 'single', port: 'out', ohms: '100 Ω', dbu: '0 dBu' },
          '4': { kind: 'signal-return', port: 'out' },
        },
        ...(isolated ? {} : { joins: [{ pins: ['J.2', 'J.4'] }] }),
      },
      amplifier: {
        pins: {
          ...load('0.5 A').pins,
          '3': { kind: 'audio-in', level: 'line', leg: 'single', port: 'in', ohms: '10 kΩ', dbu: '0 dBu' },
          '4': { kind: 'signal-return', port: 'in' },
        },
        joins: [{ pins: ['J.2', 'J.4'] }],
      },
    },
    splices: ['SP1', 'SP2'],
    runs: [
      ['supply.1', 'SP1', { size: '2.5 mm²', length: '0.2 m' }],
      ['SP1', 'player.1', { size: '2.5 mm²', length: '1 m' }],
      ['SP1', 'amplifier.1', { size: '2.5 mm²', length: '1 m' }],
      ['SP2', 'supply.2', { size: '2.5 mm²', length: '0.2 m' }],
      ['player.2', 'SP2', { size: '2.5 mm²', length: '1 m' }],
      ['amplifier.2', 'SP2', { size: '2.5 mm²', length: '1 m' }],
      ['player.3', 'amplifier.3'],
      ['player.4', 'amplifier.4'],
    ],
  })

function tell({ conductors, units, links }: GroundLoop, { solution }: RuleContext): Outcome | undefined {
  const signal = links.find((link) => legOf(link) === 'signal')
  const wire = signal?.conductor
  if (!signal || !wire) return undefined
  const amps = solution.worstLinkAmps.get(signal)?.amps
  const ohms = solution.linkOhms[signal.index]?.ohms
  const volts = amps === undefined || ohms === undefined ? undefined : amps * ohms
  return found({
    subject: wire.address,
    what: `${wire.id} closes a ground loop through ${listOf(units, 4)}`,
    why: `An unbalanced signal return lies beside a supply return or body metal: ${listOf(
      conductors.map(({ id }) => id),
      6,
    )}${volts === undefined || amps === undefined ? '' : `; ${formatAmps(amps)} of supply current take that way, ${formatVolts(volts)} in ${wire.id}`}.`,
    fix: 'Open the loop in the signal with a transformer, a balanced line or an isolated port; never in a protective earth.',
    facts: {
      links: { value: conductors.length },
      ...(volts === undefined ? {} : { volts: { value: volts, unit: 'V' } }),
    },
    at: wire.at,
    cause: `loop:${wire.address}`,
    marks: conductors.map((conductor) => conductor.address),
  })
}

export const groundLoopInSignal: Rule = {
  id: 'ground-loop-in-signal',
  title: 'Units in one audio chain meet at one ground, or are isolated',
  family: 'grounding',
  level: 'warning',
  covers: ['G7'],
  reason:
    'Two units that are grounded each for itself and joined by an unbalanced lead share a loop. Supply current and every field through the loop add to the signal: the whine that follows the engine.',
  remedy: 'One ground point for the chain, a transformer, or balanced lines.',
  needs: 'the ground pins of units and what is joined inside them',
  sources: ['RaneNote 151', 'vehicle-audio notes: the ground loop “nine times out of ten”'],
  examples: { trips: example(false), passes: example(true) },
  *check(context) {
    const { loops, left } = groundLoops(context.loom)
    const told = new Set<string>()
    for (const loop of loops) {
      if (
        !loop.legs.has('signal') ||
        !(loop.legs.has('power') || loop.legs.has('bond')) ||
        loop.units.length < 2
      )
        continue
      // The stations of a party line share their common with the supply on purpose, unless the shop judges it.
      const shared = context.loom.settings.partyLineCommon === 'shared'
      const units = context.loom.units.filter((unit) => loop.units.includes(unit.id))
      if (
        shared &&
        units.every((unit) => unit.equipment.role === 'intercom' || unit.equipment.role === 'distribution')
      )
        continue
      const outcome = tell(loop, context)
      if (!outcome || !('finding' in outcome) || told.has(outcome.finding.subject)) continue
      told.add(outcome.finding.subject)
      yield outcome
    }
    if (left > 0)
      yield unknown(
        context.loom.id,
        `needs a look by hand: ${left} more ground loops were not followed`,
        context.loom.at,
      )
  },
}
