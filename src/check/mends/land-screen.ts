import type { ValueChange } from '../../base/finding.ts'
import { below } from '../../base/place.ts'
import type { CableUse, Terminal } from '../../resolve/loom.ts'
import { localSubject, type Mend } from './mend.ts'

/** Pins at either end of a cable that are made for its screen. */
function places({ conductors }: CableUse): readonly Terminal[] {
  const halves = new Set(conductors.flatMap(({ from, to }) => [from?.half, to?.half]))
  return [...halves].flatMap((half) =>
    [...(half?.pins.values() ?? [])].filter(({ does }) => does.kind === 'chassis' || does.kind === 'shield'),
  )
}

function landing(cable: CableUse, shield: string, end: string): ValueChange {
  const listed = cable.source.shields
  if (!listed) return { at: below(cable.at, 'shields'), value: [{ shield, from: end }] }
  const index = listed.findIndex((one) => one.shield === shield)
  return index < 0
    ? { at: below(cable.at, 'shields', listed.length), value: { shield, from: end } }
    : { at: below(cable.at, 'shields', index, 'from'), value: end }
}

/** A screen that lands nowhere, where one pin alone is made for it. */
export const landScreen: Mend = {
  id: 'land-screen',
  rules: ['screen-bonded'],
  propose(finding, { loom }) {
    const address = localSubject(finding, loom)
    const cable = loom.looms.flatMap(({ cables }) => cables).find((one) => one.address === address)
    const shield = finding.facts.shield?.value
    if (!cable || typeof shield !== 'string') return []
    const [pin, second] = places(cable)
    if (!pin?.half || second) return []
    const end = `${pin.half.id}.${pin.name}`
    return [[{ what: `${shield} of ${cable.id} on ${end}`, changes: [landing(cable, shield, end)] }]]
  },
}
