import type { Range } from './quantity.ts'

/** `from` is the smallest value the step is used for, its factor unless said. */
type Step = { readonly symbol: string; readonly factor: number; readonly from?: number }

const UNKNOWN = 'unknown'

/** Writes a number with `figures` significant figures and no exponent; trailing zeros after the point are dropped. */
export function significant(value: number, figures = 3): string {
  if (value === 0) return '0'
  const digits = Number(value.toPrecision(figures))
  const decimals = Math.min(20, Math.max(0, figures - 1 - Math.floor(Math.log10(Math.abs(digits)))))
  const fixed = digits.toFixed(decimals)
  return fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed
}

function formatSteps(value: number, steps: readonly Step[], base: string): string {
  if (Number.isNaN(value)) return UNKNOWN
  if (!Number.isFinite(value)) return `${value < 0 ? '-' : ''}∞ ${base}`
  if (value === 0) return `0 ${base}`
  const rounded = Math.abs(Number(value.toPrecision(3)))
  // Rounding comes before the choice of prefix, or 999.9 mΩ would read “1000 mΩ”. The last step takes whatever is smaller.
  const step =
    steps.find((entry) => rounded >= (entry.from ?? entry.factor) * (1 - 1e-12)) ?? steps[steps.length - 1]
  return step ? `${significant(value / step.factor)} ${step.symbol}` : UNKNOWN
}

const steps = (base: string, prefixes: string): Step[] => {
  const factors: Record<string, number> = {
    G: 1e9,
    M: 1e6,
    k: 1e3,
    _: 1,
    m: 1e-3,
    µ: 1e-6,
    n: 1e-9,
    p: 1e-12,
  }
  return [...prefixes].map((prefix) => ({
    symbol: prefix === '_' ? base : prefix + base,
    factor: factors[prefix] ?? 1,
  }))
}
const OHMS = steps('Ω', 'Mk_mµ')
const AMPS = steps('A', '_mµ')
const SMALL_VOLTS = steps('V', 'mµ')
const WATTS = steps('W', 'k_mµ')
const HERTZ = steps('Hz', 'GMk_')
const FARADS = steps('F', 'mµnp')
const HENRIES = steps('H', '_mµn')
const BITS = steps('bit/s', 'GMk_')
const SECONDS: readonly Step[] = [
  { symbol: 'days', factor: 86400, from: 172800 },
  { symbol: 'h', factor: 3600, from: 7200 },
  { symbol: 'min', factor: 60, from: 120 },
  { symbol: 's', factor: 1 },
  { symbol: 'ms', factor: 1e-3 },
]

/** `74 mΩ`, `4.7 kΩ`: three significant figures. */
export const formatOhms = (ohms: number): string => formatSteps(ohms, OHMS, 'Ω')
/** `12 A`, `250 mA`: three significant figures. */
export const formatAmps = (amps: number): string => formatSteps(amps, AMPS, 'A')
/** `25 W`, `150 mW`: three significant figures. */
export const formatWatts = (watts: number): string => formatSteps(watts, WATTS, 'W')
/** `155 MHz`; three significant figures, so not for channel frequencies: see {@link formatChannel}. */
export const formatHertz = (hertz: number): string => formatSteps(hertz, HERTZ, 'Hz')
/** `100 nF`. */
export const formatFarads = (farads: number): string => formatSteps(farads, FARADS, 'F')
/** `1.5 µH`. */
export const formatHenries = (henries: number): string => formatSteps(henries, HENRIES, 'H')
/** `250 kbit/s`. */
export const formatBitRate = (bitsPerSecond: number): string => formatSteps(bitsPerSecond, BITS, 'bit/s')
/** `30 s`, `15 min`, `36 h`, `21 days`. */
export const formatSeconds = (seconds: number): string => formatSteps(seconds, SECONDS, 's')
/** `70 Ah`. */
export const formatAmpHours = (ampHours: number): string => withUnit(ampHours, 'Ah')
/** `89 N`. */
export const formatNewtons = (newtons: number): string => withUnit(newtons, 'N')
/** `1.5 mm²`. */
export const formatArea = (areaMm2: number): string => withUnit(areaMm2, 'mm²')
/** `20 °C`. */
export const formatCelsius = (celsius: number): string => withUnit(celsius, '°C')
/** `90 deg`. */
export const formatDegrees = (degrees: number): string => withUnit(degrees, 'deg')
/** `250 g`, `1.2 kg`. */
export const formatGrams = (grams: number): string =>
  Math.abs(grams) >= 1000 ? withUnit(grams / 1000, 'kg') : withUnit(grams, 'g')
