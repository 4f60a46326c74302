import { colourWords } from '../base/colour.ts'
import { formatAmps } from '../base/format-quantity.ts'
import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import type { CableUse, ComponentUse, Conductor, Half, Loom, Terminal } from '../resolve/loom.ts'
import { functionTitle } from '../sheets/function-words.ts'
import { landingsAt, landingsOf } from '../sheets/landings.ts'
import { halfName, lengthText, pinName } from '../sheets/names.ts'
import type { Citation } from './citation.ts'
import { type Expansion, type Facts, found, lost } from './facts.ts'
import { figureOf } from './figure.ts'
import { findPin } from './find-pin.ts'
import { lookUp } from './lookup.ts'

/** Turns a citation into today's truth. Never throws. */
export function expandCitation(facts: Facts, citation: Citation): Expansion {
  switch (citation.kind) {
    case 'pin':
      return expandPin(facts, citation.address)
    case 'wire':
      return expandWire(facts, citation.address)
    case 'connector':
      return named(facts, facts.loom.halfAt, 'connector', citation.address, halfSentence)
    case 'part':
      return named(facts, componentsAt(facts.loom), 'part', citation.address, partSentence)
    case 'figure':
      return figureOf(facts, citation)
    case 'finding':
      return expandFinding(facts, citation.address)
  }
}

function named<T>(
  facts: Facts,
  things: ReadonlyMap<string, T>,
  kind: string,
  name: string,
  sentence: (thing: T) => string,
): Expansion {
  const result = lookUp(facts, things, kind, name)
  return result.ok ? found(sentence(result.thing), result.address) : lost(result.problem, result.fix)
}

function expandPin(facts: Facts, name: string): Expansion {
  const result = findPin(facts, name)
  if (!result.ok) return lost(result.problem, result.fix)
  return found(pinSentence(facts.loom, result.thing), result.thing.address)
}

/** `radio J1-1 +13.8 V, red 6 mm²`: the pin, its signal, and the wire on it. */
function pinSentence(loom: Loom, terminal: Terminal): string {
  const mated = terminal.half?.mate?.pins.get(terminal.name)
  const landings = landingsOf(loom)
  const wires = [...landingsAt(landings, terminal), ...(mated ? landingsAt(landings, mated) : [])]
  const signal = terminal.does.kind === 'unstated' ? '' : ` ${functionTitle(terminal.does)}`
  const wireTexts = [...new Set(wires.map(wireWords))].filter((text) => text !== '')
  return [`${pinName(terminal)}${signal}`, ...wireTexts].join(', ')
}

/** `red 6 mm²`. */
const wireWords = (wire: Conductor): string =>
  [wire.colour ? colourWords(wire.colour) : '', wire.size?.label ?? '']
    .filter((text) => text !== '')
    .join(' ')

function expandWire(facts: Facts, name: string): Expansion {
  const { loom } = facts
  const cables = loom.looms.flatMap((use) => use.cables)
  const all = new Map<string, Conductor | CableUse>([
    ...cables.map((cable) => [cable.address, cable] as const),
    ...loom.conductorAt,
  ])
  return named(facts, all, 'wire', name, (thing) => wireSentence(loom, thing))
}

/** `A03, black 1.5 mm², 5.6 m, radio J1-2 to BAT−`. */
function wireSentence(loom: Loom, wire: Conductor | CableUse): string {
  if ('spare' in wire) {
    return [wire.id, wire.part?.title ?? wire.source.part, lengthText(loom, wire.source.length)]
      .filter((text) => text !== '')
      .join(', ')
  }
  const ends = [wire.from, wire.to].map((end) => (end ? pinName(end) : 'cut back')).join(' to ')
  return [wire.id, wireWords(wire), lengthText(loom, wire.lengthMm), ends]
    .filter((text) => text !== '')
    .join(', ')
}

function halfSentence(half: Half): string {
  const gender = half.gender ? `, ${half.gender} half` : ''
  const mate = half.mate ? `, mates with ${halfName(half.mate)}` : ''
  return `${halfName(half)}, ${half.family?.title ?? half.familyId}${gender}${mate}`
}

const componentsAt = (loom: Loom): ReadonlyMap<string, ComponentUse> =>
  new Map(loom.components.map((component) => [component.address, component]))

function partSentence({ id, unit, source, fusePart }: ComponentUse): string {
  const name = `${unit ? `${unit.id} ` : ''}${id}`
  const rating = source.kind === 'fuse' ? (source.rating ?? fusePart?.rating) : undefined
  const what = rating === undefined ? source.kind : `${formatAmps(rating)} ${source.kind}`
  return [name, what, source.title ?? ''].filter((text) => text !== '').join(', ')
}

function expandFinding(facts: Facts, rule: string): Expansion {
  const here = facts.findings?.filter((finding) => finding.rule === rule) ?? []
  const [worst] = here
  if (worst) {
    const more = here.length > 1 ? ` (and ${here.length - 1} more)` : ''
    return found(`${worst.level}: ${worst.what}${more}`, `rule ${rule}`)
  }
  if (facts.ruleIds && !facts.ruleIds.includes(rule)) {
    const hint = didYouMean(rule, facts.ruleIds)
    return lost(
      `there is no rule ${quote(rule)}`,
      hint === '' ? 'Cite a rule there is.' : `Correct the name.${hint}`,
    )
  }
  return found(`no finding of ${rule}`, `rule ${rule}`)
}
