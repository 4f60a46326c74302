const MU_0 = 4e-7 * Math.PI

/** Voltage induced in a loop: `2π · f · B · A`, B in T, loop area in mm². */
export function loopVolts(hertz: number, tesla: number, loopAreaMm2: number): number {
  return 2 * Math.PI * hertz * tesla * loopAreaMm2 * 1e-6
}

/** Flux density in T beside a long straight wire: `μ0 · I / (2π · r)`. */
export function fieldBesideWire(amps: number, distanceMm: number): number {
  return (MU_0 * amps) / (2 * Math.PI * (distanceMm / 1000))
}

/** Mutual inductance in H of a long wire and a loop lying in its plane: `μ0 · l / 2π · ln((r + w) / r)`. */
export function wireToLoopHenries(lengthMm: number, distanceMm: number, widthMm: number): number {
  return ((MU_0 * (lengthMm / 1000)) / (2 * Math.PI)) * Math.log((distanceMm + widthMm) / distanceMm)
}

/** Inductance in H of a straight round wire: `2 · l · (ln(4l/d) - 0.75)` nH, l and d in cm (Rosa, Grover). */
export function straightWireHenries(lengthMm: number, diameterMm: number): number {
  return 2e-9 * (lengthMm / 10) * (Math.log((4 * lengthMm) / diameterMm) - 0.75)
}

/** Depth in mm at which current in copper has fallen to 1/e: `66.1 / sqrt(f)` (from memory). */
export function copperSkinDepthMm(hertz: number): number {
  return 66.1 / Math.sqrt(hertz)
}
