import type { FacePins } from '../part-kinds.ts'

/** Micrometres are finer than any drawing of a face; rounding keeps sums such as 2.77 × 3.5 printable. */
const toMicron = (mm: number): number => Math.round(mm * 1000) / 1000 || 0

/** One row from left to right, centred on `xMm`, at height `yMm`. */
export function rowOfPins(
  names: readonly string[],
  pitchMm: number,
  yMm: number,
  options: { readonly xMm?: number; readonly dMm?: number } = {},
): FacePins {
  const { xMm = 0, dMm } = options
  const at = (index: number) => toMicron(xMm + (index - (names.length - 1) / 2) * pitchMm)
  return Object.fromEntries(
    names.map((name, index) => [name, { xMm: at(index), yMm: toMicron(yMm), ...(dMm ? { dMm } : {}) }]),
  )
}

/** Pins on a circle; angles in degrees, anticlockwise from the right (3 o'clock), as seen on the face. */
export function circleOfPins(
  angles: Readonly<Record<string, number>>,
  circleMm: number,
  dMm: number,
): FacePins {
  return Object.fromEntries(
    Object.entries(angles).map(([name, degrees]) => {
      const turn = (degrees * Math.PI) / 180
      const xMm = toMicron((circleMm / 2) * Math.cos(turn))
      const yMm = toMicron((circleMm / 2) * Math.sin(turn))
      return [name, { xMm, yMm, dMm }]
    }),
  )
}

/** A single pin in the middle. */
export const pinInTheMiddle = (name: string, dMm: number): FacePins => ({ [name]: { xMm: 0, yMm: 0, dMm } })
