/**
 * What is left of a current rating when the air is hotter than the table supposes:
 * `sqrt((Tinsulation - Tair) / (Tinsulation - Ttable))`, from heat given off in proportion to the rise.
 * Source: NFPA 70 310.15(B) and Canadian Electrical Code table 5A, whose 35 factors it reproduces to two places.
 * @returns 0 when the air is as hot as the insulation may be; may exceed 1 in cooler air (callers decide whether to use it)
 */
export function ampacityTemperatureFactor(insulationC: number, airC: number, tableAirC = 30): number {
  if (!(insulationC > tableAirC)) return Number.NaN
  return Math.sqrt(Math.max(0, insulationC - airC) / (insulationC - tableAirC))
}

/**
 * The factor for an engine space (50 °C) printed in note 1 of 33 CFR 183.425 table 5, by insulation rating in °C.
 * For 200 °C the calculated 0.94 is used: the printed figure was not at hand and this is the safer of the two.
 */
export function engineSpaceFactor(insulationC: number): number {
  const printed: Readonly<Record<number, number>> = {
    60: 0.58,
    75: 0.75,
    80: 0.78,
    90: 0.82,
    105: 0.85,
    125: 0.89,
  }
  return printed[insulationC] ?? ampacityTemperatureFactor(insulationC, 50)
}
