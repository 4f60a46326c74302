/** What a change of impedance does to a line. */
export type Reflection = {
  /** Magnitude of the reflection coefficient, 0 to 1. */
  readonly coefficient: number
  readonly returnLossDb: number
  /** Voltage standing wave ratio, 1 or more. */
  readonly vswr: number
  /** Power lost because it goes back, dB. */
  readonly mismatchLossDb: number
}

/** All figures of a reflection from its coefficient Γ: `RL = -20 log Γ`, `VSWR = (1+Γ)/(1-Γ)`, `ML = -10 log(1-Γ²)`. */
export function reflectionFromCoefficient(coefficient: number): Reflection {
  return {
    coefficient,
    returnLossDb: coefficient === 0 ? Number.POSITIVE_INFINITY : -20 * Math.log10(coefficient),
    vswr: (1 + coefficient) / (1 - coefficient),
    mismatchLossDb: coefficient === 0 ? 0 : -10 * Math.log10(1 - coefficient ** 2),
  }
}

/** Reflection where a line of `lineOhms` meets `loadOhms`, both real: `Γ = |ZL - Z0| / (ZL + Z0)`. */
export function reflection(lineOhms: number, loadOhms: number): Reflection {
  return reflectionFromCoefficient(Math.abs(loadOhms - lineOhms) / (loadOhms + lineOhms))
}

/** Reflection from a standing wave ratio: `Γ = (VSWR - 1) / (VSWR + 1)`. */
export function reflectionFromVswr(vswr: number): Reflection {
  return reflectionFromCoefficient((vswr - 1) / (vswr + 1))
}

/** Reflection from a wattmeter in the line: `Γ = sqrt(Pr / Pf)`. */
export function reflectionFromPower(forwardWatts: number, reflectedWatts: number): Reflection {
  return reflectionFromCoefficient(Math.sqrt(reflectedWatts / forwardWatts))
}
