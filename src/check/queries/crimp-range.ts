import type { ContactPart } from '../../describe/part.ts'

/** Gauges and metric sizes of one trade name differ by this much: 20 AWG is 0.519 mm² and goes into a 0.5 mm² contact. */
const TRADE_SLACK = 0.05

/** Whether the wire barrel of a contact takes a conductor of this area. */
export const takesArea = ({ area }: ContactPart, areaMm2: number): boolean =>
  areaMm2 >= area.min * (1 - TRADE_SLACK) && areaMm2 <= area.max * (1 + TRADE_SLACK)

/** Whether the insulation grip of a contact takes this diameter; a contact that states no range has no grip to suit. */
export const takesInsulation = ({ insulation }: ContactPart, odMm: number): boolean =>
  insulation === undefined || (odMm >= insulation.min - 1e-9 && odMm <= insulation.max + 1e-9)
