import { equipment, jack } from 'loomwright'

// Invented equipment. XLR numbering of the party line is common practice; the rest is made up.

const asMeasured = { view: 'mating', record: 'measured' } as const
const fromManual = { view: 'mating', record: 'maker' } as const

/** What a station puts on the line: it drives it as a current, so its pin is of high impedance and may be shared. */
const lineAudio = (channel: string) =>
  ({
    kind: 'audio-out',
    name: `${channel} AUDIO`,
    port: `channel ${channel}`,
    level: 'line',
    leg: 'single',
    ohms: '50 kΩ',
    limit: '-10..10 V',
  }) as const
const linePower = (channel: string) =>
  ({
    kind: 'supply-out',
    name: `${channel} +`,
    feed: 'switched',
    volts: '28 V',
    maxAmps: '1 A',
    note: 'Limited inside to 1 A; restores itself.',
  }) as const

export const mainStation = equipment('main-station', {
  title: 'Party-line main station, two channels',
  role: 'intercom',
  connectors: [
    jack(
      'LINE',
      'xlr-5',
      'pin',
      {
        1: { kind: 'return', name: 'COM' },
        2: linePower('A'),
        3: lineAudio('A'),
        4: linePower('B'),
        5: lineAudio('B'),
      },
      { title: 'Both channels', hotPlug: true, ...fromManual },
    ),
    jack(
      'PGM',
      'jack-6.35-ts',
      'socket',
      {
        T: {
          kind: 'audio-in',
          name: 'PGM',
          port: 'programme',
          level: 'line',
          leg: 'single',
          ohms: '20 kΩ',
          dbu: '0 dBu',
        },
        S: { kind: 'signal-return', name: 'PGM 0V', port: 'programme' },
      },
      { title: 'Programme in', ...fromManual },
    ),
  ],
  joins: [{ pins: ['LINE.1', 'PGM.S'] }],
  cautions: ['mains', 'hearing'],
})

const stationLine = (amps: '65 mA' | '150 mA' | '0 A') =>
  ({
    1: { kind: 'return', name: 'COM' },
    2: { kind: 'supply-in', name: '+', volts: '24..30 V', amps, limit: '-0.5..35 V' },
    3: {
      kind: 'audio-out',
      name: 'AUDIO',
      port: 'line',
      level: 'line',
      leg: 'single',
      ohms: '50 kΩ',
      limit: '-10..10 V',
    },
  }) as const

export const beltPack = equipment('belt-pack', {
  title: 'Belt pack, dynamic microphones only',
  role: 'intercom',
  connectors: [
    jack('LINE', 'xlr-3', 'pin', stationLine('65 mA'), { title: 'Line', hotPlug: true, ...fromManual }),
    jack(
      'HS',
      'xlr-4',
      'pin',
      {
        1: { kind: 'audio-in', name: 'M−', port: 'mic', level: 'mic', leg: 'cold', element: 'dynamic' },
        2: { kind: 'audio-in', name: 'M+', port: 'mic', level: 'mic', leg: 'hot', element: 'dynamic' },
        3: { kind: 'audio-out', name: 'E−', port: 'ear', level: 'headphone', leg: 'cold' },
        4: { kind: 'audio-out', name: 'E+', port: 'ear', level: 'headphone', leg: 'hot' },
      },
      { title: 'Headset', hotPlug: true, ...fromManual },
    ),
  ],
  cautions: ['hearing'],
})

export const speakerStation = equipment('speaker-station', {
  title: 'Speaker station',
  role: 'intercom',
  connectors: [
    jack('LINE', 'xlr-3', 'pin', stationLine('150 mA'), { title: 'Line', hotPlug: true, ...fromManual }),
  ],
  cautions: ['hearing'],
})

/** Takes nothing from the line: it has a supply of its own and only listens and speaks. */
export const lineInterface = equipment('line-interface', {
  title: 'Interface to the outside-broadcast van, own supply',
  role: 'intercom',
  connectors: [
    jack(
      'LINE',
      'xlr-3',
      'pin',
      {
        1: { kind: 'return', name: 'COM' },
        2: { kind: 'spare', name: '+', limit: '-0.5..35 V' },
        3: stationLine('65 mA')[3],
      },
      { title: 'Line', hotPlug: true, ...fromManual },
    ),
  ],
})

const outlets = ['O1', 'O2', 'O3', 'O4', 'O5', 'O6', 'O7', 'O8'] as const

