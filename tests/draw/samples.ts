import type { Block, Conductor, SheetModel, Trunk } from '../../src/draw/sheet-model.ts'

type Wire = readonly [id: string, from: string, to: string, colour: string, size: string]

const at = (end: string) => {
  const [block = '', pin = ''] = end.split('.')
  return { block, pin }
}
const wire = ([id, from, to, colour, size]: Wire): Conductor => ({
  id,
  from: at(from),
  to: at(to),
  colour,
  size,
  net: `net ${id}`,
  title: `${id}: ${from} to ${to}`,
})

function strip(
  id: string,
  title: string,
  subtitle: string,
  pins: readonly string[],
  more: Partial<Extract<Block, { kind: 'strip' }>> = {},
): Block {
  const rows = pins.map((pin) => {
    const [name = '', words = ''] = pin.split('=')
    return { key: name, pin: name, name: words }
  })
  return { kind: 'strip', id, title, subtitle, sections: [{ id, rows }], ...more }
}

const fuse = (id: string, value: string): Block => ({
  kind: 'inline',
  id,
  title: id,
  subtitle: value,
  symbol: 'fuse',
  pins: ['in', 'out'],
})

/** A radio accessory harness with every kind of block, pairs, screens, a cable and a splice. */
export function accessoryHarness(): SheetModel {
  const blocks: Block[] = [
    {
      kind: 'strip',
      id: 'J1',
      title: 'J1 Accessory',
      subtitle: '9-way receptacle',
      sections: [
        {
          id: 'J1',
          rows: [
            '1=SPK +',
            '2=SPK −',
            '3=IGN SENSE',
            '4=HORN RLY',
            '5=GND',
            '6=AUD HI',
            '7=AUD LO',
            '8=PTT',
            '9=SCREEN',
          ].map((pin) => {
            const [name = '', words = ''] = pin.split('=')
            return {
              key: name,
              pin: name,
              name: words,
              ...(name === '4' ? { flags: [{ number: 3, level: 'error' as const }] } : {}),
            }
          }),
        },
      ],
    },
    strip('J2', 'J2 Data', '25-way D-sub, socket', [
      '1=CHASSIS',
      '2=TXD',
      '3=RXD',
      '4=RTS',
      '5=CTS',
      '7=SIG GND',
      '8=AUX IN 1',
      '9=AUX IN 2',
      '11=MIC HI',
      '12=MIC LO',
      '17=HOOK',
      '25=+13V8 OUT',
    ]),
    strip('LS1', 'LS1 Loudspeaker', '8 Ω 10 W', ['+=plus', '−=minus'], { symbol: 'speaker' }),
    strip('J3', 'J3 Handset', '8-way modular', [
      '1=+13V8',
      '2=HOOK',
      '3=MIC HI',
      '4=MIC LO',
      '5=EAR HI',
      '6=EAR LO',
      '7=PTT',
      '8=GND',
    ]),
    strip('J4', 'J4 Modem', '9-way D-sub, socket', [
      '2=RXD',
      '3=TXD',
      '5=GND',
      '7=RTS',
      '8=CTS',
      '9=+12V IN',
    ]),
    fuse('F1', '5 A blade'),
    fuse('F2', '3 A blade'),
    fuse('F3', '10 A blade'),
    fuse('F4', '15 A blade'),
    {
      kind: 'relay',
      id: 'K1',
      title: 'K1 Horn relay',
      subtitle: 'coil 80 Ω, diode built in',
      coil: ['85', '86'],
      common: '30',
      open: '87',
      closed: '87a',
      suppressor: 'diode',
    },
    strip('HN', 'HN Horn', '12 V', ['1=+', '2=−']),
    strip('BT1', 'BT1 Battery', '12 V 70 Ah', ['+=positive post', '−=negative post'], { symbol: 'battery' }),
    strip('S1', 'S1 Switches', 'dash panel', ['1=IGN', '2=AUX 1', '3=AUX 2', '4=COM', '5=IGN OUT']),
    { kind: 'stud', id: 'E1', title: 'E1', subtitle: 'M6 stud', symbol: 'chassis' },
    { kind: 'splice', id: 'SP1', title: 'SP1' },
    { kind: 'inline', id: 'D1', title: 'D1', subtitle: '1 A 200 V', symbol: 'diode', pins: ['a', 'k'] },
  ]
  const wires: Wire[] = [
    ['101', 'J1.1', 'LS1.+', 'GN', '0.75 (18)'],
    ['102', 'J1.2', 'LS1.−', 'BK', '0.75 (18)'],
    ['103', 'J1.3', 'S1.5', 'OG', '0.5 (20)'],
    ['104', 'J1.4', 'K1.85', 'VT', '0.5 (20)'],
    ['105', 'J1.5', 'SP1.SP1', 'BK', '1.5 (16)'],
    ['106', 'J1.6', 'J3.5', 'WH', '0.25 (23)'],
    ['107', 'J1.7', 'J3.6', 'BU', '0.25 (23)'],
    ['108', 'J1.8', 'J3.7', 'GYPK', '0.25 (23)'],
    ['201', 'J2.2', 'J4.2', 'BN', '0.25 (23)'],
    ['202', 'J2.3', 'J4.3', 'RD', '0.25 (23)'],
    ['203', 'J2.7', 'J4.5', 'BK', '0.25 (23)'],
    ['204', 'J2.4', 'J4.7', 'YE', '0.25 (23)'],
    ['205', 'J2.5', 'J4.8', 'GN', '0.25 (23)'],
    ['207', 'J2.8', 'S1.2', 'PK', '0.5 (20)'],
    ['208', 'J2.9', 'S1.3', 'TQ', '0.5 (20)'],
    ['209', 'J2.11', 'J3.3', 'WH', '0.25 (23)'],
    ['210', 'J2.12', 'J3.4', 'RD', '0.25 (23)'],
    ['212', 'J2.17', 'J3.2', 'GYPK', '0.25 (23)'],
    ['213', 'J2.25', 'F2.in', 'RD', '0.5 (20)'],
    ['214', 'F2.out', 'J3.1', 'RD', '0.5 (20)'],
    ['301', 'BT1.+', 'F3.in', 'RD', '2.5 (14)'],
    ['302', 'F3.out', 'K1.30', 'RD', '2.5 (14)'],
    ['303', 'F1.out', 'S1.1', 'RD', '1 (17)'],
    ['304', 'BT1.+', 'F1.in', 'RD', '4 (12)'],
    ['305', 'BT1.−', 'SP1.SP1', 'BK', '2.5 (14)'],
    ['306', 'SP1.SP1', 'J3.8', 'BK', '0.5 (20)'],
    ['307', 'BT1.−', 'E1.E1', 'BK', '6 (10)'],
    ['308', 'S1.4', 'E1.E1', 'BK', '0.5 (20)'],
    ['309', 'F1.out', 'K1.86', 'RD', '0.5 (20)'],
    ['310', 'BT1.+', 'F4.in', 'RD', '4 (12)'],
    ['311', 'F4.out', 'D1.a', 'RD', '1.5 (16)'],
    ['312', 'D1.k', 'J4.9', 'RDYE', '1.5 (16)'],
    ['313', 'K1.87', 'HN.1', 'OG', '1.5 (16)'],
    ['314', 'HN.2', 'E1.E1', 'BK', '1.5 (16)'],
  ]
  const trunks: Trunk[] = [
    {
      id: 'W1',
      title: 'W1 speaker pair',
      jacket: false,
      conductors: ['101', '102'],
      pairs: [['101', '102']],
      shields: [],
    },
    {
      id: 'W2',
      title: 'W2 receive audio',
      jacket: false,
      conductors: ['106', '107'],
      pairs: [['106', '107']],
      shields: [{ id: '110', covers: [], from: at('J1.9') }],
    },
    {
      id: 'W3',
      title: 'W3 5 × 0.25',
      jacket: true,
      conductors: ['201', '202', '203', '204', '205'],
      pairs: [],
      shields: [],
    },
    {
      id: 'W4',
      title: 'W4 microphone',
      jacket: true,
      conductors: ['209', '210'],
      pairs: [['209', '210']],
      shields: [{ id: '211', covers: [], from: at('J2.1') }],
    },
  ]
  return {
    titleBlock: {
      owner: 'Example shop',
      title: 'Radio accessory harness',
      documentType: 'Wiring drawing',
      documentNo: 'WH-0001',
      revision: 'A',
      date: '2025-01-01',
      createdBy: 'A. Fitter',
      approvedBy: 'B. Checker',
    },
    blocks,
    conductors: wires.map(wire),
    trunks,
    notes: ['Conductor text: number, colour, mm² (AWG).'],
  }
}
