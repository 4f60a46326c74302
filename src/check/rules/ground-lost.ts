import { formatAmps } from '../../base/format-quantity.ts'
import type { Loom } from '../../resolve/loom.ts'
import { type LostGround, loseGrounds } from '../../solve/simulate/lost-grounds.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found, unknown } from '../outcome.ts'
import { bears, SCREEN_AMPS } from '../queries/bears.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (bonded: boolean) =>
  wired({
    units: {
      supply: cell({ port: 'cell' }),
      radio: {
        pins: { ...load('8 A').pins, '3': { kind: 'signal-return' }, '4': { kind: 'unstated' } },
        joins: [{ pins: ['J.2', 'J.3'] }],
      },
      console: {
        pins: { '1': { kind: 'signal-return' }, '2': bonded ? { kind: 'chassis' } : { kind: 'spare' } },
        ...(bonded ? { joins: [{ pins: ['J.1', 'J.2'] }] } : {}),
      },
    },
    components: [{ id: 'F1', kind: 'fuse', rating: '15 A' }],
    splices: ['SP1'],
    runs: [
      ['supply.1', 'F1.in', { size: '4 mm²', length: '0.1 m' }],
      ['F1.out', 'radio.1', { size: '4 mm²' }],
      ['radio.2', 'SP1', { size: '4 mm²' }],
      ['SP1', 'supply.2', { size: '4 mm²', length: '0.1 m' }],
      ['radio.3', 'console.1', { size: '0.22 mm²' }],
      ...(bonded ? ([['console.2', 'SP1', { size: '4 mm²' }]] as const) : []),
    ],
  })

function tell(loom: Loom, { joint, state, amps, carriers }: LostGround): Outcome | undefined {
  const over = carriers.flatMap((carrier) => {
    const limit = bears(loom, carrier.conductor)
    return limit !== undefined && carrier.amps > limit ? [{ ...carrier, limit }] : []
  })
  const worst = over[0]
  if (!worst) return undefined
  const pin = joint.a.on === 'equipment' ? joint.a : joint.b
  return found({
    subject: worst.conductor.address,
    what: `If the ground at ${pin.address} opens, ${worst.conductor.id} carries ${formatAmps(worst.amps)} in ${state.id} (bears ${formatAmps(worst.limit)})`,
    why: `The joint carries ${formatAmps(amps)}; without it the current comes back by ${over
      .map((one) => one.conductor.id)
      .slice(0, 4)
      .join(', ')}, found by solving the loom with that joint open.`,
    fix: 'Give the supply return a second joint of full size, or isolate the signal (transformer, optocoupler, screen at one end).',
    assumed: [`${formatAmps(SCREEN_AMPS)} is the most for a screen or a signal return`],
    facts: {
      joint: { value: pin.address },
      amps: { value: worst.amps, unit: 'A' },
      limit: { value: worst.limit, unit: 'A' },
    },
    at: worst.conductor.at,
    cause: `loop:${worst.conductor.address}`,
    marks: [pin.address, ...over.map((one) => one.conductor.address)],
  })
}

export const groundLost: Rule = {
  id: 'ground-lost',
  title: 'If one ground joint opens, no screen carries the supply current',
  family: 'grounding',
  level: 'stop',
  covers: ['W21'],
  reason:
    'Ground joints corrode and get left off. The current then comes back by whatever else joins the units: a screen, a signal wire, the braid of the antenna lead. Those burn, and the equipment with them.',
  remedy: 'Short heavy bonds, two joints for the return, isolation in the signal, no fuse in the negative.',
  needs: 'sizes and lengths of returns and screens, and the load currents',
  sources: ['operators’ reports of supply current in coaxial braids', 'common practice'],
  examples: { trips: example(true), passes: example(false) },
  *check({ loom, solution }) {
    const { results, left } = loseGrounds(loom, solution)
    const told = new Set<string>()
    for (const result of results) {
      const outcome = tell(loom, result)
      if (!outcome || !('finding' in outcome) || told.has(outcome.finding.subject)) continue
      told.add(outcome.finding.subject)
      yield outcome
    }
    if (left > 0)
      yield unknown(
        loom.id,
        `needs a look by hand at ${left} more ground joints: they were not opened`,
        loom.at,
      )
  },
}