/** A share of 1 as `3 %`. */
export const formatPercent = (share: number): string => withUnit(share * 100, '%')
/** A channel frequency in MHz to the hertz where needed: `154.95 MHz`, `462.5625 MHz`. */
export const formatChannel = (hertz: number): string => `${trimZeros((hertz / 1e6).toFixed(6))} MHz`

function withUnit(value: number, unit: string): string {
  if (Number.isNaN(value)) return UNKNOWN
  if (!Number.isFinite(value)) return `${value < 0 ? '-' : ''}∞ ${unit}`
  return `${significant(value)} ${unit}`
}

const trimZeros = (fixed: string): string => (fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed)

/** `13.80 V`, `1.30 V`, `0.50 V`; from 100 V in whole volts; below 0.1 V as `74 mV` or `50 µV`. */
export function formatVolts(volts: number): string {
  if (Number.isNaN(volts)) return UNKNOWN
  if (!Number.isFinite(volts)) return `${volts < 0 ? '-' : ''}∞ V`
  const size = Math.abs(volts)
  if (size === 0) return '0 V'
  if (size >= 1000) return `${significant(volts / 1000)} kV`
  if (size >= 99.995) return `${significant(volts)} V`
  return size >= 0.09995 ? `${volts.toFixed(2)} V` : formatSteps(volts, SMALL_VOLTS, 'V')
}

/**
 * `350 mm`, `5.6 m`, `1.234 m`: millimetres below one metre, metres to the millimetre above.
 * Lengths are cut by these figures, so they are not cut to three significant figures.
 */
export function formatLength(lengthMm: number): string {
  if (Number.isNaN(lengthMm)) return UNKNOWN
  if (!Number.isFinite(lengthMm)) return `${lengthMm < 0 ? '-' : ''}∞ m`
  if (Math.abs(lengthMm) >= 999.95) return `${trimZeros((lengthMm / 1000).toFixed(3))} m`
  return `${trimZeros(lengthMm.toFixed(Math.abs(lengthMm) < 1 ? 3 : 1))} mm`
}

/** `5 ft 3 in`, `9.5 in`: to a tenth of an inch, for shops that measure so. */
export function formatLengthInFeet(lengthMm: number): string {
  if (!Number.isFinite(lengthMm)) return UNKNOWN
  const inches = Math.round((lengthMm / 25.4) * 10) / 10
  const feet = Math.floor(inches / 12)
  const rest = trimZeros((inches - 12 * feet).toFixed(1))
  if (feet === 0) return `${rest} in`
  return rest === '0' ? `${feet} ft` : `${feet} ft ${rest} in`
}

/** `36 h` below two days, `4.2 days`, `21 days`; more than ten years is said as such, since no battery waits that long. */
export function formatDays(days: number): string {
  if (Number.isNaN(days)) return UNKNOWN
  if (days > 3652) return 'more than 10 years'
  if (days < 2) return `${significant(days * 24, 2)} h`
  return `${days < 10 ? trimZeros(days.toFixed(1)) : days.toFixed(0)} days`
}

/** `-0.83 dB`, `13.98 dB`: two decimals, and never minus zero. */
export const formatDecibels = (decibels: number): string => `${twoDecimals(decibels)} dB`
/** `-107 dBm`, `36.99 dBm`. */
export const formatDbm = (dbm: number): string => `${trimZeros(twoDecimals(dbm))} dBm`
/** `+4 dBu`, `-7.78 dBu`: the sign is always written, as the trade does. */
export function formatDbu(dbu: number): string {
  const text = trimZeros(twoDecimals(dbu))
  return `${text.startsWith('-') || text === '0' || text === UNKNOWN ? '' : '+'}${text} dBu`
}

function twoDecimals(value: number): string {
  if (Number.isNaN(value)) return UNKNOWN
  if (!Number.isFinite(value)) return value < 0 ? '-∞' : '∞'
  const text = value.toFixed(2)
  return text === '-0.00' ? '0.00' : text
}

/** `10.8..15.6 V` style: both ends by the given format, or one when they agree. */
export function formatRange(range: Range, format: (value: number) => string): string {
  const low = format(range.min)
  const high = format(range.max)
  return low === high ? low : `${low} to ${high}`
}

/** How many times, with so many decimals; a ratio to nothing has no figure, and one so large needs none. */
export const formatTimes = (ratio: number, decimals: number): string =>
  ratio < 1e6 ? ratio.toFixed(decimals) : 'more than a million'
