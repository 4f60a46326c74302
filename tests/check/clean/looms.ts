import type { DocumentInput } from '../../../src/describe/document.ts'
import type { PinFunctionInput } from '../../../src/describe/function.ts'

// Six looms of other kinds, as a careful shop would describe them. They have to pass with notes at most.

type Pins = Readonly<Record<string, PinFunctionInput>>

const at = (id: string, family: string, half: 'pin' | 'socket' | undefined, pins: Pins) => ({
  id,
  family,
  ...(half ? { half } : {}),
  view: 'mating' as const,
  record: 'maker' as const,
  pins,
})

const serial = (line: string, direction: 'in' | 'out'): PinFunctionInput => ({
  kind: 'data',
  standard: 'tia-232',
  line,
  direction,
  name: line,
})

/** TIA-574: the nine pins of a DTE port. */
const dte: Pins = {
  '1': serial('DCD', 'in'),
  '2': serial('RXD', 'in'),
  '3': serial('TXD', 'out'),
  '4': serial('DTR', 'out'),
  '5': { kind: 'signal-return', name: 'SG' },
  '6': serial('DSR', 'in'),
  '7': serial('RTS', 'out'),
  '8': serial('CTS', 'in'),
  '9': serial('RI', 'in'),
  shell: { kind: 'chassis' },
}

const nullModem: DocumentInput = {
  loomwright: 1,
  equipment: [
    { id: 'computer', title: 'Computer', connectors: [at('COM', 'dsub-9', 'pin', dte)] },
    { id: 'logger', title: 'Logger', connectors: [at('COM', 'dsub-9', 'pin', dte)] },
  ],
  harnesses: [
    {
      id: 'null-modem',
      title: 'Null modem, DE-9',
      connectors: [
        {
          id: 'P1',
          family: 'dsub-9',
          half: 'socket',
          fits: 'computer.COM',
          contact: 'dsub-solder',
          label: 'COMPUTER',
        },
        {
          id: 'P2',
          family: 'dsub-9',
          half: 'socket',
          fits: 'logger.COM',
          contact: 'dsub-solder',
          label: 'LOGGER',
        },
      ],
      wires: [
        ['2', '3'],
        ['3', '2'],
        ['4', '6'],
        ['5', '5'],
        ['6', '4'],
        ['7', '8'],
        ['8', '7'],
      ].map(([from, to], index) => ({
        id: `N0${index + 1}`,
        from: `P1.${from}`,
        to: `P2.${to}`,
        size: '0.22 mm²' as const,
        length: '2 m' as const,
      })),
    },
  ],
}

const usb = (supply: PinFunctionInput): Pins => ({
  '1': supply,
  '2': { kind: 'data', standard: 'usb-2.0', line: 'D-', direction: 'both' },
  '3': { kind: 'data', standard: 'usb-2.0', line: 'D+', direction: 'both' },
  '4': { kind: 'return', name: 'GND' },
})

const usbServiceLead: DocumentInput = {
  loomwright: 1,
  equipment: [
    {
      id: 'laptop',
      title: 'Laptop',
      connectors: [
        at(
          'USB',
          'usb-a',
          'socket',
          usb({
            kind: 'supply-out',
            name: 'VBUS',
            volts: '4.75..5.25 V',
            feed: 'switched',
            maxAmps: '0.5 A',
          }),
        ),
      ],
    },
    {
      id: 'radio',
      title: 'Radio, service port',
      connectors: [
        at(
          'SERVICE',
          'usb-a',
          'socket',
          usb({ kind: 'supply-in', name: 'VBUS', volts: '4.4..5.5 V', amps: '0.1 A' }),
        ),
      ],
    },
  ],
  harnesses: [
    {
      id: 'service-lead',
      title: 'USB service lead',
      connectors: [
        {
          id: 'P1',
          family: 'usb-a',
          half: 'pin',
          fits: 'laptop.USB',
          contact: 'usb-solder',
          label: 'LAPTOP',
          zone: 'desk',
        },
        {
          id: 'P2',
          family: 'usb-a',
          half: 'pin',
          fits: 'radio.SERVICE',
          contact: 'usb-solder',
          label: 'RADIO',
          zone: 'shelf',
        },
      ],
      cables: [
        {
          id: 'W1',
          part: 'usb-2.0-lead',
          length: '1.5 m',
          cores: [
            { core: 'vbus', from: 'P1.1', to: 'P2.1' },
            { core: 'dm', from: 'P1.2', to: 'P2.2' },
            { core: 'dp', from: 'P1.3', to: 'P2.3' },
            { core: 'gnd', from: 'P1.4', to: 'P2.4' },
          ],
          shields: [{ shield: 'screen', from: 'P1.shell' }],
        },
      ],
    },
  ],
}

