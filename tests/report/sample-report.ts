import type { Finding } from '../../src/base/finding.ts'
import type { Place, Pointer } from '../../src/base/place.ts'
import type { CheckReport } from '../../src/report/check-report.ts'

/** A finding with everything left out filled in. */
export function finding(part: Partial<Finding>): Finding {
  return {
    rule: 'voltage-at-load',
    level: 'stop',
    subject: 'pickup-17/radio.J1.1',
    what: '1.30 V lost in transmit, limit 0.5 V',
    why: 'return A03 is 74 mΩ of the 108 mΩ loop at 12 A',
    fix: 'A03 to 6 mm² (10 AWG) gives 0.62 V',
    assumed: [],
    facts: { lost: { value: 1.3, unit: 'V' } },
    at: { doc: 'pickup.json', path: ['harnesses', 0, 'wires', 2] },
    notes: [],
    marks: [],
    ...part,
  }
}

export const SOURCE = ['{', '\t"wires": [', '    { "id": "A03", "size": "1.5 mm²" }', '  ]', '}']

/** Every pointer is on the third line; its last index moves the column. */
export const locate = (pointer: Pointer): Place => ({
  file: pointer.doc,
  line: 3,
  column: 5 + Number(pointer.path.at(-1) ?? 0),
})
export const sourceLine = (place: Place): string | undefined => SOURCE[place.line - 1]

export const SAMPLE: CheckReport = {
  findings: [
    finding({
      assumed: ['2 mΩ per joint', '20 °C'],
      notes: [{ text: 'the limit is set here', at: { doc: 'policy.json', path: [1] } }],
    }),
    finding({
      rule: 'mirrored-connector',
      level: 'warning',
      subject: 'launch/main.P1',
      cause: 'launch/P1 mirrored',
    }),
    finding({ rule: 'spare-pins', level: 'note', subject: 'pickup-17/main.P1', what: 'no spare pin' }),
  ],
  notChecked: [
    { rule: 'standing-drain', subject: 'launch/radio.J1.1', needs: 'needs the current it draws when off' },
    { rule: 'standing-drain', subject: 'launch/plotter.J1.2', needs: 'needs the current it draws when off' },
    {
      rule: 'fuse-near-source',
      subject: 'launch/main.F1',
      needs: 'needs its length from the battery',
      at: { doc: 'launch.json', path: [0] },
    },
  ],
  waived: [
    {
      finding: finding({
        rule: 'fuse-near-source',
        subject: 'pickup-17/main.F2',
        what: '600 mm from the battery',
      }),
      waiver: {
        rule: 'fuse-near-source',
        at: 'pickup-17/main.F2',
        reason: 'in conduit all the way',
        by: 'R. Alder',
        date: '2025-03-01',
      },
    },
  ],
}

export const EMPTY: CheckReport = { findings: [], notChecked: [], waived: [] }
