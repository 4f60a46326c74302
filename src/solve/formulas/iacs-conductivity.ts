/** Conductivity as a percentage of the International Annealed Copper Standard: `172.41 / ρ` with ρ in µΩ·cm (IEC 60028). */
export function iacsPercent(microOhmCm: number): number {
  return 172.41 / microOhmCm
}

/** Resistivity in Ω·mm²/m of a metal of that many per cent IACS. */
export function resistivityFromIacs(percent: number): number {
  return 100 / (58 * percent)
}
