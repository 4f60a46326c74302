/** Frequency in Hz at which a cable's capacitance takes 3 dB from a source: `1 / (2π · R · C)`. */
export function cableRolloffHertz(sourceOhms: number, cableFarads: number): number {
  return 1 / (2 * Math.PI * sourceOhms * cableFarads)
}
