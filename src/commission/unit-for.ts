import type { Measure } from './measures.ts'

/** Units a meter shows, the largest first; micro and mega spellings for keyboards are left out. */
const USUAL: readonly string[] = ['MΩ', 'kΩ', 'Ω', 'mΩ', 'A', 'mA', 'V', 'mV', 'W', 'mW', 'MHz', 'kHz', 'Hz']

/** The unit in which a value has a digit before the point and not too many: `74 mΩ`, `1.2 A`, `405 Hz`. */
export function unitFor({ units }: Measure, value: number): string {
  const known = USUAL.filter((unit) => Object.hasOwn(units, unit))
  const fits = known.find((unit) => Math.abs(value) >= (units[unit]?.factor ?? 1) * (1 - 1e-9))
  return fits ?? known.at(-1) ?? Object.keys(units)[0] ?? ''
}
