/** Necessary bandwidth in Hz of frequency modulation: Carson, `2M + 2D`, as 47 CFR 2.202(g) has it (from memory). */
export function carsonBandwidthHertz(deviationHertz: number, highestAudioHertz: number): number {
  return 2 * highestAudioHertz + 2 * deviationHertz
}

/** Emission designator of FM telephony, three figures with the unit letter for its point: `11K0F3E` (47 CFR 2.201). */
export function emissionDesignator(bandwidthHertz: number): string {
  const [unit, letter] = bandwidthHertz >= 1e6 ? [1e6, 'M'] : bandwidthHertz >= 1e3 ? [1e3, 'K'] : [1, 'H']
  const figures = (bandwidthHertz / Number(unit)).toPrecision(3)
  const pointed = figures.includes('.') ? figures.replace('.', String(letter)) : figures + letter
  return `${pointed}F3E`
}
