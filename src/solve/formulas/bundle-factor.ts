export type BundleRule = 'abyc-e-11' | 'nec-310' | 'mil-std-975'

type Step = { readonly upTo: number; readonly factor: number }

/** ABYC E-11 tables VI-A to VI-D with note 2 of 33 CFR 183.425 table 5; the last step is from memory. */
const ABYC: readonly Step[] = [
  { upTo: 2, factor: 1 },
  { upTo: 3, factor: 0.7 },
  { upTo: 6, factor: 0.6 },
  { upTo: 24, factor: 0.5 },
  { upTo: Number.POSITIVE_INFINITY, factor: 0.4 },
]

/** NFPA 70 310.15(C)(1): counts current-carrying conductors, in bundles longer than 24 in (610 mm). */
const NEC: readonly Step[] = [
  { upTo: 3, factor: 1 },
  { upTo: 6, factor: 0.8 },
  { upTo: 9, factor: 0.7 },
  { upTo: 20, factor: 0.5 },
  { upTo: 30, factor: 0.45 },
  { upTo: 40, factor: 0.4 },
  { upTo: Number.POSITIVE_INFINITY, factor: 0.35 },
]

/**
 * What is left of a single wire's current rating when `wires` current-carrying wires are bundled.
 * Sources: ABYC E-11 tables VI-A to VI-D; NFPA 70 310.15(C)(1); MIL-STD-975 `(29 - N)/28` to 15 wires and one half
 * beyond (from memory). They differ by up to two because each supposes another share of loaded wires: name the one used.
 */
export function bundleFactor(wires: number, rule: BundleRule = 'abyc-e-11'): number {
  if (!(wires >= 1)) return Number.NaN
  if (rule === 'mil-std-975') return wires > 15 ? 0.5 : (29 - wires) / 28
  const steps = rule === 'nec-310' ? NEC : ABYC
  return steps.find((step) => wires <= step.upTo)?.factor ?? Number.NaN
}
