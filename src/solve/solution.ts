import type { Conductor, Link, State, Terminal } from '../resolve/loom.ts'
import type { Paths } from './paths.ts'

/** The resistance of one link, and how it was come by. */
export interface LinkOhms {
  readonly ohms: number
  /** "A03 1.5 mm², 5.6 m × 13.3 mΩ/m", "2 mΩ a contact", … for the sum shown to people. */
  readonly sum: string
  readonly assumed: boolean
}

/** A load as solved in one state. */
export interface LoadResult {
  /** Supply pin of the load. */
  readonly terminal: Terminal
  /** Return pin of the load. */
  readonly back?: Terminal
  readonly amps: number
  /** Volts between the two. */
  readonly volts: number
  /** Volts of the source it is fed from. */
  readonly sourceVolts: number
  readonly source: Terminal
  /** Volts lost on the way there and back. */
  readonly dropVolts: number
}

/** The DC network in one operating state. Figures are undefined where the description does not give enough. */
export interface StateSolution {
  readonly state: State
  /** Volts of each terminal by index against the battery's return; NaN where it floats. */
  readonly volts: Float64Array
  /** Amps in each link by index, from a to b; NaN where unknown, 0 where open. */
  readonly amps: Float64Array
  readonly loads: readonly LoadResult[]
  /** Loads that could not be placed and why. Volts and source amps are then those of the other loads alone. */
  readonly unsolved: readonly { readonly terminal: Terminal; readonly needs: string }[]
  /** Amps out of each source pin. */
  readonly sources: readonly { readonly terminal: Terminal; readonly amps: number }[]
  readonly wattsLost: number
  /** False when a constant-power load has no solution: it starves its feed. */
  readonly converged: boolean
  /** What was taken where nothing is stated, in words. */
  readonly assumed: readonly string[]
}

/** One bridged, line or speaker output and the loudspeakers it drives. */
export interface SpeakerNetwork {
  /** Output pins: hot and cold (or return). */
  readonly hot: Terminal
  readonly cold?: Terminal
  readonly speakers: readonly {
    readonly hot: Terminal
    readonly cold: Terminal
    readonly ohms: number
    /** Share of the power delivered to this one, 0…1. */
    readonly share: number
    readonly watts?: number
    /** 1, or −1 where hot and cold are swapped on the way. */
    readonly polarity: 1 | -1
  }[]
  /** Impedance seen by the output, without and with the line. */
  readonly loadOhms: number
  readonly totalOhms: number
  readonly lineOhms: number
  /** 20·log10 of the level at the speakers over that with no line. */
  readonly lossDb: number
  readonly needs: readonly string[]
}

/** A load no state feeds, and what would have to be said for its figures. */
export interface UnfedLoad {
  readonly terminal: Terminal
  readonly needs: string
}

/** Standing drain of one battery with everything switched off. */
export interface Drain {
  readonly source: Terminal
  readonly amps: number
  readonly parts: readonly { readonly terminal: Terminal; readonly amps: number; readonly why: string }[]
  readonly usableAh?: number
  /** Days until the usable charge is gone; Infinity without drain. */
  readonly days?: number
  /** Figures that are not given: the drain is then larger than stated. */
  readonly needs: readonly string[]
}

/** Everything computed from a loom, once, for rules, papers and pages. */
export interface Solution {
  /** Shared questions about nets, supplies and paths. */
  readonly paths: Paths
  readonly linkOhms: readonly (LinkOhms | undefined)[]
  readonly states: readonly StateSolution[]
  readonly speakers: readonly SpeakerNetwork[]
  readonly drains: readonly Drain[]
  /** Loads that no state feeds, so that there is no figure for them. */
  readonly unfed: readonly UnfedLoad[]
  /** Largest |amps| in each conductor over all states; undefined where unknown. */
  readonly worstAmps: ReadonlyMap<Conductor, { readonly amps: number; readonly state: State }>
  readonly worstLinkAmps: ReadonlyMap<Link, { readonly amps: number; readonly state: State }>
}
