/** Damping factor at the loudspeaker: `Z / (Rsource + Rloop)`. */
export function dampingFactor(loadOhms: number, sourceOhms: number, loopOhms: number): number {
  return loadOhms / (sourceOhms + loopOhms)
}

/** Source resistance in Ω of an amplifier whose own damping factor is stated at `loadOhms`. */
export function sourceOhmsFromDamping(loadOhms: number, amplifierDamping: number): number {
  return loadOhms / amplifierDamping
}

/** Largest loop resistance in Ω that still leaves that damping factor at the loudspeaker. */
export function loopOhmsForDamping(loadOhms: number, amplifierDamping: number, wanted: number): number {
  return loadOhms / wanted - sourceOhmsFromDamping(loadOhms, amplifierDamping)
}
