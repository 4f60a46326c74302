/** One way to write a dimension: `value = number * factor + offset`, the value being in the dimension's base unit. */
export type Unit = { readonly factor: number; readonly offset?: number }

/** A kind of quantity with the units it may be written in. The first unit listed is the one suggested. */
export type DimensionFacts = {
  /** As a message names it: “a length”. */
  readonly words: string
  /** A value to copy, shown whenever one is refused. */
  readonly example: string
  /** The smallest sensible value in the base unit. */
  readonly least: number
  readonly units: Readonly<Record<string, Unit>>
}

const INCH_MM = 25.4
const ANY = Number.NEGATIVE_INFINITY
const ABSOLUTE_ZERO_C = -273.15
/** 0 dBu is the voltage of 1 mW in 600 Ω, sqrt(0.6) V; 0 dBV is 1 V (IEC 60268-3). */
const DBV_IN_DBU = -10 * Math.log10(0.6)

/** The base unit of each dimension is the one with factor 1: mm, A, V, Ω, W, Ah, s, Hz, °C, dBu, dB, dBm, mm², deg … */
export const DIMENSIONS = {
  length: {
    words: 'a length',
    example: '350 mm',
    least: 0,
    units: {
      mm: { factor: 1 },
      cm: { factor: 10 },
      m: { factor: 1000 },
      ft: { factor: 12 * INCH_MM },
      in: { factor: INCH_MM },
      "'": { factor: 12 * INCH_MM },
      '"': { factor: INCH_MM },
    },
  },
  current: {
    words: 'a current',
    example: '2.5 A',
    least: ANY,
    units: { A: { factor: 1 }, mA: { factor: 1e-3 }, µA: { factor: 1e-6 }, uA: { factor: 1e-6 } },
  },
  voltage: {
    words: 'a voltage',
    example: '13.8 V',
    least: ANY,
    units: {
      V: { factor: 1 },
      mV: { factor: 1e-3 },
      µV: { factor: 1e-6 },
      uV: { factor: 1e-6 },
      kV: { factor: 1e3 },
    },
  },
  resistance: {
    words: 'a resistance',
    example: '120 Ω',
    least: 0,
    units: {
      Ω: { factor: 1 },
      ohm: { factor: 1 },
      ohms: { factor: 1 },
      mΩ: { factor: 1e-3 },
      mohm: { factor: 1e-3 },
      kΩ: { factor: 1e3 },
      kohm: { factor: 1e3 },
      MΩ: { factor: 1e6 },
      Mohm: { factor: 1e6 },
    },
  },
  power: {
    words: 'a power',
    example: '25 W',
    least: 0,
    units: {
      W: { factor: 1 },
      mW: { factor: 1e-3 },
      µW: { factor: 1e-6 },
      uW: { factor: 1e-6 },
      kW: { factor: 1e3 },
    },
  },
  capacity: {
    words: 'a battery capacity',
    example: '70 Ah',
    least: 0,
    units: { Ah: { factor: 1 }, mAh: { factor: 1e-3 } },
  },
  time: {
    words: 'a time',
    example: '30 s',
    least: 0,
    units: {
      s: { factor: 1 },
      ms: { factor: 1e-3 },
      min: { factor: 60 },
      h: { factor: 3600 },
      days: { factor: 86400 },
      day: { factor: 86400 },
    },
  },
  frequency: {
    words: 'a frequency',
    example: '155 MHz',
    least: 0,
    units: { Hz: { factor: 1 }, kHz: { factor: 1e3 }, MHz: { factor: 1e6 }, GHz: { factor: 1e9 } },
  },
  temperature: {
    words: 'a temperature',
    example: '20 °C',
    least: ABSOLUTE_ZERO_C,
    units: {
      '°C': { factor: 1 },
      C: { factor: 1 },
      degC: { factor: 1 },
      '°F': { factor: 5 / 9, offset: -160 / 9 },
    },
  },
  level: {
    words: 'an audio level',
    example: '+4 dBu',
    least: ANY,
    units: { dBu: { factor: 1 }, dBV: { factor: 1, offset: DBV_IN_DBU } },
  },
  decibels: {
    words: 'a ratio in decibels',
    example: '6 dB',
    least: ANY,
    units: { dB: { factor: 1 } },
  },
  radioLevel: {
    words: 'a radio level',
    example: '-107 dBm',
    least: ANY,
    units: { dBm: { factor: 1 }, dBW: { factor: 1, offset: 30 } },
  },
  area: {
    words: 'an area',
    example: '1.5 mm²',
    least: 0,
    units: { 'mm²': { factor: 1 }, mm2: { factor: 1 }, 'cm²': { factor: 100 }, cm2: { factor: 100 } },
  },
  angle: {
    words: 'an angle',
    example: '90 deg',
    least: ANY,
    units: { deg: { factor: 1 }, '°': { factor: 1 } },
  },
  torque: {
    words: 'a torque',
    example: '0.5 N·m',
    least: 0,
    units: { N·m: { factor: 1 }, Nm: { factor: 1 }, lbf·in: { factor: 0.1129848 } },
  },
  force: {
    words: 'a force',
    example: '89 N',
    least: 0,
    units: { N: { factor: 1 }, lbf: { factor: 4.4482216 } },
  },
  capacitance: {
    words: 'a capacitance',
    example: '100 nF',
    least: 0,
    units: {
      F: { factor: 1 },
      mF: { factor: 1e-3 },
      µF: { factor: 1e-6 },
      uF: { factor: 1e-6 },
      nF: { factor: 1e-9 },
      pF: { factor: 1e-12 },
    },
  },
  inductance: {
    words: 'an inductance',
    example: '10 mH',
    least: 0,
    units: {
      H: { factor: 1 },
      mH: { factor: 1e-3 },
      µH: { factor: 1e-6 },
      uH: { factor: 1e-6 },
      nH: { factor: 1e-9 },
    },
  },
  mass: {
    words: 'a mass',
    example: '250 g',
    least: 0,
    units: { g: { factor: 1 }, kg: { factor: 1000 }, oz: { factor: 28.349523 }, lb: { factor: 453.59237 } },
  },
  bitRate: {
    words: 'a bit rate',
    example: '250 kbit/s',
    least: 0,
    units: {
      'bit/s': { factor: 1 },
      'kbit/s': { factor: 1e3 },
      'Mbit/s': { factor: 1e6 },
      'Gbit/s': { factor: 1e9 },
    },
  },
  resistancePerLength: {
    words: 'a resistance per length',
    example: '13.3 Ω/km',
    least: 0,
    units: {
      'Ω/m': { factor: 1 },
      'ohm/m': { factor: 1 },
      'Ω/km': { factor: 1e-3 },
      'ohm/km': { factor: 1e-3 },
      'mΩ/m': { factor: 1e-3 },
      'Ω/kft': { factor: 1 / 304.8 },
    },
  },
  capacitancePerLength: {
    words: 'a capacitance per length',
    example: '100 pF/m',
    least: 0,
    units: {
      'F/m': { factor: 1 },
      'pF/m': { factor: 1e-12 },
      'nF/km': { factor: 1e-12 },
      'pF/ft': { factor: 1e-12 / 0.3048 },
    },
  },
  share: {
    words: 'a share in per cent',
    example: '50 %',
    least: 0,
    units: { '%': { factor: 0.01 }, ppm: { factor: 1e-6 } },
  },
  ratio: {
    words: 'a ratio to one',
    example: '1.5:1',
    least: 0,
    units: { ':1': { factor: 1 } },
  },
} as const satisfies Record<string, DimensionFacts>

export type Dimension = keyof typeof DIMENSIONS

/** The unit symbols of a dimension, as literal types. */
export type UnitOf<D extends Dimension> = keyof (typeof DIMENSIONS)[D]['units'] & string

/** How a quantity is written in a description, so that a missing or wrong unit is a compile-time error. */
export type QuantityText<D extends Dimension> = `${number} ${UnitOf<D>}` | `${number}${UnitOf<D>}`

/** A range of a quantity as written: `10.8..15.6 V`, `10.8 to 15.6 V`, or one value. */
export type RangeText<D extends Dimension> =
  | QuantityText<D>
  | `${number}..${number} ${UnitOf<D>}`
  | `${number} ${UnitOf<D>}..${number} ${UnitOf<D>}`
  | `${number} to ${number} ${UnitOf<D>}`

/** The facts of a dimension under its general type. */
export const dimensionFacts = (dimension: Dimension): DimensionFacts => DIMENSIONS[dimension]
