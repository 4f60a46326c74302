import { formatArea } from '../../base/format-quantity.ts'
import { bothSizes } from '../../base/wire-size.ts'
import type { Conductor, Terminal } from '../../resolve/loom.ts'
import { returnPin } from '../../solve/return-pin.ts'
import type { Supply } from '../../solve/supply-paths.ts'
import { vehicleExample } from '../examples/vehicle.ts'
import { found, unknown } from '../outcome.ts'
import { conductorsOf, isWire, thinCause, thinnest } from '../queries/conductor-words.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

/** Trade names pair gauges that differ by this much. */
const TRADE_SLACK = 0.93

function noWayBack(load: Terminal, back: Terminal, supply: Supply): Outcome {
  const feed = conductorsOf(supply.links)
  return found({
    subject: load.address,
    what: `${pinWords(load)} is fed and has no way back to ${supply.source.address}`,
    why: `Nothing leads from its return ${back.address} to the return of the source: it does not work, or finds a way through a screen or a data line.`,
    fix: `Bring ${back.address} back to the source with a conductor as thick as its feed.`,
    facts: { load: { value: load.address }, return: { value: back.address } },
    at: feed.at(-1)?.at ?? load.at,
    marks: [load.address, back.address, ...feed.map(({ address }) => address)],
  })
}

function thinReturn(load: Terminal, feed: Conductor, back: Conductor): Outcome {
  const [out, home] = [feed.size?.areaMm2 ?? 0, back.size?.areaMm2 ?? 0]
  return found({
    subject: back.address,
    what: `The return of ${load.address} is thinner than its feed: ${back.id} ${formatArea(home)}, feed at least ${formatArea(out)}`,
    why: `Both legs carry the same current; ${back.id} gets ${(out / home).toFixed(1)} times as much heat and drop per metre as the feed, behind the same fuse.`,
    fix: `${back.id} to ${feed.size ? bothSizes(feed.size) : ''}.`,
    facts: {
      return: { value: home, unit: 'mm²' },
      feed: { value: out, unit: 'mm²' },
      load: { value: load.address },
      conductor: { value: back.id },
    },
    at: back.at,
    cause: thinCause(back),
    marks: [load.address, feed.address, back.address],
  })
}

function* judge({ paths }: RuleContext, load: Terminal): Iterable<Outcome> {
  const [supply] = paths.supply.supplies(load)
  if (!supply) return
  const feed = conductorsOf(supply.links).filter(isWire)
  if (feed.length === 0) return
  const back = returnPin(load)
  if (!back) {
    yield unknown(load.address, `needs which pin is the return of ${load.address}`, load.at)
    return
  }
  const way = paths.supply.returnPath(load, supply.source)
  if (!way) {
    if (returnPin(supply.source)) yield noWayBack(load, back, supply)
    else yield unknown(load.address, `needs which pin is the return of ${supply.source.address}`, load.at)
    return
  }
  const home = conductorsOf(way.links).filter(isWire)
  const bare = [...feed, ...home].filter(({ size }) => !size)
  if (bare[0]) yield unknown(load.address, `needs the size of ${bare[0].id}`, bare[0].at)
  const [out, in_] = [thinnest(feed), thinnest(home)]
  if (!out?.size || !in_?.size) return
  if (in_.size.areaMm2 < out.size.areaMm2 * TRADE_SLACK) yield thinReturn(load, out, in_)
}

export const returnAsBigAsFeed: Rule = {
  id: 'return-as-big-as-feed',
  title: 'Each load has a return as thick as its feed',
  family: 'power',
  level: 'stop',
  covers: ['W11'],
  reason:
    'What goes out comes back. A return that is forgotten or thin finds another way: through a coax braid, a microphone lead or the mounting screw of the set.',
  remedy: 'Add the return, or make it as thick as the feed.',
  needs: 'which pins are supply inputs and returns, and the sizes of the conductors',
  sources: ['ISO 10133 §4.7 and 4.8 (from memory)', 'common practice'],
  examples: {
    trips: vehicleExample({ back: 'none' }),
    passes: vehicleExample(),
  },
  *check(context) {
    const told = new Set<string>()
    for (const load of context.loom.terminals) {
      if (load.on !== 'equipment' || load.does.kind !== 'supply-in') continue
      for (const outcome of judge(context, load)) {
        const key = 'finding' in outcome ? outcome.finding.subject : ''
        // One thin return of many loads is one thing to mend.
        if (key !== '' && told.has(key)) continue
        told.add(key)
        yield outcome
      }
    }
  },
}
