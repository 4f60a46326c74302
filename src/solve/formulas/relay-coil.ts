import { copperAtTemperature } from './copper-at-temperature.ts'

/**
 * Coil current in A: `V / R`, the copper of the coil being at `celsius`. A cold coil draws the most and is what a switching
 * output must bear.
 */
export function coilAmps(volts: number, ohms20: number, celsius = 20): number {
  return volts / copperAtTemperature(ohms20, celsius)
}

/** Energy in J stored in a coil and freed when it is switched off: `L · I² / 2`. */
export function coilJoules(henries: number, amps: number): number {
  return (henries * amps ** 2) / 2
}

/** What a suppression diode must stand: the coil current, and twice the supply in reverse (common practice, from memory). */
export function suppressionDiode(
  volts: number,
  amps: number,
): { readonly forwardAmps: number; readonly reverseVolts: number } {
  return { forwardAmps: amps, reverseVolts: 2 * volts }
}
