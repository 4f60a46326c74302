import { formatAmps, formatSeconds, formatVolts } from '../../base/format-quantity.ts'
import { naturalOrder } from '../../base/natural-order.ts'
import type { Terminal } from '../../resolve/loom.ts'
import { faultVerdict } from '../../solve/formulas/fault-current.ts'
import { conductorsOf, type FarEndShort, shortFarEnds } from '../../solve/simulate/far-end-shorts.ts'
import { type LostGround, loseGrounds } from '../../solve/simulate/lost-grounds.ts'
import { type OpenIsolator, openIsolators } from '../../solve/simulate/open-isolators.ts'
import { type UnpluggedPlug, unplugPlugs } from '../../solve/simulate/unplug-plugs.ts'
import { listOf } from '../outcome.ts'
import { bears } from '../queries/bears.ts'
import { survivesShort } from '../queries/survives-short.ts'
import { isKey, type UnpluggedKey, unplugKey } from '../queries/unplugged-keys.ts'
import { compareLevels } from '../rank.ts'
import type { RuleContext } from '../rule.ts'
import { type SwapTrial, trySwaps } from '../swap-trials.ts'
import type { Trial, TrialKind, TrialSet } from './trial.ts'

const REACH = {
  'same-unit': 'on one unit',
  'same-zone': 'in one zone',
  unknown: 'zones not stated',
  apart: 'apart',
} as const

function swapTrial({ twins, harms }: SwapTrial): Trial {
  const { first, second, wrong, reach } = twins
  const [worst, ...more] = harms
  const other = second?.one.address ?? wrong.address
  return {
    kind: 'swap',
    subject: first.one.address,
    tried: second
      ? `${first.one.address} and ${other} swapped, ${REACH[reach]}`
      : `${first.one.address} put into the free ${wrong.address}`,
    outcome: worst
      ? `${worst.text}${more.length > 0 ? `; ${more.length} more` : ''}`
      : 'nothing is harmed; what it carries does not work',
    level: worst?.level ?? 'fine',
    alike: [],
    figure: /[\d.]+ [mk]?[VA]\b/.exec(worst?.text ?? '')?.[0] ?? '',
    path: [first.one.address, wrong.address, ...(worst ? [worst.pin] : [])],
  }
}

function groundTrial({ loom }: RuleContext, { joint, state, amps, carriers }: LostGround): Trial {
  const pin = joint.a.on === 'equipment' ? joint.a : joint.b
  const over = carriers.flatMap((carrier) => {
    const limit = bears(loom, carrier.conductor)
    return limit === undefined ? [] : [{ ...carrier, limit, share: carrier.amps / limit }]
  })
  const [worst] = [...over].sort((a, b) => b.share - a.share)
  const tooMuch = worst !== undefined && worst.share > 1
  return {
    kind: 'ground',
    subject: pin.address,
    tried: `ground at ${pin.address} lost, ${formatAmps(amps)} in ${state.id}`,
    outcome: tooMuch
      ? `${worst.conductor.id} carries the supply current instead`
      : worst
        ? `the other grounds take it; ${worst.conductor.id} comes nearest to its limit`
        : 'no other way: what returns there stops',
    level: tooMuch ? 'stop' : 'fine',
    alike: [],
    figure: worst ? `${formatAmps(worst.amps)} of ${formatAmps(worst.limit)}` : '',
    path: [pin.address, ...carriers.slice(0, 6).map(({ conductor }) => conductor.address)],
  }
}

const names = (pins: readonly Terminal[]): string =>
  listOf(
    pins.map(({ address }) => address),
    4,
  )

/** A key that comes on is worse than a lost return, and that worse than loads that merely stop. */
const verb = (pins: readonly unknown[], one: string, many: string): string => (pins.length > 1 ? many : one)

function unplugTrial(
  { half, dead, asleep, unreturned, amps }: UnpluggedPlug,
  keys: readonly UnpluggedKey[],
): Trial {
  const on = keys.filter(({ effect }) => effect === 'on')
  const floating = keys.filter(({ effect }) => effect === 'floats')
  const told = [
    on.length > 0 ? `${names(on.map(({ pin }) => pin))} ${verb(on, 'comes', 'come')} on unasked` : '',
    floating.length > 0
      ? `${names(floating.map(({ pin }) => pin))} ${verb(floating, 'floats', 'float')}`
      : '',
    unreturned.length > 0
      ? `${names(unreturned)} ${verb(unreturned, 'keeps its feed and loses its return', 'keep their feeds and lose their returns')}`
      : '',
    dead.length > 0 ? `${names(dead)} ${verb(dead, 'goes', 'go')} dead` : '',
    asleep.length > 0
      ? `${names(asleep)} ${verb(asleep, 'falls asleep: its sense pin is dead', 'fall asleep: their sense pins are dead')}`
      : '',
  ].filter((text) => text !== '')
  return {
    kind: 'unplug',
    subject: half.address,
    tried: `${half.address} unplugged`,
    outcome: told.length > 0 ? told.join('; ') : 'only its own signals stop',
    level: on.length > 0 ? 'stop' : floating.length + unreturned.length > 0 ? 'warning' : 'fine',
    alike: [],
    figure: dead.length > 0 ? `${formatAmps(amps)} gone` : '',
    path: [
      half.address,
      ...[...on, ...floating].map(({ pin }) => pin.address),
      ...[...unreturned, ...dead, ...asleep].map(({ address }) => address),
    ].slice(0, 8),
  }
}

