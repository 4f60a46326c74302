import { judgeRecords } from '../../src/commission/judge-records.ts'
import type { FigureLimit, Limit } from '../../src/commission/limit.ts'
import { limitsOf } from '../../src/commission/limits-of.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { ReadingsInput } from '../../src/describe/readings.ts'
import { readRecords } from '../../src/describe/shop-records.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'
import { solve } from '../../src/solve/solve.ts'

/** A 50 W radio with twenty feet of RG-58 to its antenna, fed from a 70 Ah battery: figures that handbooks work out. */
export const fitted: DocumentInput = {
  loomwright: 1,
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
            '1': {
              kind: 'supply-out',
              volts: '12..14.4 V',
              battery: true,
              feed: 'permanent',
              capacity: '25 Ah',
              cranking: '6.5 V',
            },
          },
        },
        { id: 'NEG', family: 'stud-m8', pins: { '1': { kind: 'return' } } },
      ],
    },
    {
      id: 'mobile',
      title: 'Radio',
      role: 'transceiver',
      connectors: [
        {
          id: 'J1',
          family: 'rect-power-2',
          half: 'pin',
          pins: {
            '1': {
              kind: 'supply-in',
              volts: '10.8..15.6 V',
              amps: { off: '50 mA', standby: '0.5 A', transmit: '10 A' },
            },
            '2': { kind: 'return' },
          },
        },
        {
          id: 'ANT',
          family: 'tnc',
          half: 'socket',
          pins: {
            centre: {
              kind: 'rf',
              watts: '50 W',
              tolerance: '2.5 ppm',
              deviation: '2.5 kHz',
              sensitivity: '-116 dBm',
            },
            shield: { kind: 'shield' },
          },
        },
      ],
    },
    {
      id: 'whip',
      title: 'Antenna',
      role: 'antenna',
      connectors: [
        {
          id: 'A1',
          family: 'tnc',
          half: 'socket',
          pins: { centre: { kind: 'rf', vswr: '1.5:1' }, shield: { kind: 'shield' } },
        },
      ],
    },
  ],
  harnesses: [
    {
      id: 'lead',
      title: 'Power and feeder',
      revision: 'B',
      revisions: [
        { revision: 'A', date: '2026-01-05', by: 'K', what: 'First issue.' },
        { revision: 'B', date: '2026-02-05', by: 'K', what: 'Return from 1.5 to 6 mm².' },
      ],
      connectors: [
        { id: 'R1', family: 'ring-m8', fits: 'battery-12.POS' },
        { id: 'R2', family: 'ring-m8', fits: 'battery-12.NEG' },
        { id: 'P1', family: 'rect-power-2', half: 'socket', fits: 'mobile.J1' },
        { id: 'P5', family: 'tnc', half: 'pin', fits: 'mobile.ANT' },
        { id: 'P6', family: 'tnc', half: 'pin', fits: 'whip.A1' },
      ],
      components: [{ kind: 'fuse', id: 'F1', rating: '15 A' }],
      wires: [
        { id: 'A1', from: 'R1', to: 'F1.in', size: '6 mm²', colour: 'RD', length: '0.3 m' },
        { id: 'A2', from: 'F1.out', to: 'P1.1', size: '6 mm²', colour: 'RD', length: '5 m' },
        { id: 'A3', from: 'P1.2', to: 'R2', size: '6 mm²', colour: 'BK', length: '5 m' },
      ],
      cables: [
        {
          id: 'W1',
          part: 'rg-58',
          length: '20 ft',
          cores: [{ core: 'centre', id: 'A9', from: 'P5.centre', to: 'P6.centre' }],
          shields: [{ shield: 'shield', from: 'P5.shield', to: 'P6.shield' }],
        },
      ],
    },
  ],
  installations: [
    {
      id: 'van',
      title: 'Van',
      setting: 'vehicle',
      structure: 'metal',
      supply: '13.8 V',
      parked: '21 days',
      highest: '150 MHz',
      revision: 'B',
      units: [
        { id: 'battery', of: 'battery-12' },
        { id: 'radio', of: 'mobile' },
        { id: 'antenna', of: 'whip' },
      ],
      looms: [{ id: 'main', of: 'lead' }],
      states: [{ id: 'off' }, { id: 'standby' }, { id: 'transmit', brief: true }],
    },
  ],
}

export function solved(data: DocumentInput = fitted) {
  const { shop, findings } = describeShop([{ name: 'van.json', data }])
  if (findings.length > 0) throw new Error(findings.map(({ what }) => what).join('\n'))
  return resolveShop(shop).looms.map((loom) => ({ loom, solution: solve(loom) }))
}

export function limits(data: DocumentInput = fitted) {
  const job = solved(data).find(({ loom }) => loom.kind === 'installation')
  if (!job) throw new Error('no installation')
  const found = limitsOf(job.loom, job.solution)
  const limit = (id: string): Limit => {
    const one = found.limits.find((each) => each.id === id)
    if (!one) throw new Error(`no limit ${id}; there are ${found.limits.map((each) => each.id).join(', ')}`)
    return one
  }
  const figure = (id: string): FigureLimit => {
    const one = limit(id)
    if (one.kind !== 'figure') throw new Error(`${id} is no figure`)
    return one
  }
  return { ...found, limit, figure }
}

/** Judges files of records against the van. */
export function judged(...files: readonly (readonly [name: string, data: unknown])[]) {
  const read = readRecords(files.map(([name, data]) => ({ name, data })))
  const result = judgeRecords(read.records, solved())
  return { ...result, shape: read.findings, findings: [...read.findings, ...result.findings] }
}

export const visit = (more: Partial<ReadingsInput> = {}): ReadingsInput => ({
  readings: 1,
  installation: 'van',
  asset: 'Van 1',
  date: '2026-03-01',
  ...more,
})
