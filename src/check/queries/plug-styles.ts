import type { ConnectorFamily } from '../../describe/part.ts'
import type { Half } from '../../resolve/loom.ts'

const PLUGS: ReadonlySet<ConnectorFamily['style']> = new Set([
  'housing',
  'circular',
  'dsub',
  'modular',
  'jack',
  'coax',
])

/** Whether a half is plugged and unplugged by hand as one piece: no ring, screw terminal, tab or lone wire end. */
export const isPlug = ({ family }: Half): boolean => family !== undefined && PLUGS.has(family.style)

/** Pins of a half that carry conductors, the shell left out. */
export const cavitiesOf = (half: Half) => [...half.pins.values()].filter(({ name }) => name !== 'shell')
