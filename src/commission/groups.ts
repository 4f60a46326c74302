import type { Caution, Hazard } from '../guide/cautions.ts'
import { cautionFor } from '../guide/cautions.ts'
import { hazardsOf } from '../guide/hazards.ts'
import type { Loom } from '../resolve/loom.ts'
import type { Paths } from '../solve/paths.ts'
import { exposureText } from './exposure.ts'
import type { GroupId } from './limit.ts'
import { rfChains } from './rf-chain.ts'

/** Printed on every record: what it does not claim. */
export const RECORD_LIMITS =
  'This record does not replace the vehicle, vessel, building or equipment maker’s instructions, local codes, or licensed practice where the law asks for it. Aircraft, medical, rail and hazardous areas are outside what it claims. Readings within these limits do not certify the installation.'

interface GroupFacts {
  readonly title: string
  readonly note: string
  /** Hazards whose caution is printed here, where it bites. */
  readonly bites: readonly Hazard[]
}

export const GROUPS: Readonly<Record<GroupId, GroupFacts>> = {
  bench: { title: 'Before it was fitted', note: 'From the bench.', bites: [] },
  supply: {
    title: 'Supply',
    note: 'Fuses, then the battery, then each load at its plug. Hold the supply at the system voltage where you can: the expected figures are for that.',
    bites: ['battery', '24-volt', 'mains', 'high-voltage'],
  },
  rf: { title: 'Radio', note: 'Dummy load first. Test set warmed up.', bites: ['rf', 'heights', 'fuel'] },
  audio: { title: 'Audio', note: 'Measure lines before anything sounds.', bites: ['hearing'] },
  data: { title: 'Data', note: 'Termination with everything off.', bites: [] },
  logic: {
    title: 'Keys, ignition, alarms',
    note: 'Into the dummy load. What fails here keeps a channel busy or a battery flat.',
    bites: ['hearing'],
  },
  asset: {
    title: 'The whole of it',
    note: 'Closed up, as it will be used.',
    bites: ['airbag', 'road', 'boat'],
  },
}

/** Cautions of a group that this job gives cause for; with radio energy goes the distance worked out for the antenna. */
export function cautionsOf(loom: Loom, paths: Paths, group: GroupId): Caution[] {
  const hazards = hazardsOf(loom)
  const bites = GROUPS[group].bites.filter((hazard) => hazards.has(hazard)).map(cautionFor)
  const distances = rfChains(loom, paths).flatMap((chain) => exposureText(chain) ?? [])
  return bites.map((caution) =>
    caution.hazard === 'rf' ? { ...caution, text: [caution.text, ...distances].join(' ') } : caution,
  )
}
