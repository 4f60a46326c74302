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

/** Number, colour, size and cable of each conductor: what tells it from its neighbours in the hand. */
export function wireFacts(ends: readonly ConductorEnd[]): BenchFact[] {
  const conductors = [...new Set(ends.map(({ conductor }) => conductor))]
  const several = conductors.length > 1
  return conductors.flatMap((conductor) => {
    const of = several ? ` of ${conductor.id}` : ''
    const fact = (name: string, text: string, big = false): BenchFact => ({ name: name + of, text, big })
    const colour = fact('Colour', colourText(conductor), true)
    return [
      conductor.colour ? { ...colour, colour: conductor.colour } : colour,
      fact('Size', sizeText(conductor.size), true),
      fact('Cable and pair', cableText(conductor)),
    ]
  })
}
