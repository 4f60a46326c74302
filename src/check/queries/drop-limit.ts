import type { Settings } from '../../resolve/loom.ts'

/** From here up the limits in volts for 12 V systems are doubled, as FAA AC 43.13-1B table 11-6 does. */
const DOUBLE_FROM_VOLTS = 20

/** Volts that may be lost there and back on land, by the shop's policy or else by FAA AC 43.13-1B table 11-6. */
export function dropLimitVolts(settings: Settings, nominalVolts: number, brief: boolean): number {
  const own = brief ? settings.stated.drop?.brief : settings.stated.drop?.continuous
  const usual = brief ? settings.dropBriefVolts : settings.dropContinuousVolts
  return own ?? usual * (nominalVolts > DOUBLE_FROM_VOLTS ? 2 : 1)
}
