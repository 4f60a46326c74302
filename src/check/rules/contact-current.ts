import { formatAmps, formatPercent } from '../../base/format-quantity.ts'
import type { Half, Link, Loom, State, Terminal } from '../../resolve/loom.ts'
import { vehicleExample } from '../examples/vehicle.ts'
import { found, unknown } from '../outcome.ts'
import { contactOf } from '../queries/contact-of.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

/** A derating curve is measured on new parts; four fifths of it is the working curve (IEC 60512-5-2). */
const WORKING_SHARE = 0.8
/** Below this current no contact of the trade is in danger, and its rating is not asked for. */
const LEAST_AMPS = 1
const SLACK = 1.001

interface Rating {
  readonly amps: number
  /** What the figure belongs to. */
  readonly of: string
}

/** The rating that holds for a contact: that of the crimped contact, or of the family, whichever is less. */
function ratingOf(loom: Loom, pin: Terminal): Rating | undefined {
  const { family } = pin.half ?? {}
  const choice = contactOf(loom.parts, pin)
  const named = choice.named
    ? choice.options.flatMap(({ amps, title }) => (amps === undefined ? [] : [{ amps, of: title }]))
    : []
  const ofFamily = family?.amps === undefined ? [] : [{ amps: family.amps, of: family.title }]
  return [...named, ...ofFamily].sort((a, b) => a.amps - b.amps)[0]
}

interface Loaded {
  readonly link: Link
  readonly pin: Terminal
  readonly amps: number
  readonly state: State
}

/** Mated contacts of looms that carry a current worth asking about. */
function loadedContacts({ loom, solution }: RuleContext): readonly Loaded[] {
  return loom.links.flatMap((link) => {
    const worst = link.kind === 'mate' ? solution.worstLinkAmps.get(link) : undefined
    const pin = [link.a, link.b].find(({ half }) => half?.side === 'harness')
    return worst && pin && worst.amps > LEAST_AMPS ? [{ link, pin, ...worst }] : []
  })
}

function report({ pin, amps, state, link }: Loaded, rating: Rating): Outcome {
  const working = rating.amps * WORKING_SHARE
  return found({
    subject: pin.address,
    level: amps > rating.amps * SLACK ? 'stop' : 'warning',
    what: `The contact ${pin.address} carries ${formatAmps(amps)} in ${state.id} (limit ${formatAmps(working)})`,
    why: `${rating.of} is rated ${formatAmps(rating.amps)}; × ${formatPercent(WORKING_SHARE)} for parts in use = ${formatAmps(working)}. A contact that runs hot loosens and runs hotter.`,
    fix: 'Use a larger contact or connector, or carry the current over two contacts of the same net.',
    assumed: ['no hotter surroundings than the rating supposes'],
    facts: {
      current: { value: amps, unit: 'A' },
      rating: { value: rating.amps, unit: 'A' },
      limit: { value: working, unit: 'A' },
      state: { value: state.id },
    },
    at: pin.half?.at ?? pin.at,
    cause: `contact-current:${pin.half?.address}`,
    marks: [link.a.address, link.b.address],
  })
}

export const contactCurrent: Rule = {
  id: 'contact-current',
  title: 'No contact carries more than its working current',
  family: 'crimping',
  level: 'warning',
  covers: ['C7'],
  reason:
    'A contact loaded to its rating is fine when new. It loosens with heat and then gets hotter, until the housing melts round it.',
  remedy: 'A larger contact, or two in parallel.',
  needs: 'ratings of contacts or connector families, and the currents of the loads',
  sources: ['IEC 60512-5-2: derating curve × 0.8'],
  examples: {
    trips: vehicleExample({ contactAmps: '10 A' }),
    passes: vehicleExample({ contactAmps: '25 A' }),
  },
  *check(context) {
    const bare = new Set<Half>()
    for (const loaded of loadedContacts(context)) {
      const { half } = loaded.pin
      if (!half || half.family?.style === 'ring' || half.family?.style === 'wire-end') continue
      const rating = ratingOf(context.loom, loaded.pin)
      if (!rating) bare.add(half)
      else if (loaded.amps > rating.amps * WORKING_SHARE * SLACK) yield report(loaded, rating)
    }
    for (const half of bare)
      yield unknown(half.address, `needs the rated current of the contacts of ${half.address}`, half.at)
  },
}
