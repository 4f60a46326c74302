import { type Complex, magnitude } from './complex.ts'

/** Watts taken by an impedance at a voltage (rms) across it: `V² · R / |Z|²`. */
export function wattsAcross(volts: number, load: Complex): number {
  const size = magnitude(load)
  return size === 0 ? Number.NaN : (volts / size) ** 2 * load.re
}

/** Share of the power each of several loads in series takes: its resistance over their sum. The shares add up to 1. */
export function seriesShares(loads: readonly Complex[]): number[] {
  const total = loads.reduce((sum, load) => sum + load.re, 0)
  return loads.map((load) => load.re / total)
}

/** Share of the power each of several loads in parallel takes: its conductance over their sum. The shares add up to 1. */
export function parallelShares(loads: readonly Complex[]): number[] {
  const conductance = loads.map((load) => wattsAcross(1, load))
  const total = conductance.reduce((sum, value) => sum + value, 0)
  return conductance.map((value) => value / total)
}

/** Watts that an amplifier gives, and how they part between loudspeaker and line, for a voltage (rms) at its terminals. */
export function speakerLineWatts(volts: number, loadOhms: number, loopOhms: number) {
  const amps = volts / (loadOhms + loopOhms)
  return { amplifier: volts * amps, load: amps ** 2 * loadOhms, line: amps ** 2 * loopOhms }
}
