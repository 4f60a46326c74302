/** A hall of lamps with so many wires, in harnesses of at most 3,000. */
export function hall(wires: number): unknown
/** The files of a shop with so many harnesses and vehicles, by name. */
export function shopFiles(looms: number): Map<string, string>