const balanced = (kind: 'audio-out' | 'audio-in', port: string): Pins => ({
  '1': { kind: 'chassis' },
  '2': { kind, level: 'mic', leg: 'hot', port, ohms: kind === 'audio-out' ? '200 Ω' : '2 kΩ' },
  '3': { kind, level: 'mic', leg: 'cold', port, ohms: kind === 'audio-out' ? '200 Ω' : '2 kΩ' },
})
const ways = ['1', '2', '3', '4'] as const

const snake: DocumentInput = {
  loomwright: 1,
  equipment: [
    {
      id: 'stage-box',
      title: 'Stage box, four lines',
      connectors: ways.map((way) => at(`S${way}`, 'xlr-3', 'pin', balanced('audio-out', way))),
    },
    {
      id: 'desk',
      title: 'Desk, four inputs',
      connectors: ways.map((way) => at(`D${way}`, 'xlr-3', 'socket', balanced('audio-in', way))),
    },
  ],
  harnesses: [
    {
      id: 'snake',
      title: 'Balanced snake, four lines',
      connectors: ways.flatMap((way) => [
        {
          id: `S${way}`,
          family: 'xlr-3',
          half: 'socket' as const,
          fits: `stage-box.S${way}`,
          label: `STAGE ${way}`,
        },
        {
          id: `D${way}`,
          family: 'xlr-3',
          half: 'pin' as const,
          fits: `desk.D${way}`,
          label: `DESK ${way}`,
        },
      ]),
      cables: ways.map((way) => ({
        id: `W${way}`,
        part: 'mic-2x0.22',
        length: '10 m' as const,
        cores: [
          { core: '1', from: `S${way}.2`, to: `D${way}.2` },
          { core: '2', from: `S${way}.3`, to: `D${way}.3` },
        ],
        shields: [
          {
            shield: 'screen',
            from: `S${way}.1`,
            to: `D${way}.1`,
            bothEnds: 'Both boxes take the screen to their case.',
          },
        ],
      })),
    },
  ],
}

/** ISO 1724 type 12 N: 1 left, 2 fog, 3 earth, 4 right, 5 right tail, 6 stop, 7 left tail; from memory. */
const lamps = [
  ['1', 'L', '2 A'],
  ['2', '54G', '2 A'],
  ['4', 'R', '2 A'],
  ['5', '58R', '1 A'],
  ['6', '54', '4 A'],
  ['7', '58L', '1 A'],
] as const
const sockets: Pins = Object.fromEntries([
  ...lamps.map(([pin, name]): [string, PinFunctionInput] => [
    pin,
    { kind: 'supply-out', name, feed: 'switched', volts: '11..14.4 V', maxAmps: '5 A' },
  ]),
  ['3', { kind: 'return', name: '31' }],
])
const trailerLamps: Pins = Object.fromEntries([
  ...lamps.map(([pin, name, amps]): [string, PinFunctionInput] => [
    pin,
    { kind: 'supply-in', name, volts: '9..15 V', amps },
  ]),
  ['3', { kind: 'return', name: '31' }],
])

const seven = (id: string): NonNullable<DocumentInput['parts']>[number] => ({
  kind: 'connector',
  id,
  title: 'Seven-way trailer connector (ISO 1724)',
  style: 'circular',
  lock: 'latch',
  shrouded: true,
  pins: ['1', '2', '3', '4', '5', '6', '7'],
  amps: '16 A',
})

const trailerLead: DocumentInput = {
  loomwright: 1,
  parts: [seven('trailer-7')],
  equipment: [
    { id: 'towing-vehicle', title: 'Towing vehicle', connectors: [at('X1', 'trailer-7', 'socket', sockets)] },
    { id: 'trailer', title: 'Trailer lamps', connectors: [at('X2', 'trailer-7', 'socket', trailerLamps)] },
  ],
  harnesses: [
    {
      id: 'trailer-lead',
      title: 'Trailer lead, seven-way',
      connectors: [
        {
          id: 'P1',
          family: 'trailer-7',
          half: 'pin',
          fits: 'towing-vehicle.X1',
          label: 'VEHICLE',
          zone: 'tow-bar',
        },
        { id: 'P2', family: 'trailer-7', half: 'pin', fits: 'trailer.X2', label: 'TRAILER', zone: 'drawbar' },
      ],
      wires: ['1', '2', '3', '4', '5', '6', '7'].map((pin) => ({
        id: `T0${pin}`,
        from: `P1.${pin}`,
        to: `P2.${pin}`,
        size: pin === '3' ? ('2.5 mm²' as const) : ('1.5 mm²' as const),
        length: '1.5 m' as const,
        part: 'vehicle-thin-wall',
      })),
    },
  ],
}

const branch = ['1', '2', '3'] as const

