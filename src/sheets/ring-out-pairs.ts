import { colourLabel } from '../base/colour.ts'
import type { Conductor, Loom, LoomUse } from '../resolve/loom.ts'
import { groupBy } from './group-by.ts'
import { pinName } from './names.ts'
import type { Step } from './ring-out-step.ts'

/** Steps done by eye: each twisted pair, and each screen with the end where it is cut back. */
export function pairSteps(loom: Loom, use: LoomUse): Step[] {
  const own = loom.conductors.filter((conductor) => conductor.loom === use)
  const paired = own.filter((conductor) => conductor.pair !== undefined && conductor.kind !== 'shield')
  const pairs = [...groupBy(paired, (conductor) => conductor.pair)].map(([name, legs]) =>
    pairStep(name ?? '', legs),
  )
  return [...pairs, ...own.filter((conductor) => conductor.kind === 'shield').flatMap(screenStep)]
}

const landed = (legs: readonly Conductor[], side: 'from' | 'to') =>
  legs.map((leg) => leg[side]).filter((end) => end !== undefined)

function pairStep(name: string, legs: readonly Conductor[]): Step {
  const leg = (conductor: Conductor) => {
    const colour = conductor.colour ? ` ${colourLabel(conductor.colour)}` : ''
    return `${conductor.id}${colour}`
  }
  const ends = (side: 'from' | 'to') =>
    legs.map((one) => (one[side] ? pinName(one[side]) : 'cut back')).join(' and ')
  return {
    a: ends('from'),
    b: ends('to'),
    through: `${name.split('.').slice(1).join(' ')}: ${legs.map(leg).join(' with ')}`,
    expect:
      legs.length === 2 ? 'one twisted pair at both ends: look' : 'one leg only is used: is its mate spare?',
    address: legs[0]?.address,
    probes: { a: landed(legs, 'from'), b: landed(legs, 'to') },
    attention: legs.length !== 2,
  }
}

function screenStep(shield: Conductor): Step[] {
  const cable = shield.cable?.id ?? shield.id
  const landed = [shield.from, shield.to].filter((end) => end !== undefined)
  if (landed.length === 2) return []
  const [end] = landed
  return [
    {
      a: end ? pinName(end) : 'both ends',
      b: end ? 'the other end' : 'cut back',
      through: `screen of ${cable}`,
      expect: end ? 'lands here; cut back and sleeved at the other end: look' : 'lands nowhere: ask',
      address: shield.address,
      probes: { a: end ? [end] : [], b: [] },
      attention: end === undefined,
    },
  ]
}
