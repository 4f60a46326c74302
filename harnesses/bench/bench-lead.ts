import { harness, installation, loom, pair, plug, transformer, unit, wire } from 'loomwright'
import * as kit from './equipment.ts'

/**
 * From the accessory port of a mobile to the test set. The bridged output drives the load directly, and the test set
 * only through a transformer: its earth would short one leg.
 */
const P1 = plug('P1', kit.tradeMobile.at('ACC'), {
  contact: 'dsub-crimp-20',
  zone: 'bench',
  label: 'RADIO ACC 9',
})
const LOAD = plug('LOAD', kit.dummySpeaker.at('R'), {
  contact: 'screw-clamp',
  zone: 'bench',
  label: 'LOAD 4 OHM',
})
const AF = plug('AF', kit.testSet.at('AF-IN'), { contact: 'coax-crimp', zone: 'bench', label: 'AF IN' })
const KEY = plug('KEY', kit.testSet.at('KEY'), { contact: 'jack-3.5-solder', zone: 'bench', label: 'KEY' })
const TR1 = transformer('TR1', { title: 'Isolation transformer 1 : 1, audio', ratio: 1, zone: 'bench' })

const lead = (id: string, colour: 'RD' | 'BK' | 'WH' | 'GY' | 'BU' | 'VT') =>
  ({ size: '0.5 mm²', length: '0.8 m', part: 'equipment-pvc', colour, label: id }) as const

export const benchLead = harness('bench-lead-9', {
  title: 'Bench lead, nine-way accessory port to test set',
  document: 'HT-0023',
  revision: 'C',
  date: '2026-01-19',
  state: 'issued',
  drawnBy: 'P. Okafor',
  checkedBy: 'M. Teal',
  wires: [
    pair(
      'TP1',
      wire('L01', P1.pin(1), LOAD.pin(1), lead('L01', 'RD')),
      wire('L02', P1.pin(2), LOAD.pin(2), lead('L02', 'BK')),
    ),
    pair(
      'TP2',
      wire('L03', LOAD.pin(1), TR1.p1, lead('L03', 'WH')),
      wire('L04', LOAD.pin(2), TR1.p2, lead('L04', 'GY')),
    ),
    pair(
      'TP3',
      wire('L05', TR1.s1, AF.pin('centre'), lead('L05', 'WH')),
      wire('L06', TR1.s2, AF.pin('shield'), lead('L06', 'GY')),
    ),
    pair(
      'TP4',
      wire('L07', P1.pin(3), KEY.pin('T'), { ...lead('L07', 'BU'), size: '0.34 mm²' }),
      wire('L08', P1.pin(5), KEY.pin('S'), { ...lead('L08', 'VT'), size: '0.34 mm²' }),
    ),
  ],
  notes: ['Neither loudspeaker leg may meet ground. Clip nothing earthed to L01, L02, L03 or L04.'],
})

export const bench = installation('radio-bench', {
  title: 'Radio bench',
  document: 'HT-0024',
  revision: 'C',
  date: '2026-01-19',
  drawnBy: 'P. Okafor',
  checkedBy: 'M. Teal',
  setting: 'bench',
  highest: '870 MHz',
  units: [
    unit('radio', kit.tradeMobile, { zone: 'bench' }),
    unit('test-set', kit.testSet, { zone: 'bench' }),
    unit('load', kit.dummySpeaker, { zone: 'bench' }),
  ],
  looms: [loom('lead', benchLead)],
  notes: [
    'Measure frequency error at the highest channel: at 870 MHz 1 ppm is 870 Hz, so 350 Hz is 0.4 ppm.',
    'Take the loss of the test cable off before calling a power reading low.',
  ],
})