const distribution: DocumentInput = {
  loomwright: 1,
  parts: [
    {
      kind: 'connector',
      id: 'power-2',
      title: 'Two-way power housing',
      style: 'housing',
      lock: 'latch',
      shrouded: true,
      pins: ['1', '2'],
      amps: '30 A',
    },
  ],
  equipment: [
    {
      id: 'supply',
      title: 'Bench supply 13.8 V',
      connectors: [
        at('OUT', 'power-2', 'socket', {
          '1': {
            kind: 'supply-out',
            name: '+',
            port: 'out',
            volts: '13.8 V',
            feed: 'switched',
            maxAmps: '25 A',
          },
          '2': { kind: 'return', name: '−', port: 'out' },
        }),
      ],
    },
    ...branch.map((way) => ({
      id: `radio-${way}`,
      title: 'Radio',
      connectors: [
        at('DC', 'power-2', 'socket', {
          '1': { kind: 'supply-in', name: '+', port: 'dc', volts: '10.8..15.6 V', amps: '4 A' },
          '2': { kind: 'return', name: '−', port: 'dc' },
        }),
      ],
    })),
  ],
  harnesses: [
    {
      id: 'block',
      title: 'Fused distribution block, three ways',
      connectors: [
        { id: 'P0', family: 'power-2', half: 'pin', fits: 'supply.OUT', label: 'SUPPLY', zone: 'shelf-0' },
        ...branch.map((way) => ({
          id: `P${way}`,
          family: 'power-2',
          half: 'pin' as const,
          fits: `radio-${way}.DC`,
          label: `RADIO ${way}`,
          zone: `shelf-${way}`,
        })),
      ],
      bundled: 2,
      splices: [
        { id: 'SP1', kind: 'screw' },
        { id: 'SP2', kind: 'screw' },
      ],
      components: [
        { id: 'F0', kind: 'fuse', rating: '20 A', part: 'blade-20' },
        ...branch.map((way) => ({
          id: `F${way}`,
          kind: 'fuse' as const,
          rating: '7.5 A' as const,
          part: 'blade-7.5',
        })),
      ],
      wires: [
        { id: 'A01', from: 'P0.1', to: 'F0.in', size: '6 mm²', length: '0.2 m', part: 'vehicle-thin-wall' },
        { id: 'A02', from: 'F0.out', to: 'SP1', size: '6 mm²', length: '0.3 m', part: 'vehicle-thin-wall' },
        { id: 'A03', from: 'SP2', to: 'P0.2', size: '6 mm²', length: '0.3 m', part: 'vehicle-thin-wall' },
        ...branch.flatMap((way) => [
          {
            id: `B${way}1`,
            from: 'SP1',
            to: `F${way}.in`,
            size: '6 mm²' as const,
            length: '0.1 m' as const,
            part: 'vehicle-thin-wall',
          },
          {
            id: `B${way}2`,
            from: `F${way}.out`,
            to: `P${way}.1`,
            size: '1.5 mm²' as const,
            length: '1 m' as const,
            part: 'vehicle-thin-wall',
          },
          {
            id: `B${way}3`,
            from: `P${way}.2`,
            to: 'SP2',
            size: '1.5 mm²' as const,
            length: '1 m' as const,
            part: 'vehicle-thin-wall',
          },
        ]),
      ],
    },
  ],
}

const coaxPort = (watts: '25 W' | '50 W'): Pins => ({
  centre: { kind: 'rf', ohms: '50 Ω', watts, from: '146 MHz', to: '174 MHz' },
  shield: { kind: 'shield' },
})

const coaxJumper: DocumentInput = {
  loomwright: 1,
  equipment: [
    { id: 'duplexer', title: 'Duplexer', connectors: [at('ANT', 'bnc', 'socket', coaxPort('50 W'))] },
    { id: 'arrester', title: 'Surge arrester', connectors: [at('IN', 'bnc', 'socket', coaxPort('50 W'))] },
  ],
  harnesses: [
    {
      id: 'jumper',
      title: 'Coaxial jumper 50 Ω',
      connectors: [
        {
          id: 'P1',
          family: 'bnc',
          half: 'pin',
          fits: 'duplexer.ANT',
          contact: 'coax-crimp',
          label: 'DUPLEXER',
        },
        {
          id: 'P2',
          family: 'bnc',
          half: 'pin',
          fits: 'arrester.IN',
          contact: 'coax-crimp',
          label: 'ARRESTER',
        },
      ],
      cables: [
        {
          id: 'W1',
          part: 'rg-58',
          length: '0.6 m',
          cores: [{ core: 'centre', from: 'P1.centre', to: 'P2.centre' }],
          shields: [{ shield: 'shield', from: 'P1.shield', to: 'P2.shield' }],
        },
      ],
    },
  ],
}

/** Each by its kind. */
export const cleanLooms: Readonly<Record<string, DocumentInput>> = {
  'a DE-9 null modem': nullModem,
  'a USB service lead': usbServiceLead,
  'a balanced snake': snake,
  'a trailer lead': trailerLead,
  'a fused distribution block': distribution,
  'a coaxial jumper': coaxJumper,
}
