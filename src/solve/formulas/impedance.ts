import { add, type Complex, complex, reciprocal } from './complex.ts'

/** Impedance in Ω of parts in series: their sum. */
export function seriesImpedance(parts: readonly Complex[]): Complex {
  return parts.reduce(add, complex(0))
}

/** Impedance in Ω of parts in parallel: `1 / Σ(1/Z)`. None at all is an open circuit, and a short shorts the rest. */
export function parallelImpedance(parts: readonly Complex[]): Complex {
  if (parts.some((part) => part.re === 0 && part.im === 0)) return complex(0)
  return reciprocal(parts.map(reciprocal).reduce(add, complex(0)))
}

/** Resistance in Ω of resistances in parallel. */
export function parallelOhms(ohms: readonly number[]): number {
  return parallelImpedance(ohms.map((value) => complex(value))).re
}

/** Impedance in Ω of a resistance, an inductance and a capacitance in series: `R + jωL - j/(ωC)`. */
export function seriesRlc(
  ohms: number,
  hertz: number,
  henries = 0,
  farads = Number.POSITIVE_INFINITY,
): Complex {
  const omega = 2 * Math.PI * hertz
  return complex(ohms, omega * henries - (farads === Number.POSITIVE_INFINITY ? 0 : 1 / (omega * farads)))
}
