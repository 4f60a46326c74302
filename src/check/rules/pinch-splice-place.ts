import { wired } from '../examples/wired.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { type Zone, zonesOf } from '../queries/zones.ts'
import type { Rule } from '../rule.ts'

const example = (kind: 'pierce' | 'crimp') =>
  wired({
    units: {
      tap: { pins: { '1': { name: 'A' } } },
      lamp: { pins: { '1': { name: 'A' } } },
      second: { pins: { '1': { name: 'A' } } },
    },
    runs: [
      ['tap.1', 'SP1'],
      ['SP1', 'lamp.1'],
      ['SP1', 'second.1'],
    ],
    harness: { splices: [{ id: 'SP1', kind, zone: 'bonnet' }] },
    place: { setting: 'vehicle', zones: [{ id: 'bonnet', wet: true, vibration: true, hottest: '90 °C' }] },
  })

/** What a place does to a blade that sits in a nick of the insulation. */
function harms(zone: Zone): readonly string[] {
  const named = [
    ['wet', zone.wet],
    ['salty', zone.salt],
    ['shaking', zone.vibration],
    ['oily', zone.oil],
  ] as const
  return named.flatMap(([word, is]) => (is ? [word] : []))
}

export const pinchSplicePlace: Rule = {
  id: 'pinch-splice-place',
  title: 'Pinch-through splices stay in dry, still places',
  family: 'crimping',
  level: 'warning',
  covers: ['C10'],
  reason:
    'A pinch-through splice cuts the insulation and leans a blade on a few strands. Water follows the cut, shaking breaks the nicked strands, and in a maker’s loom it spoils a circuit that is not yours.',
  remedy: 'A crimped splice under adhesive sleeve, staggered and clear of bends.',
  needs: '"kind", "zone" and "makersLoom" of splices; what the zone is like',
  sources: ['vehicle converter quality bulletin E1109', 'vehicle makers’ modifier guides, as reported'],
  examples: { trips: example('pierce'), passes: example('crimp') },
  *check({ loom }) {
    const zones = zonesOf(loom)
    for (const use of loom.looms)
      for (const splice of use.harness.splices ?? []) {
        if (splice.kind !== 'pierce') continue
        const joint = loom.terminalAt.get(`${use.id}.${splice.id}`)
        if (!joint) continue
        const zone = splice.zone === undefined ? undefined : zones.get(splice.zone)
        const bad = zone ? harms(zone) : []
        if (!splice.makersLoom && bad.length === 0) {
          if (!zone)
            yield unknown(
              joint.address,
              `needs the zone of the pinch-through splice ${joint.address}`,
              joint.at,
            )
          continue
        }
        const places = [
          ...(splice.makersLoom ? ['in a loom of the vehicle’s maker'] : []),
          ...(bad.length > 0 ? [`in ${splice.zone}, which is ${listOf(bad)}`] : []),
        ]
        yield found({
          subject: joint.address,
          what: `${joint.address} is a pinch-through splice ${places.join(' and ')}`,
          why: `Its blade stands in a cut of the insulation: ${bad.includes('wet') || bad.includes('salty') ? 'water creeps along the strands from there' : 'the nicked strands break there'}, and nobody sees it.`,
          fix: 'Crimp a splice under adhesive sleeve instead, clear of bends and apart from other splices.',
          facts: { zone: { value: splice.zone ?? '' }, place: { value: places.join(' ') } },
          at: joint.at,
          marks: [joint.address],
        })
      }
  },
}
