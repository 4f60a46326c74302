import type { Terminal } from '../../resolve/loom.ts'
import { headLead } from '../examples/head-lead.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { type Mirror, mirroredHalves, plugOf } from '../queries/mirrored-halves.ts'
import type { Outcome, Rule } from '../rule.ts'

/** Cause that a mirrored half and its consequences share. */
export const mirrorCause = (mirror: Mirror): string => `mirror:${plugOf(mirror).address}`

const named = (pin: Terminal): string => pin.does.name ?? pin.name

function report(mirror: Mirror): Outcome {
  const { half, unit, leads } = mirror.map
  const plug = plugOf(mirror)
  const { moved, judged } = mirror
  const first = moved[0]
  const example =
    first && `${named(first.meant)} belongs in ${first.meant.name} and sits in ${first.sitsIn.name}`
  const moves = moved.map(({ meant, sitsIn }) => `${sitsIn.name} to ${meant.name}`)
  return found({
    subject: plug.address,
    what: `${plug.address} is wired as its own mirror image: drawn from the other face at ${half.address}`,
    why: `All ${judged} signals that ${half.address} and ${unit.id} share sit in the left-right mirror of their pin: ${example}.`,
    fix: `Redraw the pin list of ${plug.address} from the mating face: move ${listOf(moves, 40)}.`,
    facts: {
      signals: { value: judged },
      moved: { value: moved.map(({ meant, sitsIn }) => `${meant.name}→${sitsIn.name}`).join(' ') },
      unit: { value: unit.id },
    },
    at: plug.at,
    cause: mirrorCause(mirror),
    notes: mirror.instead.map((other) => ({
      text: `${plugOf(other).address} drawn from its other face would look the same: look at both`,
      at: plugOf(other).at,
    })),
    marks: [
      ...[...leads].flatMap(([pin, far]) => [pin.address, far.address]),
      ...(plug === half ? [] : moved.map(({ sitsIn }) => `${plug.address}.${sitsIn.name}`)),
    ],
  })
}

export const pinMapMirrored: Rule = {
  id: 'pin-map-mirrored',
  title: 'A pin map is not the mirror of the one meant',
  family: 'mating',
  level: 'stop',
  covers: ['M1'],
  reason:
    'A pinout read from the mating face and crimped from the wire side puts every wire into the opposite cavity. It rings out clean against its own drawing and destroys equipment at the first switch-on.',
  remedy: 'Redraw that end from the stated face, and print both views on its sheet.',
  needs:
    'at least three signals that both ends name, or whose functions pair; the face of the connector family',
  sources: [
    'pin numbering of IEC 60807 and IEC 60603-7 faces',
    'audio maker support, as reported: mirror wiring is the commonest mistake',
  ],
  examples: { trips: headLead(['8', '7', '6', '5']), passes: headLead(['1', '2', '3', '4']) },
  *check({ loom }) {
    const { mirrors, unnamed } = mirroredHalves(loom)
    for (const mirror of mirrors) yield report(mirror)
    for (const { map, paired } of unnamed)
      yield unknown(
        map.half.address,
        `needs the signal names of ${map.half.address} and ${map.unit.id}: ${paired} of ${map.leads.size} wires can be paired by name or function`,
        map.half.at,
      )
  },
}
