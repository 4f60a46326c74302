import { tradeSizes, type WireGauge } from '../../base/wire-size.ts'
import type { Conductor } from '../../resolve/loom.ts'
import { conductorOhmsPerMetre } from '../../solve/formulas/conductor-resistance.ts'
import { ohmsPerMetre } from '../../solve/link-ohms.ts'
import type { Loss } from './supply-runs.ts'

/** Thicker wire that brings a drop within its limit. */
export interface Cure {
  readonly size: WireGauge
  /** Conductors that get it, worst first. */
  readonly conductors: readonly Conductor[]
  /** Volts saved, the currents staying as they are. */
  readonly savedVolts: number
}

/** The conductor that loses most and can be made thicker. */
export const worstLoss = (losses: readonly Loss[]): Loss | undefined =>
  losses.find(({ conductor, volts }) => conductor.kind !== 'shield' && conductor.size && volts > 0)

/**
 * The smallest stock size that saves as much: in the worst conductor if that is enough, else in every thinner one of the run.
 * Cores of one cable change together. A leg thinner than the other is brought up to that at least.
 * @param needVolts how much has to be saved
 * @param floorMm2 smallest area to offer
 */
export function dropCure(
  losses: readonly Loss[],
  needVolts: number,
  celsius: number,
  floorMm2 = 0,
): Cure | undefined {
  const worst = worstLoss(losses)?.conductor
  const area = worst?.size?.areaMm2
  if (!worst || area === undefined) return undefined
  const before = new Map(losses.map((loss) => [loss, ohmsPerMetre(loss.conductor, celsius) ?? 0]))
  const series = worst.size?.awg === undefined ? 'metric' : 'awg'
  for (const size of tradeSizes(series)) {
    if (size.areaMm2 <= area * 1.001 || size.areaMm2 < floorMm2 * 0.999) continue
    const ohms = new Map(
      (['plain', 'tinned'] as const).map((finish) => [finish, conductorOhmsPerMetre(size, celsius, finish)]),
    )
    const savedBy = (loss: Loss): number => {
      const now = before.get(loss) ?? 0
      return now === 0 ? 0 : loss.volts * (1 - (ohms.get(finishOf(loss)) ?? now) / now)
    }
    const thinner = losses.filter(({ conductor }) => isThinner(conductor, size))
    const alone = thinner.filter(
      ({ conductor }) =>
        conductor === worst || (worst.cable !== undefined && conductor.cable === worst.cable),
    )
    for (const chosen of [alone, thinner]) {
      const savedVolts = chosen.reduce((sum, loss) => sum + savedBy(loss), 0)
      if (savedVolts >= needVolts - 1e-9)
        return { size, savedVolts, conductors: chosen.map(({ conductor }) => conductor) }
    }
  }
  return undefined
}

const isThinner = (conductor: Conductor, size: WireGauge): boolean =>
  conductor.kind !== 'shield' && conductor.size !== undefined && conductor.size.areaMm2 < size.areaMm2 * 0.999

const finishOf = ({ conductor }: Loss): 'plain' | 'tinned' =>
  (conductor.cable?.part ?? conductor.wirePart)?.tinned ? 'tinned' : 'plain'