/** A length of outlets in parallel; packs plug straight into it. */
export const rail = equipment('pack-rail', {
  title: 'Rail of eight line outlets',
  role: 'distribution',
  connectors: [
    jack('IN', 'xlr-3', 'pin', stationLine('0 A'), { title: 'In', ...asMeasured }),
    ...outlets.map((id) =>
      jack(
        id,
        'xlr-3',
        'socket',
        { 1: { name: 'COM' }, 2: { name: '+' }, 3: { name: 'AUDIO' } },
        { title: 'Outlet', ...asMeasured },
      ),
    ),
  ],
  joins: (['1', '2', '3'] as const).map((pin) => ({
    pins: [`IN.${pin}` as const, ...outlets.map((id) => `${id}.${pin}` as const)],
  })),
})

const headsetOf = <const Id extends string>(id: Id, element: 'dynamic' | 'electret') =>
  equipment(id, {
    title: `Headset, ${element} microphone`,
    role: 'headset',
    connectors: [
      jack(
        'PAD',
        'screw-terminal-4',
        'genderless',
        {
          1: { kind: 'audio-in', name: 'E+', port: 'ear', level: 'headphone', leg: 'hot', ohms: '150 Ω' },
          2: { kind: 'audio-out', name: 'M−', port: 'mic', level: 'mic', leg: 'cold', element },
          3: { kind: 'audio-in', name: 'E−', port: 'ear', level: 'headphone', leg: 'cold', ohms: '150 Ω' },
          4: { kind: 'audio-out', name: 'M+', port: 'mic', level: 'mic', leg: 'hot', element },
        },
        { title: 'Pads inside the ear shell', ...asMeasured },
      ),
    ],
    cautions: ['hearing'],
  })
export const headsetDynamic = headsetOf('headset-dynamic', 'dynamic')
export const headsetElectret = headsetOf('headset-electret', 'electret')

export const desk = equipment('sound-desk', {
  title: 'Sound desk, one matrix output',
  role: 'console',
  connectors: [
    jack(
      'MTX',
      'xlr-3',
      'pin',
      {
        1: { kind: 'chassis', name: 'SCREEN' },
        2: {
          kind: 'audio-out',
          name: 'HOT',
          port: 'matrix',
          level: 'line',
          leg: 'hot',
          ohms: '150 Ω',
          dbu: '+4 dBu',
        },
        3: {
          kind: 'audio-out',
          name: 'COLD',
          port: 'matrix',
          level: 'line',
          leg: 'cold',
          ohms: '150 Ω',
          dbu: '+4 dBu',
        },
      },
      { title: 'Matrix out', ...fromManual },
    ),
    jack(
      'MIC',
      'xlr-3',
      'socket',
      {
        1: { kind: 'chassis', name: 'SCREEN' },
        2: {
          kind: 'audio-in',
          name: 'HOT',
          port: 'mic',
          level: 'mic',
          leg: 'hot',
          ohms: '2 kΩ',
          limit: '-10..10 V',
        },
        3: {
          kind: 'audio-in',
          name: 'COLD',
          port: 'mic',
          level: 'mic',
          leg: 'cold',
          ohms: '2 kΩ',
          limit: '-10..10 V',
        },
      },
      { title: 'Microphone in', ...fromManual },
    ),
  ],
})

export const microphone = equipment('stage-mic', {
  title: 'Stage microphone, ribbon',
  role: 'microphone',
  connectors: [
    jack(
      'XLR',
      'xlr-3',
      'pin',
      {
        1: { kind: 'shield', name: 'SCREEN' },
        2: {
          kind: 'audio-out',
          name: 'HOT',
          port: 'mic',
          level: 'mic',
          leg: 'hot',
          element: 'ribbon',
          limit: '-1..1 V',
        },
        3: {
          kind: 'audio-out',
          name: 'COLD',
          port: 'mic',
          level: 'mic',
          leg: 'cold',
          element: 'ribbon',
          limit: '-1..1 V',
        },
      },
      { title: 'Microphone', hotPlug: true, ...fromManual },
    ),
  ],
})

export const cueController = equipment('cue-controller', {
  title: 'Cue light controller',
  role: 'control',
  connectors: [
    jack(
      'OUT',
      'screw-terminal-2',
      'genderless',
      {
        1: { kind: 'supply-out', name: 'CU+', feed: 'switched', volts: '24 V', maxAmps: '0.3 A' },
        2: {
          kind: 'switch-out',
          name: 'CUE',
          form: 'open-collector',
          active: 'low',
          maxAmps: '100 mA',
          maxVolts: '40 V',
          saturation: '0.4 V',
          purpose: 'other',
        },
      },
      { title: 'Cue 1', ...fromManual },
    ),
  ],
})
