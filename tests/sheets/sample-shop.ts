import { checkLoom } from '../../src/check/check.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { Procedure, Shop } from '../../src/describe/shop.ts'
import { describeShop } from '../../src/describe/validate.ts'
import type { Loom } from '../../src/resolve/loom.ts'
import { standardCatalogue } from '../../src/resolve/part-index.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'
import type { Solution } from '../../src/solve/solution.ts'
import { solve } from '../../src/solve/solve.ts'
import type { Job } from '../../src/wiki/site-input.ts'

const standard = standardCatalogue()

/** A radio in a van: supply through a fuse, a relay with its diode, a terminated bus, a paired and screened cable, a loudspeaker. */
export const vanRadio: DocumentInput = {
  loomwright: 1,
  policy: { shop: 'Test & Sons' },
  equipment: [
    {
      id: 'battery-12',
      title: 'Battery',
      role: 'battery',
      connectors: [
        {
          id: 'POS',
          family: 'stud-m8',
          pins: {
            '1': { kind: 'supply-out', name: 'BAT+', volts: '12..14.4 V', battery: true, capacity: '70 Ah' },
          },
        },
        { id: 'NEG', family: 'stud-m8', pins: { '1': { kind: 'return', name: 'BAT-' } } },
      ],
    },
    {
      id: 'mobile',
      title: 'Mobile radio',
      role: 'transceiver',
      cautions: ['rf'],
      connectors: [
        {
          id: 'J1',
          title: 'Supply',
          family: 'rect-power-2',
          half: 'pin',
          view: 'mating',
          record: 'maker',
          pins: {
            '1': {
              kind: 'supply-in',
              name: 'DC+',
              port: 'dc',
              volts: '10.8..15.6 V',
              amps: { off: '5 mA', standby: '0.35 A', transmit: '12 A' },
            },
            '2': { kind: 'return', name: 'DC-', port: 'dc' },
          },
        },
        {
          id: 'J2',
          title: 'Accessories',
          family: 'dsub-9',
          half: 'socket',
          view: 'mating',
          pins: {
            '1': {
              kind: 'audio-out',
              level: 'speaker',
              leg: 'hot',
              bridged: true,
              name: 'SPK+',
              port: 'spk',
            },
            '2': {
              kind: 'audio-out',
              level: 'speaker',
              leg: 'cold',
              bridged: true,
              name: 'SPK-',
              port: 'spk',
            },
            '3': { kind: 'data', standard: 'can', line: 'CAN_H', name: 'CAN_H' },
            '4': { kind: 'data', standard: 'can', line: 'CAN_L', name: 'CAN_L' },
            '5': { kind: 'switch-in', purpose: 'key', active: 'low', name: 'PTT' },
          },
        },
      ],
    },
    {
      id: 'speaker',
      title: 'Loudspeaker',
      role: 'speaker',
      connectors: [
        {
          id: 'TB',
          family: 'screw-terminal-2',
          pins: {
            '1': { kind: 'audio-in', level: 'speaker', leg: 'hot', ohms: '8 Ω', name: '+' },
            '2': { kind: 'audio-in', level: 'speaker', leg: 'cold', ohms: '8 Ω', name: '-' },
          },
        },
      ],
    },
  ],
  harnesses: [
    {
      id: 'van',
      title: 'Van radio loom',
      document: 'TS-1',
      revision: 'B',
      date: '2026-01-02',
      state: 'issued',
      drawnBy: 'A. Test',
      connectors: [
        { id: 'R1', family: 'ring-m8', fits: 'battery-12.POS', contact: 'ring-yellow', label: 'RADIO FEED' },
        {
          id: 'R2',
          family: 'ring-m8',
          fits: 'battery-12.NEG',
          contact: 'ring-yellow',
          label: 'RADIO RETURN',
        },
        {
          id: 'P1',
          title: 'To radio',
          family: 'rect-power-2',
          half: 'socket',
          fits: 'mobile.J1',
          label: 'RADIO DC',
        },
        {
          id: 'P2',
          title: 'Accessories',
          family: 'dsub-9',
          half: 'pin',
          fits: 'mobile.J2',
          contact: 'dsub-crimp-20',
          label: 'RADIO ACC',
        },
        { id: 'S1', family: 'screw-terminal-2', fits: 'speaker.TB', label: 'SPEAKER' },
        {
          id: 'X1',
          title: 'Bus tail',
          family: 'dsub-9',
          half: 'socket',
          contact: 'dsub-crimp-20',
          label: 'BUS',
        },
      ],
      components: [
        { kind: 'fuse', id: 'F1', title: 'Radio', rating: '20 A', part: 'blade-20' },
        { kind: 'resistor', id: 'RT1', ohms: '120 Ω', terminates: true },
        { kind: 'resistor', id: 'RT2', ohms: '120 Ω', terminates: true },
        { kind: 'diode', id: 'D1' },
      ],
      wires: [
        { id: 'A1', from: 'R1.1', to: 'F1.in', size: '6 mm²', colour: 'RD', length: '0.4 m' },
        { id: 'A2', from: 'F1.out', to: 'P1.1', size: '6 mm²', colour: 'RD', length: '5.2 m' },
        { id: 'A10', from: 'P1.2', to: 'R2.1', size: '6 mm²', colour: 'BK', length: '5.6 m' },
        { id: 'A3', from: 'P2.1', to: 'S1.1', size: '0.5 mm²', colour: 'WH', length: '3 m' },
        { id: 'A4', from: 'P2.2', to: 'S1.2', size: '0.5 mm²', colour: 'GY', length: '3 m' },
        { id: 'B1', from: 'P2.3', to: 'RT1.1', size: '0.22 mm²', length: '0.1 m' },
        { id: 'B2', from: 'P2.4', to: 'RT1.2', size: '0.22 mm²', length: '0.1 m' },
        { id: 'B3', from: 'X1.3', to: 'RT2.1', size: '0.22 mm²', length: '0.1 m' },
        { id: 'B4', from: 'X1.4', to: 'RT2.2', size: '0.22 mm²', length: '0.1 m' },
        { id: 'B5', from: 'P2.5', to: 'D1.a', size: '0.5 mm²', colour: 'VT', length: '0.2 m' },
        { id: 'B6', from: 'D1.k', to: 'X1.5', size: '0.5 mm²', colour: 'VT', length: '0.2 m' },
      ],
      cables: [
        {
          id: 'W1',
          part: 'screened-1x2x0.22',
          length: '2 m',
          cores: [
            { core: '1a', id: 'C1', from: 'P2.3', to: 'X1.3' },
            { core: '1b', id: 'C2', from: 'P2.4', to: 'X1.4' },
          ],
          shields: [{ shield: 'screen', id: 'C3', from: 'P2.shell' }],
        },
      ],
      procedures: ['fit.md'],
    },
  ],
  installations: [
    {
      id: 'van-7',
      title: 'Van 7',
      setting: 'vehicle',
      units: [
        { id: 'battery', of: 'battery-12' },
        { id: 'radio', of: 'mobile', zone: 'boot' },
        { id: 'horn', of: 'speaker' },
      ],
      looms: [{ id: 'main', of: 'van' }],
    },
  ],
}

export interface Sample {
  readonly shop: Shop
  readonly jobs: readonly Job[]
  readonly loom: Loom
  readonly solution: Solution
}

/** Everything from a description to findings. Faults of the description are the test's own and throw. */
export function sample(data: DocumentInput = vanRadio, procedures: readonly Procedure[] = []): Sample {
  const described = describeShop([{ name: 'sample.json', data }], procedures)
  if (described.findings.length > 0)
    throw new Error(described.findings.map((one) => `${one.what} ${one.fix}`).join('\n'))
  const jobs = resolveShop(described.shop, { standard }).looms.map((loom) => {
    const solution = solve(loom)
    const { findings, notChecked } = checkLoom(loom, solution)
    return { loom, solution, findings, notChecked }
  })
  const [first] = jobs
  if (!first) throw new Error('the sample describes no loom')
  return { shop: described.shop, jobs, loom: first.loom, solution: first.solution }
}

/** The first loom of a sample as papers take it. */
export function firstUse(loom: Loom) {
  const [use] = loom.looms
  if (!use) throw new Error('the sample has no loom')
  return use
}
