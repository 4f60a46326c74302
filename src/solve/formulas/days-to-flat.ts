/** Days until a parked vehicle will not start: `usable Ah / (24 · standing A)`. No drain gives Infinity. */
export function daysToFlat(usableAmpHours: number, standingAmps: number): number {
  return standingAmps > 0 ? usableAmpHours / (24 * standingAmps) : Number.POSITIVE_INFINITY
}

/** Total capacity in Ah, roughly, from reserve capacity in minutes at 25 A: `0.6 · RC` (makers' rule of thumb). */
export function ampHoursFromReserveCapacity(minutes: number): number {
  return 0.6 * minutes
}

/** Largest standing drain in A that leaves the vehicle startable after `days`. */
export function standingDrainAllowed(usableAmpHours: number, days: number): number {
  return usableAmpHours / (24 * days)
}
