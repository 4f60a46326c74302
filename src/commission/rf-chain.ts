import type { FunctionOf } from '../describe/function.ts'
import type { Installation } from '../describe/installation.ts'
import type { Conductor, Link, Loom, Terminal } from '../resolve/loom.ts'
import { coaxJointLossDb, coaxLossDbPerMetre, type LossPoint } from '../solve/formulas/coax-loss.ts'
import { feederLossDb } from '../solve/formulas/feeder-power.ts'
import type { Paths } from '../solve/paths.ts'

export type RfPin = Terminal & { readonly does: FunctionOf<'rf'> }

/** A run of coaxial cable on the way to the antenna. */
export interface FeederRun {
  readonly conductor: Conductor
  readonly lengthMm: number
  readonly dbPerMetre: number
}

/** A transmitter, its antenna and what is between them, at the channel in use. */
export interface RfChain {
  readonly radio: RfPin
  readonly antenna: RfPin | undefined
  readonly hertz: number | undefined
  readonly runs: readonly FeederRun[]
  /** Pairs of coaxial connectors. */
  readonly joints: number
  readonly jointDb: number
  /** Loss one way; undefined when a length or a cable's loss is not given. */
  readonly lossDb: number | undefined
  readonly needs: readonly string[]
}

const isRf = (terminal: Terminal): terminal is RfPin =>
  terminal.on === 'equipment' && terminal.does.kind === 'rf'

/** Published loss of a cable by frequency. */
export const lossPoints = (lossDb100m: Readonly<Record<string, number>> | undefined): LossPoint[] =>
  Object.entries(lossDb100m ?? {})
    .map(([mhz, db]) => ({ hertz: Number(mhz) * 1e6, dbPerMetre: db / 100 }))
    .filter(({ hertz, dbPerMetre }) => Number.isFinite(hertz) && Number.isFinite(dbPerMetre))

/** The highest channel in use: stated for the installation, else where the transmitter ends. */
const channelOf = (loom: Loom, radio: RfPin): number | undefined =>
  (loom.kind === 'installation' ? (loom.source as Installation).highest : undefined) ?? radio.does.to

/** Every transmitter output of an installation with its feeder. */
export function rfChains(loom: Loom, paths: Paths): RfChain[] {
  const pins = loom.terminals.filter(isRf)
  return pins
    .filter((pin) => pin.does.watts !== undefined)
    .map((radio) => {
      const antenna = pins.find(
        (pin) =>
          pin !== radio &&
          pin.half?.unit !== radio.half?.unit &&
          paths.nets.net(pin) === paths.nets.net(radio),
      )
      const way = antenna && paths.between(radio, antenna)
      return chain(channelOf(loom, radio), radio, antenna, way ?? [])
    })
}

function chain(
  hertz: number | undefined,
  radio: RfPin,
  antenna: RfPin | undefined,
  way: readonly Link[],
): RfChain {
  const needs: string[] = []
  if (hertz === undefined) needs.push('"highest" of the installation: the channel in use')
  if (!antenna) needs.push(`an antenna joined to ${radio.address}`)
  const runs = way.flatMap(({ conductor }): FeederRun[] => {
    if (!conductor) return []
    const points = lossPoints(conductor.cable?.part?.lossDb100m)
    const dbPerMetre = hertz === undefined ? Number.NaN : coaxLossDbPerMetre(points, hertz)
    if (points.length === 0) needs.push(`"lossDb100m" of the cable that ${conductor.address} is part of`)
    if (conductor.lengthMm === undefined) needs.push(`the length of ${conductor.address}`)
    return conductor.lengthMm === undefined || !Number.isFinite(dbPerMetre)
      ? []
      : [{ conductor, lengthMm: conductor.lengthMm, dbPerMetre }]
  })
  const joints = way.filter(({ kind }) => kind === 'mate').length
  const jointDb = hertz === undefined ? Number.NaN : coaxJointLossDb(hertz)
  const lossDb =
    needs.length > 0
      ? undefined
      : runs.reduce((sum, run) => sum + feederLossDb(run.lengthMm, run.dbPerMetre), joints * jointDb)
  return { radio, antenna, hertz, runs, joints, jointDb, lossDb, needs }
}
