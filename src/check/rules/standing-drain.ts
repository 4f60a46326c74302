import { formatAmpHours, formatAmps } from '../../base/format-quantity.ts'
import type { Installation } from '../../describe/installation.ts'
import type { Loom } from '../../resolve/loom.ts'
import { standingDrainAllowed } from '../../solve/formulas/days-to-flat.ts'
import { sensePin } from '../../solve/sense-pin.ts'
import type { Drain } from '../../solve/solution.ts'
import { vehicleExample } from '../examples/vehicle.ts'
import { found, unknown } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

/** Below this a drain is the battery's own loss. */
const LEAST_AMPS = 1e-6

const parkedDays = (loom: Loom): number =>
  (loom.kind === 'installation' ? (loom.source as Installation).parked : undefined) ??
  loom.settings.parkedDays

/** "3.0 days": one decimal, since that is what the sum is worth. */
const daysWords = (days: number): string => `${days.toFixed(days < 10 ? 1 : 0)} days`

function report(drain: Drain, usableAh: number, days: number, wanted: number): Outcome {
  const allowed = standingDrainAllowed(usableAh, wanted)
  const [most] = drain.parts
  const sense = most && sensePin(most.terminal)
  const parts = drain.parts
    .slice(0, 3)
    .map(({ terminal, amps, why }) => `${terminal.address} ${formatAmps(amps)} (${why})`)
  return found({
    subject: drain.source.address,
    what: `${formatAmps(drain.amps)} while parked flattens the battery in ${daysWords(days)} (${daysWords(wanted)} asked for)`,
    why: `${formatAmpHours(usableAh)} usable ÷ (24 h × ${formatAmps(drain.amps)}) = ${daysWords(days)}: ${parts.join('; ')}.`,
    fix: `At most ${formatAmps(allowed)} for ${daysWords(wanted)}: ${
      sense
        ? `put ${sense.address} on a feed that the ignition switches, so that ${most?.terminal.half?.unit?.id} goes off with it`
        : 'take the largest of them from a switched feed, or fit a timer or a low-volt cut-out'
    }.`,
    facts: {
      drain: { value: drain.amps, unit: 'A' },
      usable: { value: usableAh, unit: 'Ah' },
      days: { value: days, unit: 'days' },
      wanted: { value: wanted, unit: 'days' },
      allowed: { value: allowed, unit: 'A' },
    },
    at: most?.terminal.at ?? drain.source.at,
    ...(sense ? { cause: `sense:${sense.address}` } : {}),
    marks: [drain.source.address, ...drain.parts.map(({ terminal }) => terminal.address)],
  })
}

export const standingDrain: Rule = {
  id: 'standing-drain',
  title: 'The standing drain leaves the parked time asked for',
  family: 'power',
  level: 'warning',
  covers: ['W14'],
  reason:
    'A few hundred milliamperes that never go off are nothing beside the starter and yet flatten a battery over a long weekend. The owner blames the last one who worked on the vehicle.',
  remedy: 'Feed it from a switched circuit, or fit a timer or a low-volt cut-out.',
  needs: 'usable charge of the battery and what each load draws when off',
  sources: ['days = usable Ah ÷ (24 × A); vehicle-maker bulletins on parked drain, as reported'],
  examples: {
    trips: vehicleExample({ load: { amps: { off: '0.3 A', transmit: '10 A' } } }),
    passes: vehicleExample(),
  },
  *check({ loom, solution }) {
    const wanted = parkedDays(loom)
    for (const drain of solution.drains) {
      for (const need of drain.needs) yield unknown(drain.source.address, `needs ${need}`, drain.source.at)
      if (!(drain.amps > LEAST_AMPS)) continue
      if (drain.usableAh === undefined || drain.days === undefined)
        yield unknown(
          drain.source.address,
          `needs the usable charge of ${drain.source.address}`,
          drain.source.at,
        )
      else if (drain.days < wanted) yield report(drain, drain.usableAh, drain.days, wanted)
    }
  },
}
