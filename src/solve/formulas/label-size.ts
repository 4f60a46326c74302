/** Smallest text a person reads in a vehicle, in mm of capital height; common practice. */
export const TEXT_MM = 2.5
/** Average advance of a plain sans capital over its height. */
const ADVANCE = 0.75
/** Blank ends of a label, both together. */
const MARGIN_MM = 4
/** A line of text over its capitals, with the gap around it. */
const LINE = 1.2
/** Part of a turn that a wrap overlaps itself so that it holds; common practice. */
const OVERLAP = 0.25

/** Length in mm of a label with so many characters on its longest line, in readable text. */
export const labelLengthMm = (characters: number): number => characters * TEXT_MM * ADVANCE + MARGIN_MM

/** Height in mm of a wrap that goes once round a wire and overlaps itself: `1.25 · π · d`. */
export const wrapHeightMm = (outsideMm: number): number => (1 + OVERLAP) * Math.PI * outsideMm

/** Lines of readable text on one side of a sleeve laid flat: `π · d / 2` wide. */
export const sleeveLines = (sleeveMm: number): number =>
  Math.floor((Math.PI * sleeveMm) / 2 / (TEXT_MM * LINE))
