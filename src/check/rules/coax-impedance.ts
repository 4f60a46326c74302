import { formatDecibels, formatOhms, formatTimes } from '../../base/format-quantity.ts'
import type { CableUse, Half } from '../../resolve/loom.ts'
import { reflection } from '../../solve/formulas/reflection.ts'
import { coaxLead } from '../examples/coax-lead.ts'
import { count, found, unknown } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

interface Met {
  readonly what: string
  readonly ohms: number
}

/** Halves in which a coaxial cable ends, each once. */
export function coaxEnds(cable: CableUse): Half[] {
  const ends = cable.conductors.flatMap(({ from, to }) => [from?.half, to?.half])
  return [...new Set(ends.filter((half) => half !== undefined))]
}

/** Everything in the line whose impedance is stated: plugs, sockets and the ports behind them. */
function metBy(cable: CableUse): Met[] {
  return coaxEnds(cable).flatMap((half) => {
    const halves = [half, ...half.mates].filter(({ family }) => family?.style === 'coax')
    const families = halves.flatMap(({ address, family }): Met[] =>
      family?.ohms === undefined ? [] : [{ what: address, ohms: family.ohms }],
    )
    const ports = half.mates.flatMap(({ pins }) =>
      [...pins.values()].flatMap((pin): Met[] =>
        pin.does.kind === 'rf' && pin.does.ohms !== undefined
          ? [{ what: `the port ${pin.address}`, ohms: pin.does.ohms }]
          : [],
      ),
    )
    return [...families, ...ports]
  })
}

function judge(cable: CableUse, ohms: number): Outcome | undefined {
  const wrong = metBy(cable).filter((met) => met.ohms !== ohms)
  const [first] = wrong.sort((a, b) => Math.abs(b.ohms - ohms) - Math.abs(a.ohms - ohms))
  if (!first) return undefined
  const { returnLossDb, vswr, coefficient } = reflection(ohms, first.ohms)
  return found({
    subject: cable.address,
    what: `${cable.id} is ${formatOhms(ohms)} and ${first.what} ${formatOhms(first.ohms)}: return loss ${formatDecibels(returnLossDb)}`,
    why: `Standing wave ratio ${formatTimes(vswr, 2)} there, ${(coefficient ** 2 * 100).toFixed(1)} % of the power goes back at each change${wrong.length > 1 ? `; ${count(wrong.length - 1, 'more place')} differ${wrong.length === 2 ? 's' : ''} from the cable` : ''}.`,
    fix: `Use one impedance from the port to the antenna: cable and plugs of ${formatOhms(first.ohms)}, or a port of ${formatOhms(ohms)}.`,
    facts: {
      cable: { value: ohms, unit: 'Ω' },
      other: { value: first.ohms, unit: 'Ω' },
      returnLoss: { value: returnLossDb, unit: 'dB' },
    },
    at: cable.at,
    marks: cable.conductors.map(({ address }) => address),
  })
}

export const coaxImpedance: Rule = {
  id: 'coax-impedance',
  title: 'Coax, its plugs and the ports have one impedance',
  family: 'data',
  level: 'warning',
  covers: ['R1'],
  reason:
    'Where 50 Ω meets 75 Ω part of the wave turns back: the transmitter sees a load that is wrong from the start, a test set reads low, and a 75 Ω BNC pin may spread a 50 Ω socket for good.',
  remedy: 'One impedance from the port to the antenna.',
  needs: '"ohms" of the cable; that of plugs and ports where it is stated',
  sources: ['IEC 61169 series', 'common practice'],
  examples: { trips: coaxLead({ portOhms: '75 Ω' }), passes: coaxLead({ portOhms: '50 Ω' }) },
  *check({ loom }) {
    for (const use of loom.looms)
      for (const cable of use.cables) {
        if (cable.part?.use !== 'coax') continue
        if (cable.part.ohms === undefined)
          yield unknown(cable.address, `needs the impedance of ${cable.source.part}`, cable.at)
        else {
          const outcome = judge(cable, cable.part.ohms)
          if (outcome) yield outcome
        }
      }
  },
}
