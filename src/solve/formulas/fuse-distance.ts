const INCH_MM = 25.4

export type FuseDistance = { readonly limitMm: number; readonly source: string }

/**
 * How far along the wire a fuse may sit from the source it guards against.
 * 7 in bare; 40 in when the wire lies in a sheath or enclosure all that way (33 CFR 183.455(b)); 72 in when it is sheathed and
 * fixed straight to a battery terminal (ABYC E-11.10).
 */
export function fuseDistanceLimit(sheathed: boolean, atBatteryTerminal: boolean): FuseDistance {
  if (!sheathed) return { limitMm: 7 * INCH_MM, source: '33 CFR 183.455(b)(1), 7 in' }
  if (!atBatteryTerminal) return { limitMm: 40 * INCH_MM, source: '33 CFR 183.455(b)(2), 40 in in a sheath' }
  return { limitMm: 72 * INCH_MM, source: 'ABYC E-11.10, 72 in in a sheath from a battery terminal' }
}
