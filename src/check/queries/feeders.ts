import type { FunctionOf } from '../../describe/function.ts'
import type { Installation } from '../../describe/installation.ts'
import type { CablePart } from '../../describe/part.ts'
import type { CableUse, Link, Loom, Terminal } from '../../resolve/loom.ts'
import { coaxJointLossDb, coaxLossDbPerMetre } from '../../solve/formulas/coax-loss.ts'
import { feederLossDb } from '../../solve/formulas/feeder-power.ts'
import { throughMetal } from '../../solve/reach.ts'
import type { RuleContext } from '../rule.ts'

export type RfPin = Terminal & { readonly does: FunctionOf<'rf'> }

/** The way from a radio to its antenna. */
export interface Feeder {
  readonly radio: RfPin
  readonly antenna: RfPin
  readonly cables: readonly CableUse[]
  readonly links: readonly Link[]
  readonly joints: number
  /** Undefined where a cable has no length. */
  readonly lengthMm?: number
  /** Highest frequency in use; that of the radio where the job names none. */
  readonly hertz?: number
  readonly lossDb?: number
  /** What is wanted for the loss. */
  readonly needs?: string
}

export const isRf = (pin: Terminal): pin is RfPin => pin.on === 'equipment' && pin.does.kind === 'rf'

export const isAntenna = (pin: Terminal): boolean => pin.half?.unit?.equipment.role === 'antenna'

/** Attenuation of a cable in dB/m at a frequency; undefined where its part gives none. */
export function cableLossDbPerMetre(part: CablePart | undefined, hertz: number): number | undefined {
  const points = Object.entries(part?.lossDb100m ?? {}).map(([mhz, db]) => ({
    hertz: Number(mhz) * 1e6,
    dbPerMetre: db / 100,
  }))
  return points.length === 0 ? undefined : coaxLossDbPerMetre(points, hertz)
}

const highestOf = (loom: Loom): number | undefined =>
  loom.kind === 'installation' ? (loom.source as Installation).highest : undefined

function measured(feeder: Omit<Feeder, 'lossDb' | 'needs'>): Feeder {
  const { cables, hertz, joints } = feeder
  if (hertz === undefined) return { ...feeder, needs: 'the highest frequency in use' }
  let lossDb = joints * coaxJointLossDb(hertz)
  for (const cable of cables) {
    const perMetre = cableLossDbPerMetre(cable.part, hertz)
    if (perMetre === undefined)
      return { ...feeder, needs: `the loss of ${cable.source.part} in dB per 100 m` }
    if (cable.source.length === undefined) return { ...feeder, needs: `the length of ${cable.id}` }
    lossDb += feederLossDb(cable.source.length, perMetre)
  }
  return { ...feeder, lossDb }
}

/** Every antenna with the radio it is fed from. */
export function feedersOf({ loom, paths }: RuleContext): Feeder[] {
  return loom.terminals.flatMap((antenna): Feeder[] => {
    if (!isRf(antenna) || !isAntenna(antenna)) return []
    const tree = paths.from(antenna, throughMetal)
    const radio = tree.order.find((pin): pin is RfPin => isRf(pin) && !isAntenna(pin))
    const links = radio && tree.pathTo(radio)
    if (!radio || !links) return []
    const cables = [...new Set(links.flatMap(({ conductor }) => conductor?.cable ?? []))]
    const lengths = cables.map(({ source }) => source.length)
    const hertz = highestOf(loom) ?? radio.does.to
    return [
      measured({
        radio,
        antenna,
        cables,
        links,
        joints: links.filter(({ kind }) => kind === 'mate').length,
        ...(hertz === undefined ? {} : { hertz }),
        ...(lengths.includes(undefined)
          ? {}
          : { lengthMm: lengths.reduce<number>((sum, one) => sum + (one ?? 0), 0) }),
      }),
    ]
  })
}
