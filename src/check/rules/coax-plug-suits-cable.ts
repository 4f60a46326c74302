import { formatLength, formatRange } from '../../base/format-quantity.ts'
import type { PartInput } from '../../describe/part.ts'
import type { CableUse, Half, Loom } from '../../resolve/loom.ts'
import { coaxLead } from '../examples/coax-lead.ts'
import { found, unknown } from '../outcome.ts'
import { zonesUsed } from '../queries/zones-used.ts'
import type { Outcome, Rule } from '../rule.ts'
import { coaxEnds } from './coax-impedance.ts'

const thick: PartInput = {
  kind: 'cable',
  id: 'feeder-10',
  title: 'Coaxial feeder, 10.3 mm',
  use: 'coax',
  ohms: '50 Ω',
  od: '10.3 mm',
  bendOd: 10,
  strands: 7,
  lossDb100m: { '450': 16 },
  cores: [{ name: 'centre', size: '0.5 mm²' }],
  shields: [{ name: 'shield', kind: 'braid' }],
}

function diameter(cable: CableUse, half: Half): Outcome | undefined {
  const od = cable.part?.od
  const range = half.family?.cable
  if (od === undefined || !range)
    return unknown(
      half.address,
      od === undefined
        ? `needs the outside diameter of ${cable.source.part}`
        : `needs the cable diameters ${half.familyId} takes`,
      od === undefined ? cable.at : half.at,
    )
  if (od >= range.min && od <= range.max) return undefined
  const thin = od < range.min
  return found({
    subject: half.address,
    what: `${cable.id} is ${formatLength(od)} over its jacket and the plug ${half.address} takes ${formatRange(range, formatLength)}`,
    why: thin
      ? `The ferrule closes on ${formatLength(range.min)} at best: ${formatLength(range.min - od)} of air holds no braid, and the feeder pulls out of its plug.`
      : `The jacket is ${formatLength(od - range.max)} too thick to enter; whoever trims the braid to make it fit has cut the shield.`,
    fix: `Order ${half.familyId} for a cable of ${formatLength(od)} with its die, or use a cable within ${formatRange(range, formatLength)}.`,
    facts: {
      cable: { value: od, unit: 'mm' },
      least: { value: range.min, unit: 'mm' },
      most: { value: range.max, unit: 'mm' },
    },
    at: half.at,
    marks: [half.address, ...cable.conductors.map(({ address }) => address)],
  })
}

/** Where a solid core is worked to and fro until it breaks. */
function shakes(loom: Loom, cable: CableUse): boolean {
  if (loom.setting === 'vehicle' || loom.setting === 'boat') return true
  const own = new Set([cable.source.zone, ...coaxEnds(cable).map(({ zone }) => zone)])
  return zonesUsed(loom).some(({ id, zone }) => own.has(id) && zone?.vibration === true)
}

function solidCore(loom: Loom, cable: CableUse): Outcome | undefined {
  if (cable.part?.strands !== 1 || !shakes(loom, cable)) return undefined
  return found({
    subject: cable.address,
    level: 'warning',
    what: `${cable.id} has a solid centre conductor where it is shaken`,
    why: 'One strand worked to and fro at the plug breaks inside the dielectric, where nobody sees it; seven or nineteen share the bending.',
    fix: 'Use the stranded version of the cable, with the plug made for it.',
    facts: { strands: { value: 1 } },
    at: cable.at,
    marks: cable.conductors.map(({ address }) => address),
  })
}

export const coaxPlugSuitsCable: Rule = {
  id: 'coax-plug-suits-cable',
  title: 'A coax plug is made for its cable, and a shaken cable is stranded',
  family: 'crimping',
  level: 'stop',
  covers: ['R2'],
  reason:
    'A coax plug is ordered for one cable: ferrule, pin and die go by its diameters. On another cable the braid is not gripped, and a feeder that pulls out of its plug leaves the transmitter with no load. Gender and polarity of the pair are judged where halves mate.',
  remedy: 'The right plug and die for the cable.',
  needs: '"cable" of the plug’s family, "od" and "strands" of the cable',
  sources: ['FCS 1362:2010 §4.2.5.2', 'FAA AC 43.13-1B ¶11-120'],
  examples: {
    trips: coaxLead({ part: 'feeder-10', parts: [thick] }),
    passes: coaxLead({}),
  },
  *check({ loom }) {
    for (const use of loom.looms)
      for (const cable of use.cables) {
        if (cable.part?.use !== 'coax') continue
        for (const half of coaxEnds(cable)) {
          const outcome = half.family?.style === 'coax' ? diameter(cable, half) : undefined
          if (outcome) yield outcome
        }
        const solid = solidCore(loom, cable)
        if (solid) yield solid
      }
  },
}
