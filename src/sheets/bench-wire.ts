import { colourLabel } from '../base/colour.ts'
import type { Conductor, Terminal } from '../resolve/loom.ts'
import type { BenchFact, ConductorEnd } from './bench-step.ts'
import { cableText, sizeText } from './names.ts'

/** The ends by which conductors land on a terminal; both ends of one that comes back to where it started. */
export function endsAt(conductors: readonly Conductor[], terminal: Terminal): ConductorEnd[] {
  return conductors.flatMap((conductor): ConductorEnd[] => [
    ...(conductor.from === terminal ? [{ conductor, end: 'A' as const }] : []),
    ...(conductor.to === terminal ? [{ conductor, end: 'B' as const }] : []),
  ])
}

/** `A02, end B`; a conductor that lands by both ends is named twice. */
export const endName = ({ conductor, end }: ConductorEnd): string => `${conductor.id}, end ${end}`

const colourText = (conductor: Conductor): string =>
  conductor.colour
    ? colourLabel(conductor.colour)
    : conductor.kind === 'shield'
      ? 'screen'
      : 'colour not stated'

/**
 * Colour, size and cable of each conductor: what tells it from its neighbours in the hand. Of several, each has its colour under
 * its own number, and what all share is said once.
 */
export function wireFacts(ends: readonly ConductorEnd[]): BenchFact[] {
  const conductors = [...new Set(ends.map(({ conductor }) => conductor))]
  const several = conductors.length > 1
  const colours = conductors.map((conductor): BenchFact => {
    const fact = { name: several ? conductor.id : 'Colour', text: colourText(conductor), big: true }
    return conductor.colour ? { ...fact, colour: conductor.colour } : fact
  })
  return [
    ...colours,
    ...shared('Size', conductors, ({ size }) => sizeText(size), true),
    ...shared('Cable and pair', conductors, cableText, false),
  ]
}

function shared(
  name: string,
  conductors: readonly Conductor[],
  textOf: (conductor: Conductor) => string,
  big: boolean,
): BenchFact[] {
  const texts = new Set(conductors.map(textOf))
  const [text = ''] = texts
  if (texts.size === 1) return [{ name, text, big }]
  return conductors.map((conductor) => ({ name: `${name} of ${conductor.id}`, text: textOf(conductor), big }))
}
