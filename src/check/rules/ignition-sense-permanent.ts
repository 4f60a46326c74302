import { formatAmps } from '../../base/format-quantity.ts'
import type { FunctionOf } from '../../describe/function.ts'
import type { Terminal } from '../../resolve/loom.ts'
import { sensePin } from '../../solve/sense-pin.ts'
import type { Supply } from '../../solve/supply-paths.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, unknown } from '../outcome.ts'
import { conductorsOf } from '../queries/conductor-words.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

type Feed = NonNullable<FunctionOf<'supply-out'>['feed']>

const example = (feed: Feed) =>
  exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf('taps', socket('J1', 'row-2', { '1': { kind: 'supply-out', feed, volts: '12..14.4 V' } })),
      unitOf('radio', socket('J2', 'row-2', { '1': { kind: 'sense', wants: 'ignition', name: 'IGN' } })),
    ],
    harness: {
      bundled: 1,
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'taps.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'radio.J2' },
      ],
      components: [{ id: 'F1', kind: 'fuse', rating: '3 A' }],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'F1.in', size: '0.5 mm²', length: '0.1 m' },
        { id: 'A02', from: 'F1.out', to: 'P2.1', size: '0.5 mm²', length: '2 m' },
      ],
    },
  })

/** Terminal numbers of DIN 72552 beside the words. */
const WORDS: Record<Feed, string> = {
  permanent: 'permanent (terminal 30)',
  ignition: 'ignition (terminal 15)',
  accessory: 'accessory',
  switched: 'switched',
}

const feedOf = ({ source }: Supply): Feed | undefined => {
  const { does } = source
  if (does.kind !== 'supply-out') return undefined
  return (
    does.feed ?? (does.battery || source.half?.unit?.equipment.role === 'battery' ? 'permanent' : undefined)
  )
}

const isSwitched = ({ links }: Supply): boolean =>
  links.some(({ kind }) => kind === 'switch' || kind === 'relay-contact')

/** What a feed of the wrong kind does; undefined where it is right. */
function mismatch(
  wants: string,
  feed: Feed,
): { readonly level: 'stop' | 'warning'; readonly text: string } | undefined {
  if (wants === feed || feed === 'switched') return undefined
  if (wants === 'permanent')
    return { level: 'warning', text: 'What it keeps in memory is lost each time the key is turned.' }
  if (feed === 'permanent') return { level: 'stop', text: 'It never sees the ignition go off and stays on.' }
  return wants === 'ignition'
    ? {
        level: 'warning',
        text: 'The accessory feed drops out while the engine is cranked, and the set restarts.',
      }
    : undefined
}

/** What stays on because of it, and for how long the battery stands that. */
function consequence({ solution, loom }: RuleContext, pin: Terminal): string {
  const woken = loom.terminals.find((load) => load.on === 'equipment' && sensePin(load) === pin)
  if (!woken) return ''
  for (const drain of solution.drains) {
    const part = drain.parts.find(({ terminal }) => terminal === woken)
    if (part && drain.days !== undefined && Number.isFinite(drain.days))
      return ` ${woken.address} goes on drawing ${formatAmps(part.amps)}: flat in ${drain.days.toFixed(1)} days.`
  }
  return ''
}

function report(context: RuleContext, pin: Terminal, supply: Supply, wants: string): Outcome | undefined {
  const feed = feedOf(supply)
  const wrong = feed && mismatch(wants, feed)
  if (!feed || !wrong) return undefined
  const wires = conductorsOf(supply.links)
  return found({
    subject: pin.address,
    level: wrong.level,
    what: `${pinWords(pin)} is on the ${WORDS[feed]} feed ${supply.source.address} and is to follow ${WORDS[wants as Feed]}`,
    why: `${wrong.text}${consequence(context, pin)}`,
    fix: `Move ${wires[0]?.id ?? 'its wire'} from ${supply.source.address} to ${/^[ai]/.test(wants) ? 'an' : 'a'} ${WORDS[wants as Feed]} feed.`,
    facts: { feed: { value: feed }, wants: { value: wants }, source: { value: supply.source.address } },
    at: wires[0]?.at ?? pin.at,
    cause: `sense:${pin.address}`,
    marks: [pin.address, supply.source.address, ...wires.map(({ address }) => address)],
  })
}

export const ignitionSensePermanent: Rule = {
  id: 'ignition-sense-permanent',
  title: 'A sense input is on the feed it is to follow',
  family: 'power',
  level: 'stop',
  covers: ['W15'],
  reason:
    'A sense wire on a permanent feed never tells the set that the ignition is off. The set stays on and the battery goes flat; nothing looks wrong on the bench.',
  remedy: 'Move the tap to the feed it is to follow, and note which was chosen: accessory or run.',
  needs: 'how each feed is switched, and which feed the sense input is to follow',
  sources: ['DIN 72552: terminal 30 permanent, 15 ignition', 'common practice'],
  examples: { trips: example('permanent'), passes: example('ignition') },
  *check(context) {
    for (const pin of context.loom.terminals) {
      if (pin.on !== 'equipment' || pin.does.kind !== 'sense') continue
      const supplies = context.paths.supply.supplies(pin)
      const [first] = supplies
      if (!first) {
        if (context.paths.nets.conductorsAt(pin).length > 0)
          yield unknown(pin.address, `needs what feeds ${pin.address}`, pin.at)
        continue
      }
      const { wants } = pin.does
      const feed = feedOf(first)
      if (wants === undefined)
        yield unknown(pin.address, `needs which feed ${pin.address} is to follow`, pin.at)
      else if (supplies.some(isSwitched)) continue
      else if (feed === undefined)
        yield unknown(pin.address, `needs how ${first.source.address} is switched`, first.source.at)
      else {
        const outcome = report(context, pin, first, wants)
        if (outcome) yield outcome
      }
    }
  },
}