function shortTrial({ loom }: RuleContext, short: FarEndShort): Trial {
  const { load, fuse, ratingAmps, faultAmps, opens, links } = short
  const verdict = faultVerdict(faultAmps, ratingAmps)
  const lasts = verdict === 'opens late' && survivesShort(short)
  const when = Number.isFinite(opens.maxS) ? `within ${formatSeconds(opens.maxS)}` : 'perhaps never'
  return {
    kind: 'short',
    subject: load.address,
    tried: `dead short at ${load.address}`,
    outcome: `${fuse.id} (${formatAmps(ratingAmps)}) opens ${when}${lasts ? '; the wire bears it until then' : ''}`,
    level:
      verdict === 'may not open'
        ? 'stop'
        : verdict === 'opens late' && !(lasts && loom.settings.lateFuse === 'accept')
          ? 'warning'
          : 'fine',
    alike: [],
    figure: `${formatAmps(faultAmps)}, ${(faultAmps / ratingAmps).toFixed(1)} × the fuse`,
    path: [fuse.address, ...conductorsOf(links).map(({ address }) => address)],
  }
}

const HOW = {
  reversed: 'the wrong way round',
  'through a load': 'through something else',
  'another feed': 'from another feed',
} as const

function isolatorTrial({ isolator, state, fed }: OpenIsolator): Trial {
  const subject = isolator.component?.address ?? isolator.a.address
  const [worst] = [...fed].sort((a, b) => Math.abs(b.volts) - Math.abs(a.volts))
  const reversed = fed.some(({ how }) => how === 'reversed')
  return {
    kind: 'isolator',
    subject,
    tried: `${subject} open in ${state.id}`,
    outcome: worst
      ? `${worst.load.terminal.address} is still fed, ${HOW[worst.how]}${fed.length > 1 ? `; ${fed.length - 1} more` : ''}`
      : 'nothing behind it is live',
    level: reversed ? 'stop' : worst ? 'warning' : 'fine',
    alike: [],
    figure: formatVolts(worst?.volts ?? 0),
    path: [subject, ...fed.map(({ load }) => load.terminal.address)],
  }
}

const weight = ({ level }: Trial): number => (level === 'fine' ? 3 : compareLevels(level, 'stop'))

/** Harmless ones that come to the same are one line: eight equal stations are no eight lines to read. */
function collapsed(trials: readonly Trial[]): Trial[] {
  const lines = new Map<string, Trial>()
  for (const trial of trials) {
    const { level, outcome, figure, subject } = trial
    const key = level === 'fine' ? `${outcome} ${figure}` : subject + outcome
    const first = lines.get(key)
    lines.set(
      key,
      first && first.subject !== subject ? { ...first, alike: [...first.alike, subject] } : (first ?? trial),
    )
  }
  return [...lines.values()]
}

function set(kind: TrialKind, trials: readonly Trial[], left = 0): TrialSet {
  const ranked = [...trials].sort((a, b) => weight(a) - weight(b) || naturalOrder(a.subject, b.subject))
  return { kind, trials: collapsed(ranked), count: ranked.length, left }
}

function unplugged(context: RuleContext): Trial[] {
  const { loom, paths, solution } = context
  const keys = loom.terminals.filter(isKey).flatMap((pin) => unplugKey(context, pin))
  return unplugPlugs(loom, paths, solution).map((plug) =>
    unplugTrial(
      plug,
      keys.filter(({ half }) => half === plug.half),
    ),
  )
}

/** Each load once, by the short that goes on longest. */
function shorted(context: RuleContext): Trial[] {
  const { loom, paths, solution } = context
  const worst = new Map<Terminal, FarEndShort>()
  for (const short of shortFarEnds(loom, paths, solution).results) {
    const known = worst.get(short.load)
    if (!known || short.faultAmps / short.ratingAmps < known.faultAmps / known.ratingAmps)
      worst.set(short.load, short)
  }
  return [...worst.values()].map((short) => shortTrial(context, short))
}

/**
 * Everything that can go wrong with a loom that is wired as described, tried out: plugs swapped, grounds lost, plugs pulled,
 * far ends shorted, switches open. The same computations as the rules of those faults; here the harmless ones are told too.
 */
export function whatIf(context: RuleContext): TrialSet[] {
  const { loom, solution } = context
  const swaps = trySwaps(context)
  const grounds = loseGrounds(loom, solution)
  const isolators = openIsolators(loom, solution)
  return [
    set('swap', swaps.results.map(swapTrial), swaps.left),
    set(
      'ground',
      grounds.results.map((one) => groundTrial(context, one)),
      grounds.left,
    ),
    set('unplug', unplugged(context)),
    set('short', shorted(context)),
    set('isolator', isolators.results.map(isolatorTrial), isolators.left),
  ]
}
