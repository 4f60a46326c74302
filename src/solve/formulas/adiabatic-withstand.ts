/** Heating constant of copper in A·√s/mm²: IEC 60364-5-54, from memory. */
const K = { pvc: 115, xlpe: 143 } as const

/**
 * Smallest copper area in mm² whose insulation survives a fault: `S = sqrt(I² · t) / k`.
 * Source: IEC 60364-5-54 with k = 115 for PVC and 143 for cross-linked polyethylene (from memory). Domain: 0.1 to 5 s.
 */
export function adiabaticAreaMm2(faultAmps: number, seconds: number, insulation: keyof typeof K): number {
  return (Math.abs(faultAmps) * Math.sqrt(seconds)) / K[insulation]
}

/** How many seconds a wire bears the fault before its insulation is damaged: `(k · S / I)²`. */
export function adiabaticSeconds(areaMm2: number, faultAmps: number, insulation: keyof typeof K): number {
  return ((K[insulation] * areaMm2) / faultAmps) ** 2
}
