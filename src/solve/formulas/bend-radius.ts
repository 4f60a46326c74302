export type BendKind =
  | 'single wire'
  | 'multicore'
  | 'coax'
  | 'coax flexed'
  | 'shielded'
  | 'modular data'
  | 'bundle'

export type BendRadius = {
  readonly minimumMm: number
  /** What to aim for where there is room. */
  readonly preferredMm: number
  readonly source: string
}

type Rule = { readonly minimum: number; readonly preferred: number; readonly source: string }

const NASA = 'NASA-STD-8739.4 paragraph 7.3'
const WHMA = 'IPC/WHMA-A-620 table 14-1 (from memory)'
const RULES: Readonly<Record<BendKind, Rule>> = {
  'single wire': { minimum: 3, preferred: 10, source: WHMA },
  multicore: { minimum: 6, preferred: 10, source: NASA },
  coax: { minimum: 6, preferred: 10, source: NASA },
  'coax flexed': { minimum: 10, preferred: 10, source: WHMA },
  shielded: { minimum: 6, preferred: 10, source: NASA },
  'modular data': { minimum: 4, preferred: 10, source: WHMA },
  bundle: { minimum: 6, preferred: 10, source: NASA },
}

/**
 * Smallest inside bend radius in mm: a multiple of the outside diameter. A bundle takes the rule of its stiffest member over its
 * own diameter (NASA-STD-8739.4). A cable's own data sheet goes before these multiples.
 */
export function bendRadius(kind: BendKind, outsideDiameterMm: number): BendRadius {
  const rule = RULES[kind]
  return {
    minimumMm: rule.minimum * outsideDiameterMm,
    preferredMm: rule.preferred * outsideDiameterMm,
    source: `${rule.minimum} × outside diameter, ${rule.source}`,
  }
}
