export interface TemperatureClass {
  readonly letter: string
  readonly celsius: number
}

/** Highest continuous conductor temperature over 3000 h by class: ISO 6722-1 table 1 and ISO 19642-1, from memory. */
export const TEMPERATURE_CLASSES: readonly TemperatureClass[] = [
  { letter: 'A', celsius: 85 },
  { letter: 'B', celsius: 100 },
  { letter: 'C', celsius: 125 },
  { letter: 'D', celsius: 150 },
  { letter: 'E', celsius: 175 },
  { letter: 'F', celsius: 200 },
  { letter: 'G', celsius: 225 },
  { letter: 'H', celsius: 250 },
]

/** The lowest class of road-vehicle wire that stands a temperature; undefined above them all. */
export const classFor = (celsius: number): TemperatureClass | undefined =>
  TEMPERATURE_CLASSES.find((each) => each.celsius >= celsius)
