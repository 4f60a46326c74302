import { describe, expect, test } from 'vitest'
import { bringsStop, broughtFindings } from '../../src/compare/changes.ts'
import { outline } from '../../src/compare/changes-outline.ts'
import { compare } from '../../src/compare/compare.ts'
import { headline } from '../../src/compare/sentences.ts'
import { type Data, demoDocuments, find, type Harness, renameConnector, revisionOf } from './revisions.ts'

/** A change somebody might propose to a mended demo job, and everything it has to say of it. */
interface Edit {
  readonly name: string
  readonly job: 'pickup' | 'launch' | 'party-line'
  readonly edit: (harness: Harness, data: Data) => void
  /** What the old one has to be like first. */
  readonly before?: (harness: Harness) => void
  readonly headline: string
  /** Every sentence, the word about the revision apart. */
  readonly says: readonly string[]
  /** Work on a built loom, without the first and last step that all have; none where nothing is to be done. */
  readonly rework?: readonly string[]
  /** Rules of findings the change must bring, among others. */
  readonly brings?: readonly string[]
  readonly stop?: boolean
}

const edits: readonly Edit[] = [
  {
    name: 'a wire moves from pin to pin',
    job: 'pickup',
    edit: (h) => Object.assign(find(h.wires, 'A07'), { to: 'P2.9' }),
    headline: 'Conductors: 1 moved.',
    says: ['Conductor A07 moves from P2-8 to P2-9.'],
    rework: [
      'Move A07 from P2-8 to P2-9: release its contact from P2-8; push the contact into P2-9 until it locks.',
      'Ring out A07: K1-85 to P2-9 closed, K1-85 to P2-8 open.',
    ],
  },
  {
    name: 'a wire gets another colour, size and length',
    job: 'pickup',
    edit: (h) => Object.assign(find(h.wires, 'A03'), { colour: 'BN', size: '1.5 mm²', length: '6.0 m' }),
    headline: 'Conductors: 1 changed.',
    says: [
      'Conductor A03: colour changes from BK black to BN brown; size changes from 6 mm² (≈10 AWG) to 1.5 mm² (≈16 AWG); length changes from 5.6 m to 6 m.',
    ],
    rework: [
      'Replace A03 by BN brown, 1.5 mm² (≈16 AWG), 6 m: from P1-2 to G1.',
      'Ring out A03: P1-2 to G1 closed.',
    ],
    brings: ['wire-fits-contact', 'voltage-at-load'],
    stop: true,
  },
  {
    name: 'one wire goes and another comes',
    job: 'pickup',
    edit: (h) => {
      h.wires = h.wires?.filter(({ id }) => id !== 'A23') ?? []
      h.wires.push({ id: 'A40', from: 'P2.2', to: 'U1.R', size: '0.34 mm²', colour: 'PK', length: '3.5 m' })
    },
    headline: 'Conductors: 1 added, 1 removed, 1 changed.',
    says: [
      'Conductor A22: partner of the twisted pair no longer stated, was A23.',
      'Conductor A23 is removed: GY grey, 0.5 mm² (≈20 AWG), 1 m, from S1-2 to S2-2.',
      'Conductor A40 is added: PK pink, 0.34 mm² (≈22 AWG), 3.5 m, from P2-2 to U1-R.',
    ],
    rework: [
      'Take out A23 (GY grey, 0.5 mm² (≈20 AWG), 1 m), from S1-2 to S2-2. Where it cannot be drawn out: cut it back at both ends and cap it.',
      'Untwist A22 from A23.',
      'Add A40: PK pink, 0.34 mm² (≈22 AWG), 3.5 m, from P2-2 to U1-R.',
      'Ring out A40: P2-2 to U1-R closed.',
    ],
    brings: ['contradiction'],
  },
  {
    name: 'a connector is renamed',
    job: 'pickup',
    edit: (h) => renameConnector(h, 'P2', 'P20'),
    headline: '1 other change.',
    says: ['Connector P2 is renamed P20.'],
    rework: ['Re-label connector P2 as P20.'],
  },
  {
    name: 'a wire is renumbered',
    job: 'pickup',
    edit: (h) => Object.assign(find(h.wires, 'A08'), { id: 'A80' }),
    headline: 'Conductors: 1 renamed.',
    says: ['Conductor A08 is renamed A80.'],
    rework: ['Re-label A08 as A80 at both ends.'],
  },
  {
    name: 'two cores of a cable change places',
    job: 'pickup',
    edit: (h) => {
      const { cores } = find(h.cables, 'W2')
      const [one, two] = [cores.find(({ id }) => id === 'A27'), cores.find(({ id }) => id === 'A28')]
      if (one && two) [one.to, two.to] = [two.to, one.to]
    },
    headline: 'Conductors: 2 moved; 4 nets parted or joined.',
    says: [
      'Conductor A27 moves from X1-2 to X1-1.',
      'Conductor A28 moves from X1-1 to X1-2.',
      'council-pickup: net RX+ is parted into 2: main.P2.5 and main.X1.2 are no longer joined.',
      'council-pickup: net RX− is parted into 2: main.P2.6 and main.X1.1 are no longer joined.',
      'council-pickup: nets RX+ and RX− become one, RX+: main.P2.5 and main.X1.1 are now joined.',
      'council-pickup: nets RX− and RX+ become one, RX−: main.P2.6 and main.X1.2 are now joined.',
    ],
    rework: [
      'A27 and A28 change places: release all of them before one goes back in.',
      'Move A28 from X1-1 to X1-2: release its contact from X1-1; push the contact into X1-2 until it locks.',
      'Move A27 from X1-2 to X1-1: release its contact from X1-2; push the contact into X1-1 until it locks.',
      'Ring out A27: P2-5 to X1-1 closed, P2-5 to X1-2 open.',
      'Ring out A28: P2-6 to X1-2 closed, P2-6 to X1-1 open.',
    ],
    brings: ['hot-cold-identity'],
  },
  {
    name: 'a wire goes where another has to leave first',
    job: 'pickup',
    edit: (h) => {
      Object.assign(find(h.wires, 'A07'), { to: 'P2.10' })
      Object.assign(find(h.wires, 'A11'), { to: 'P2.9' })
    },
    headline: 'Conductors: 2 moved; 2 nets parted or joined.',
    says: [
      'Conductor A07 moves from P2-8 to P2-10.',
      'Conductor A11 moves from P2-10 to P2-9.',
      'council-pickup: net DC+ modem.J2.1 is parted into 2: main.P2.10 and main.X2.1 are no longer joined.',
      'council-pickup: nets ALARM and DC+ modem.J2.1 become one, IGN: main.K1.85 and main.P2.10 are now joined.',
    ],
    rework: [
      'Move A11 from P2-10 to P2-9: release its contact from P2-10; push the contact into P2-9 until it locks.',
      'Move A07 from P2-8 to P2-10: release its contact from P2-8; push the contact into P2-10 until it locks.',
      'Ring out A07: K1-85 to P2-10 closed, K1-85 to P2-8 open.',
      'Ring out A11: F2-out to P2-9 closed, F2-out to P2-10 open.',
    ],
  },
  {
    name: 'a screen is landed at its other end too',
    job: 'pickup',
    edit: (h) => Object.assign(find(h.cables, 'W2').shields?.[0] ?? {}, { to: 'X1.shell' }),
    headline: 'Conductors: 1 moved.',
    says: ['Shield A33 is landed at X1-shell, where it was cut back.'],
    rework: [
      'Land shield A33 at X1-shell: crimp D-sub crimp contact, size 20, machined and fit it at X1-shell.',
      'Ring out A33: P2-shell to X1-shell closed.',
    ],
  },
  {
    name: 'a bigger fuse',
    job: 'pickup',
    edit: (h) => Object.assign(find(h.components, 'F1'), { rating: '30 A', part: 'blade-30' }),
    headline: '1 other change.',
    says: ['Part F1: rating changes from 20 A to 30 A; part changes from blade-20 to blade-30.'],
    rework: ['Replace part F1: rating 20 A → 30 A; part blade-20 → blade-30.'],
  },
  {
    name: 'a pin of the equipment does something else',
    job: 'pickup',
    edit: (_, data) => {
      const { pins } = find(find(data.equipment, 'mobile-40').connectors, 'J2')
      pins['8'] = { kind: 'reserved', name: 'TEST' }
    },
    headline: '1 other change.',
    says: ['Pin J2-8: function changes from ALARM, switching output to TEST, reserved pin.'],
    brings: ['never-connect'],
    stop: true,
  },
  {
    name: 'the radio draws more',
    job: 'pickup',
    edit: (_, data) => {
      const { pins } = find(find(data.equipment, 'mobile-40').connectors, 'J1')
      Object.assign(pins['1'] ?? {}, {
        amps: { off: '5 mA', standby: '350 mA', receive: '1.2 A', transmit: '19 A' },
      })
    },
    headline: '1 other change.',
    says: ['Pin J1-1: current transmit changes from 12 A to 19 A.'],
  },
  {
    name: 'two nets meet',
    job: 'launch',
    edit: (h) =>
      h.wires?.push({ id: 'B99', from: 'R1.1', to: 'N1.1', size: '1.5 mm²', colour: 'RD', length: '1 m' }),
    headline: 'Conductors: 1 added; 1 net parted or joined.',
    says: [
      'Conductor B99 is added: RD red, 1.5 mm² (≈16 AWG), 1 m, from R1-1 to N1-1.',
      'harbour-launch: nets DC+ plotter.J1.1 and DC+ radio.J1.1 become one, DC+ radio.J1.1: main.BZ.1 and main.FBO.1 are now joined.',
    ],
    rework: [
      'Add B99: RD red, 1.5 mm² (≈16 AWG), 1 m, from R1-1 to N1-1.',
      'Ring out B99: R1-1 to N1-1 closed.',
    ],
    brings: ['one-wire-per-contact'],
    stop: true,
  },
  {
    name: 'the shop changes its mind',
    job: 'pickup',
    edit: (_, data) => {
      data.policy = { drop: { continuous: '0.2 V' }, rules: { 'label-unique': 'off' } }
    },
    headline: '2 other changes.',
    says: ['Drop continuous now stated: 0.20 V.', 'Rules label-unique now stated: off.'],
  },
  {
    name: 'a unit goes to another zone',
    job: 'party-line',
    edit: (_, data) => Object.assign(data.installations?.[0]?.units[0] ?? {}, { zone: 'roof' }),
    headline: '1 other change.',
    says: ['Unit main-station: zone changes from control to roof.'],
  },
  {
    name: 'a connector of another family',
    job: 'party-line',
    edit: (h) => Object.assign(h.connectors[0] ?? {}, { family: 'xlr-5', label: 'NEW TEXT' }),
    headline: '1 other change.',
    says: [
      'Connector CU: family changes from screw-terminal-2 to xlr-5; label changes from CUE 1 to NEW TEXT.',
    ],
    rework: ['Replace connector CU (family: screw-terminal-2 → xlr-5) and terminate every wire on it again.'],
    brings: ['mated-halves-fit'],
    stop: true,
  },
  {
    name: 'an end that leads nowhere',
    job: 'launch',
    edit: (h) => Object.assign(find(h.wires, 'B05'), { to: 'R9.1' }),
    headline: 'Conductors: 1 moved.',
    says: ['Conductor B05 moves from R1-1 to R9.1 (leads nowhere).'],
    rework: ['Move B05 from R1-1 to R9.1 (leads nowhere): release its contact from R1-1.'],
    brings: ['name-not-found'],
    stop: true,
  },
  {
    name: 'a branch gets longer and a tie more',
    job: 'pickup',
    edit: (h) => {
      h.branches = [{ from: 'P2', to: 'S1', length: '300 mm', marks: [{ kind: 'tie', at: '100 mm' }] }]
    },
    before: (h) => {
      h.branches = [{ from: 'P2', to: 'S1', length: '250 mm' }]
    },
    headline: '1 other change.',
    says: ['Branch P2 to S1: length changes from 250 mm to 300 mm; marks now stated: tie at 100 mm.'],
    rework: ['Branch P2 to S1: length 250 mm → 300 mm; marks none → tie at 100 mm.'],
  },
  {
    name: 'only a note',
    job: 'launch',
    edit: (h) => Object.assign(h.wires?.[0] ?? {}, { note: 'Tape it.' }),
    headline: 'Conductors: 1 changed.',
    says: ['Conductor B01: note now stated: Tape it.'],
  },
]

