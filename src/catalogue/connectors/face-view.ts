import type { FaceGeometry } from '../../describe/part.ts'

export type Half = 'pin' | 'socket'
/** From the front, where the other half goes in; or from the back, where the wires go in. */
export type FaceSide = 'mating' | 'wire-entry'

/**
 * The face as it is seen on one half from one side, millimetres with x to the right and y up.
 * The two halves mirror each other, and so do the two sides of one half; two mirrorings cancel.
 */
export function faceSeen(face: FaceGeometry, half: Half, side: FaceSide): FaceGeometry {
  const mirrored = (half !== face.of) !== (side === 'wire-entry')
  return mirrored ? { ...mirrorFace(face), of: half } : { ...face, of: half }
}

/** The face turned over left to right. */
export function mirrorFace(face: FaceGeometry): FaceGeometry {
  const pins = Object.fromEntries(
    Object.entries(face.pins).map(([name, pin]) => [name, { ...pin, xMm: flip(pin.xMm) }]),
  )
  const marks = face.marks?.map((mark) => ({ ...mark, xMm: flip(mark.xMm) }))
  const outline =
    face.outline.shape === 'polygon'
      ? {
          ...face.outline,
          points: face.outline.points.map(([xMm, yMm]): [number, number] => [flip(xMm), yMm]),
        }
      : face.outline
  return { ...face, outline, pins, ...(marks ? { marks } : {}) }
}

/** Negated without making -0, which would print as "-0". */
const flip = (xMm: number): number => (xMm === 0 ? 0 : -xMm)

/**
 * Which pin sits where each pin would be if the face were read from the wrong side: dsub-9 gives 1→5, 2→4, 3→3 … 6→9.
 * A pin without a counterpart within a quarter of a millimetre is left out, so a partly symmetric face stays honest.
 */
export function mirrorPartners(face: FaceGeometry): ReadonlyMap<string, string> {
  const pins = Object.entries(face.pins)
  const middle = (Math.min(...pins.map(([, p]) => p.xMm)) + Math.max(...pins.map(([, p]) => p.xMm))) / 2
  const partners = new Map<string, string>()
  for (const [name, pin] of pins) {
    const other = pins.find(
      ([, candidate]) =>
        Math.hypot(candidate.xMm - (2 * middle - pin.xMm), candidate.yMm - pin.yMm) < SAME_PLACE_MM,
    )
    if (other) partners.set(name, other[0])
  }
  return partners
}

const SAME_PLACE_MM = 0.25
