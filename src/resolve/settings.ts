import type { Pointer } from '../base/place.ts'
import type { Installation } from '../describe/installation.ts'
import type { Policy } from '../describe/policy.ts'
import type { Settings, State } from './loom.ts'

/**
 * Shop policy with defaults. Drop limits: FAA AC 43.13-1B table 11-6 (14 V: 0.5 V continuous, 1 V intermittent) and
 * ISO 10133 practice (3 % / 10 % on boats), from memory; allowances of contacts, fuses and holders are common practice.
 */
export function settingsFrom(policy: Policy | undefined, at?: Pointer): Settings {
  const stated = policy ?? {}
  return {
    stated,
    ...(at ? { at } : {}),
    dropContinuousVolts: stated.drop?.continuous ?? 0.5,
    dropBriefVolts: stated.drop?.brief ?? 1,
    dropCriticalShare: stated.drop?.critical ?? 0.03,
    dropOtherShare: stated.drop?.other ?? 0.1,
    contactOhms: stated.allowances?.contact ?? 0.002,
    fuseOhms: stated.allowances?.fuse ?? 0.004,
    holderOhms: stated.allowances?.holder ?? 0.003,
    fuseWithinMm: stated.fuseWithin ?? 450,
    fuseNegative: stated.fuseNegative ?? 'forbid',
    fuseMargin: stated.fuseMargin ?? 1,
    shields: stated.shields ?? 'one-end',
    lineLossDb: stated.audio?.lineLossDb ?? 1,
    lateFuse: stated.lateFuse ?? 'accept',
    ampacityTable: stated.ampacity ?? '33-cfr-183',
    batteryNegative: stated.batteryNegative ?? 'body-side',
    starWashers: stated.starWashers ?? 'forbid',
    splices: stated.splices ?? 'crimp-only',
    partyLineCommon: stated.partyLineCommon ?? 'shared',
    canStubFastMm: stated.canStub?.fast ?? 300,
    canStubSlowMm: stated.canStub?.slow ?? 1000,
    feederLossDb: stated.rf?.feederLossDb ?? 3,
    parkedDays: stated.parked ?? 21,
    conductorCelsius: stated.conductorTemperature ?? 20,
  }
}

const conventional = [
  { id: 'off', title: 'Off' },
  { id: 'standby', title: 'Standby' },
  { id: 'receive', title: 'Receive' },
  { id: 'transmit', title: 'Transmit' },
]

/** Operating states to solve. Without a list: off, standby, receive, transmit; only transmit is brief, since it lasts an over. */
export function statesFrom(listed: Installation['states']): State[] {
  const source: NonNullable<Installation['states']> = listed && listed.length > 0 ? listed : conventional
  return source.map((state) => ({
    id: state.id,
    title: state.title ?? conventional.find((entry) => entry.id === state.id)?.title ?? state.id,
    ignition: state.ignition ?? state.id !== 'off',
    load: state.load ?? state.id,
    brief: state.brief ?? state.id === 'transmit',
  }))
}
