import { formatAmps, formatOhms, formatSeconds, formatVolts } from '../../base/format-quantity.ts'
import { faultVerdict } from '../../solve/formulas/fault-current.ts'
import { sumOhms } from '../../solve/link-ohms.ts'
import { conductorsOf, type FarEndShort, shortFarEnds } from '../../solve/simulate/far-end-shorts.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found, unknown } from '../outcome.ts'
import { survivesShort } from '../queries/survives-short.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (length: '18 m' | '3 m') =>
  wired({
    units: { supply: cell(), lamp: load('0.3 A') },
    components: [{ id: 'F1', kind: 'fuse', rating: '5 A' }],
    runs: [
      ['supply.1', 'F1.in', { length: '0.1 m' }],
      ['F1.out', 'lamp.1', { length }],
      ['lamp.2', 'supply.2', { length }],
    ],
  })

function tell(short: FarEndShort, { loom, solution }: RuleContext): Outcome | undefined {
  const { load, fuse, ratingAmps, faultAmps, loopOhms, volts, opens, source } = short
  const verdict = faultVerdict(faultAmps, ratingAmps)
  const limited = source.does.kind === 'supply-out' && source.does.maxAmps !== undefined
  // A supply that limits itself protects its wires without the fuse.
  const bears = loom.settings.lateFuse === 'accept' && survivesShort(short)
  if (verdict === 'opens late' && bears) return undefined
  if (verdict === 'opens at once' || (limited && faultAmps <= ratingAmps * 5)) return undefined
  const until = Number.isFinite(opens.maxS) ? `within ${formatSeconds(opens.maxS)}` : 'perhaps never'
  const terms = sumOhms(short.links, solution.linkOhms).terms.slice(0, 2)
  const wire = conductorsOf(short.links).find((one) => terms[0]?.sum.startsWith(one.id))
  return found({
    subject: load.address,
    level: verdict === 'may not open' ? 'stop' : 'warning',
    what: `A short at ${load.address} draws ${formatAmps(faultAmps)}, ${(faultAmps / ratingAmps).toFixed(1)} times ${fuse.id} (${formatAmps(ratingAmps)}): it opens ${until}`,
    why: `${formatVolts(volts)} over ${formatOhms(loopOhms)} out and back, most of it ${terms.map((term) => term.sum).join(' and ')}; five times the rating opens a blade fuse in half a second.`,
    fix: `Bring the loop to ${formatOhms(volts / (5 * ratingAmps))} with thicker wire, or fit a fuse of ${formatAmps(faultAmps / 5)} or less if the load allows it.`,
    assumed: ['blade fuse (ISO 8820-3, from memory)', 'copper cold at the start of the fault'],
    facts: {
      fault: { value: faultAmps, unit: 'A' },
      fuse: { value: ratingAmps, unit: 'A' },
      loop: { value: loopOhms, unit: 'Ω' },
    },
    at: (wire ?? fuse).at,
    marks: [load.address, fuse.address, ...conductorsOf(short.links).map((one) => one.address)],
  })
}

export const shortOpensFuse: Rule = {
  id: 'short-opens-fuse',
  title: 'A short at the far end blows the fuse quickly',
  family: 'power',
  level: 'stop',
  covers: ['W7'],
  reason:
    'A long thin run limits its own fault current. If that is little more than the rating the fuse takes seconds or for ever, while the wire carries many times its load.',
  remedy: 'Use thicker wire, or a smaller fuse.',
  needs: 'sizes and lengths of the whole loop, the fuse rating and the voltage of the source',
  sources: [
    'ISO 8820-3, from memory',
    'IEC 60364-5-54 adiabatic equation, from memory',
    'common practice: five times the rating',
  ],
  examples: { trips: example('18 m'), passes: example('3 m') },
  *check(context) {
    const { results, unknown: missing } = shortFarEnds(context.loom, context.paths, context.solution)
    const told = new Set<string>()
    for (const { load, needs } of missing) {
      if (told.has(needs)) continue
      told.add(needs)
      yield unknown(load.address, `needs ${needs}`, load.at)
    }
    for (const short of results) {
      const outcome = told.has(short.load.address) ? undefined : tell(short, context)
      if (!outcome) continue
      told.add(short.load.address)
      yield outcome
    }
  },
}
