// Descriptions of any size for the benchmark, as data: the same numbers give the same text.

const COLOURS = ['RD', 'BK', 'BU', 'GN', 'YE', 'WH', 'BN', 'OG', 'VT', 'GY']
const SIZES = ['0.22 mm²', '0.34 mm²']
const pad = (number, digits = 4) => String(number).padStart(digits, '0')

/** Numbers that look drawn at random and are the same each time (a linear congruential generator). */
function numbers(seed) {
  let state = seed >>> 0
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return Math.floor((state / 2 ** 32) * below)
  }
}

const LAMP = {
  id: 'lamp',
  title: 'Lamp',
  connectors: [
    {
      id: 'J',
      family: 'rect-4',
      half: 'pin',
      pins: {
        1: { kind: 'supply-in', volts: '24 V', amps: '0.02 A' },
        2: { kind: 'return' },
      },
    },
  ],
}

/** The most wires in one harness of {@link hall}. */
const WIRES_PER_HARNESS = 3000

/**
 * A hall of lamps: a feed along the row, a drop and a return for each, three wires a lamp; rows of fifty.
 * @param {number} wires how many in all
 */
export function hall(wires) {
  const lamps = Math.max(1, Math.floor(wires / 3))
  const perHarness = Math.floor(WIRES_PER_HARNESS / 3)
  const harnesses = []
  for (let start = 0; start < lamps; start += perHarness) {
    const numbersHere = Array.from({ length: Math.min(perHarness, lamps - start) }, (_, i) => i)
    harnesses.push({
      id: `hall-${harnesses.length + 1}`,
      title: `Hall, part ${harnesses.length + 1}`,
      connectors: [
        { id: 'R1', family: 'ring-m8', fits: 'cell.P', contact: 'ring-yellow' },
        { id: 'R2', family: 'ring-m8', fits: 'cell.N', contact: 'ring-yellow' },
        ...numbersHere.map((n) => ({ id: `P${n}`, family: 'rect-4', half: 'socket', fits: 'lamp.J' })),
      ],
      splices: numbersHere.map((n) => ({ id: `S${n}` })),
      wires: numbersHere.flatMap((n) => [
        {
          id: `F${pad(n)}`,
          from: n % 50 === 0 ? 'R1.1' : `S${n - 1}`,
          to: `S${n}`,
          size: '2.5 mm²',
          colour: 'RD',
          length: '1 m',
        },
        { id: `L${pad(n)}`, from: `S${n}`, to: `P${n}.1`, size: '0.75 mm²', colour: 'RD', length: '0.5 m' },
        { id: `B${pad(n)}`, from: `P${n}.2`, to: 'R2.1', size: '1.5 mm²', colour: 'BK', length: '2 m' },
      ]),
    })
  }
  const cell = {
    id: 'cell',
    title: 'Battery',
    connectors: [
      {
        id: 'P',
        family: 'stud-m8',
        pins: { 1: { kind: 'supply-out', volts: '24 V', battery: true, maxAmps: '100 A' } },
      },
      { id: 'N', family: 'stud-m8', pins: { 1: { kind: 'return' } } },
    ],
  }
  return { loomwright: 1, equipment: [cell, LAMP], harnesses }
}

const RADIO_PINS = {
  1: { kind: 'supply-in', volts: '10..15.6 V', amps: { standby: '0.3 A', transmit: '5 A' } },
  2: { kind: 'return' },
}

