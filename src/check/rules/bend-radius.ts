import { formatLength } from '../../base/format-quantity.ts'
import type { CableUse } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, unknown } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (bend: '30 mm' | '80 mm') =>
  exampleLead({
    parts: [
      rowHousing(2),
      {
        kind: 'cable',
        id: 'control-2',
        title: 'Control cable, 2 cores',
        cores: [
          { name: '1', size: '0.5 mm²' },
          { name: '2', size: '0.5 mm²' },
        ],
        od: '6 mm',
      },
    ],
    equipment: [
      unitOf('box', socket('J1', 'row-2', { '1': { name: 'A' }, '2': { name: 'B' } })),
      unitOf('panel', socket('J2', 'row-2', { '1': { name: 'A' }, '2': { name: 'B' } })),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'box.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'panel.J2' },
      ],
      cables: [
        {
          id: 'W1',
          part: 'control-2',
          length: '2 m',
          bend,
          cores: [
            { core: '1', from: 'P1.1', to: 'P2.1' },
            { core: '2', from: 'P1.2', to: 'P2.2' },
          ],
        },
      ],
    },
  })

/** Where a cable does not say, ten times its diameter keeps every kind out of trouble. */
const USUAL_MULTIPLE = 10

function judge(cable: CableUse): Outcome | undefined {
  const { bend } = cable.source
  if (bend === undefined) return undefined
  const od = cable.part?.od
  if (od === undefined)
    return unknown(
      cable.address,
      `needs the outside diameter of ${cable.id} (${cable.source.part})`,
      cable.at,
    )
  const multiple = cable.part?.bendOd ?? USUAL_MULTIPLE
  const least = multiple * od
  if (bend >= least * 0.999) return undefined
  return found({
    subject: cable.address,
    what: `${cable.id} is bent to ${formatLength(bend)} (limit ${formatLength(least)})`,
    why: `${multiple} × ${od} mm outside diameter = ${formatLength(least)}. Bent tighter the dielectric of a coaxial cable creeps and its impedance steps; screens and cores break.`,
    fix: `Lead ${cable.id} round a radius of ${formatLength(least)} or more, or use a right-angle plug.`,
    assumed:
      cable.part?.bendOd === undefined
        ? [`${USUAL_MULTIPLE} × the outside diameter, since the cable does not say`]
        : [],
    facts: {
      bend: { value: bend, unit: 'mm' },
      limit: { value: least, unit: 'mm' },
      diameter: { value: od, unit: 'mm' },
    },
    at: cable.at,
    marks: cable.conductors.map(({ address }) => address),
  })
}

export const bendRadius: Rule = {
  id: 'bend-radius',
  title: 'No cable is bent tighter than it bears',
  family: 'crimping',
  level: 'warning',
  covers: ['R3'],
  reason:
    'A feeder pulled round a pillar works on the day and drifts afterwards: the core creeps through the dielectric until the impedance is wrong or it touches the braid.',
  remedy: 'A wider bend, or a right-angle plug.',
  needs: 'the tightest bend on the route and the outside diameter of the cable',
  sources: ['FAA AC 43.13-1B ¶11-120', 'NASA-STD-8739.4 ¶7.3; 10 × as common practice'],
  examples: { trips: example('30 mm'), passes: example('80 mm') },
  *check({ loom }) {
    for (const use of loom.looms)
      for (const cable of use.cables) {
        const outcome = judge(cable)
        if (outcome) yield outcome
      }
  },
}
