import type { ConnectorFamily } from '../describe/part.ts'
import type { Joining } from './connect-order.ts'

type Lock = NonNullable<ConnectorFamily['lock']>

const BY_LOCK: Readonly<Record<Lock, string>> = {
  latch: 'Look at the key, push until it clicks, tug.',
  screw: 'Look at the key, push home, both screws tight.',
  bayonet: 'Look at the key, push, turn to the stop.',
  thread: 'Finger tight, then to the torque its maker states.',
  friction: 'Push fully home and tie it so that it cannot work out.',
  none: 'Push fully home; nothing locks it, so tie it back.',
}

const BY_STYLE: Partial<Readonly<Record<ConnectorFamily['style'], string>>> = {
  terminal: 'Strip, insert to the stop, screw tight, tug.',
  ring: 'Torque as the stud’s maker says.',
  stud: 'Torque as the stud’s maker says.',
  tab: 'Push fully home, tug, cover it.',
  'wire-end': 'Join it as the equipment’s maker says.',
}

/** How the two halves go together, from how they are made. */
export function howToJoin({ plug, onto }: Joining): string {
  const families = [onto.family, plug.family].filter((family) => family !== undefined)
  const style = families.map((family) => BY_STYLE[family.style]).find((text) => text !== undefined)
  const lock = families.map((family) => family.lock).find((one) => one !== undefined)
  return style ?? (lock ? BY_LOCK[lock] : 'Look at the key, push until it locks, tug.')
}