const REMARK = /^It is issued and still says revision/

describe('a change to a demo job says exactly what it is', () => {
  test.each(edits)('$name', async (one) => {
    const documents = await demoDocuments(`${one.job}/mended.ts`)
    const [main] = documents
    const harness = main?.data.harnesses?.[0]
    if (!main || !harness) throw new Error('the demo has no harness')
    one.before?.(harness)
    const before = revisionOf(structuredClone(documents))
    one.edit(harness, main.data)
    const changes = compare(before, revisionOf(documents))
    const { changes: things, rework } = outline(changes)
    const said = things.flatMap(({ lines }) => lines.map(({ text }) => text))
    // Findings have tests of their own; how many a change cures is no part of what it is.
    expect(headline(changes).replace(/; \d+ findings? cured/, '')).toBe(one.headline)
    expect(said.filter((text) => !REMARK.test(text))).toEqual(one.says)
    // Built looms of two kinds must not carry one revision letter.
    expect(said.some((text) => REMARK.test(text))).toBe(one.rework !== undefined)
    const steps = rework.flatMap(({ lines }) => lines.map(({ text }) => text))
    expect(steps.slice(1, -1)).toEqual(one.rework ?? [])
    if (steps.length > 0) expect(steps[0]).toMatch(/^Isolate the supply first/)
    const rules = broughtFindings(changes).map(({ rule }) => rule)
    expect(rules).toEqual(expect.arrayContaining([...(one.brings ?? [])]))
    if (one.stop !== undefined) expect(bringsStop(changes)).toBe(one.stop)
  })
})