/** Equipment that every loom of {@link shopFiles} plugs into. */
const EQUIPMENT = [
  {
    id: 'battery',
    title: 'Battery with fuse panel',
    connectors: [
      {
        id: 'P',
        family: 'stud-m8',
        pins: { 1: { kind: 'supply-out', volts: '13.2 V', battery: true, maxAmps: '40 A' } },
      },
      { id: 'N', family: 'stud-m8', pins: { 1: { kind: 'return' } } },
    ],
  },
  {
    id: 'radio',
    title: 'Mobile radio',
    connectors: [
      { id: 'J1', family: 'rect-2', half: 'pin', pins: RADIO_PINS },
      {
        id: 'J2',
        family: 'dsub-25',
        half: 'pin',
        pins: Object.fromEntries(
          Array.from({ length: 25 }, (_, i) => [
            i + 1,
            { kind: 'data', standard: 'proprietary', line: `IO${i + 1}` },
          ]),
        ),
      },
    ],
  },
  {
    id: 'panel',
    title: 'Control panel',
    connectors: [
      {
        id: 'J1',
        family: 'dsub-37',
        half: 'pin',
        pins: Object.fromEntries(
          Array.from({ length: 37 }, (_, i) => [
            i + 1,
            { kind: 'data', standard: 'proprietary', line: `IO${i + 1}` },
          ]),
        ),
      },
    ],
  },
]

/** One loom of the shop: a fused feed, a return and a bunch of lines from radio to panel, crossed in a way of its own. */
function loomFile(number) {
  const any = numbers(number * 7919 + 1)
  const id = `loom-${pad(number)}`
  const lines = 8 + any(14)
  const metres = (least) => `${(least + any(40) / 10).toFixed(1)} m`
  const pins = Array.from({ length: 37 }, (_, i) => i + 1)
  for (let i = pins.length - 1; i > 0; i--) {
    const j = any(i + 1)
    ;[pins[i], pins[j]] = [pins[j], pins[i]]
  }
  const harness = {
    id,
    title: `Vehicle ${number}`,
    document: `HT-${pad(number)}`,
    revision: 'A',
    connectors: [
      { id: 'R1', family: 'ring-m8', fits: 'battery.P', contact: 'ring-yellow', label: 'FEED' },
      { id: 'R2', family: 'ring-m8', fits: 'battery.N', contact: 'ring-yellow', label: 'RETURN' },
      { id: 'P1', family: 'rect-2', half: 'socket', fits: 'radio.J1', label: 'RADIO DC' },
      {
        id: 'P2',
        family: 'dsub-25',
        half: 'socket',
        fits: 'radio.J2',
        contact: 'dsub-crimp-20',
        label: 'RADIO IO',
      },
      {
        id: 'P3',
        family: 'dsub-37',
        half: 'socket',
        fits: 'panel.J1',
        contact: 'dsub-crimp-20',
        label: 'PANEL',
      },
    ],
    components: [{ id: 'F1', kind: 'fuse', title: 'Radio', rating: '10 A' }],
    wires: [
      { id: 'A01', from: 'R1.1', to: 'F1.in', size: '1.5 mm²', colour: 'RD', length: '0.2 m' },
      { id: 'A02', from: 'F1.out', to: 'P1.1', size: '1.5 mm²', colour: 'RD', length: metres(1) },
      { id: 'A03', from: 'P1.2', to: 'R2.1', size: '1.5 mm²', colour: 'BK', length: metres(1) },
      ...Array.from({ length: lines }, (_, i) => ({
        id: `C${pad(i + 1, 2)}`,
        from: `P2.${i + 1}`,
        to: `P3.${pins[i]}`,
        size: SIZES[any(SIZES.length)],
        colour: COLOURS[any(COLOURS.length)],
        length: metres(2),
      })),
    ],
  }
  const installation = {
    id: `vehicle-${pad(number)}`,
    title: `Vehicle ${number}`,
    setting: 'vehicle',
    units: [
      { id: 'battery', of: 'battery', zone: 'engine-bay' },
      { id: 'radio', of: 'radio', zone: 'boot' },
      { id: 'panel', of: 'panel', zone: 'dash' },
    ],
    looms: [{ id: 'main', of: id }],
  }
  return { loomwright: 1, harnesses: [harness], installations: [installation] }
}

/**
 * The files of a shop with one harness and its vehicle a file, by name.
 * @param {number} looms
 * @returns {Map<string, string>}
 */
export function shopFiles(looms) {
  const files = new Map([
    ['equipment.json', JSON.stringify({ loomwright: 1, equipment: EQUIPMENT }, null, 1)],
  ])
  for (let n = 1; n <= looms; n++) files.set(`loom-${pad(n)}.json`, JSON.stringify(loomFile(n), null, 1))
  return files
}
