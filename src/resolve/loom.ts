import type { Colour } from '../base/colour.ts'
import type { Finding } from '../base/finding.ts'
import type { Pointer } from '../base/place.ts'
import type { WireGauge } from '../base/wire-size.ts'
import type { Component } from '../describe/component.ts'
import type { Equipment, EquipmentConnector } from '../describe/equipment.ts'
import type { PinFunction } from '../describe/function.ts'
import type { CableRun, Harness, HarnessConnector, WireRun } from '../describe/harness.ts'
import type { Installation } from '../describe/installation.ts'
import type {
  CablePart,
  ConnectorFamily,
  ContactPart,
  FusePart,
  SealPart,
  WirePart,
} from '../describe/part.ts'
import type { Policy } from '../describe/policy.ts'

/**
 * One metal terminal: a pin, a terminal of a component, or a splice.
 * Addresses are `unit.connector.pin`, `loom.connector.pin`, `loom.component.terminal` or `loom.splice`.
 */
export interface Terminal {
  readonly index: number
  readonly address: string
  /** Pin or terminal name; the splice's own name for a splice. */
  readonly name: string
  readonly on: 'equipment' | 'harness' | 'component' | 'splice'
  readonly half?: Half
  readonly component?: ComponentUse
  /**
   * What the pin does. For an equipment pin, as described; for a harness pin, that of the equipment pin it fits; `unstated` otherwise.
   */
  readonly does: PinFunction
  readonly at: Pointer
}

/** One half of a connector, on equipment or on a loom. */
export interface Half {
  readonly index: number
  /** `radio.J1` or `main.P1`. */
  readonly address: string
  readonly id: string
  readonly side: 'equipment' | 'harness'
  readonly title?: string
  readonly family?: ConnectorFamily
  readonly familyId: string
  readonly gender?: 'pin' | 'socket'
  readonly coding?: string
  readonly unit?: Unit
  readonly loom?: LoomUse
  readonly source: EquipmentConnector | HarnessConnector
  /** Every pin of the family in order, `shell` last; pins that are described but not in the family are not here (they are findings). */
  readonly pins: ReadonlyMap<string, Terminal>
  /** The half it is mated with in this installation; the first where there are several. */
  readonly mate?: Half
  /** Every half mated with it: a stud takes several rings, a terminal block several ends. */
  readonly mates: readonly Half[]
  /** The equipment connector it is made for, by type: "mobile-40.J1". */
  readonly fits?: string
  readonly zone?: string
  readonly at: Pointer
}

/** A unit of equipment in its place. */
export interface Unit {
  readonly id: string
  readonly equipment: Equipment
  readonly title: string
  readonly zone?: string
  readonly halves: readonly Half[]
  /** Made up to test a loom on its own; not part of any described installation. */
  readonly standIn: boolean
  readonly at: Pointer
}

/** A harness in its place. */
export interface LoomUse {
  readonly id: string
  readonly harness: Harness
  readonly halves: readonly Half[]
  readonly cables: readonly CableUse[]
  readonly at: Pointer
}

export interface CableUse {
  readonly address: string
  readonly id: string
  readonly loom: LoomUse
  readonly source: CableRun
  readonly part?: CablePart
  readonly conductors: readonly Conductor[]
  /** Cores of the part that land nowhere. */
  readonly spare: readonly string[]
  readonly at: Pointer
}

/** One metal path: a wire, a core of a cable, or a shield. */
export interface Conductor {
  readonly index: number
  /** `main.A02` */
  readonly address: string
  /** Wire number as printed. */
  readonly id: string
  readonly kind: 'wire' | 'core' | 'shield'
  readonly loom: LoomUse
  /** Undefined where a shield is cut back, or where the end named does not exist (which is a finding). */
  readonly from?: Terminal
  readonly to?: Terminal
  readonly size?: WireGauge
  readonly colour?: Colour
  readonly lengthMm?: number
  readonly wirePart?: WirePart
  readonly cable?: CableUse
  readonly core?: string
  /** Twisted pair it belongs to, unique in the installation: `main.W1.pair1`, `main.TP1`. */
  readonly pair?: string
  readonly source: WireRun | CableRun['cores'][number] | NonNullable<CableRun['shields']>[number]
  readonly zone?: string
  readonly at: Pointer
}

/** A fuse, relay, diode … in the run of a loom or inside a unit. */
export interface ComponentUse {
  readonly index: number
  /** `main.F1` or `fuses.F2`. */
  readonly address: string
  readonly id: string
  readonly source: Component
  readonly unit?: Unit
  readonly loom?: LoomUse
  readonly terminals: ReadonlyMap<string, Terminal>
  readonly fusePart?: FusePart
  readonly at: Pointer
}

/** How two terminals are joined, or kept apart by a component. The graph every search and solver walks. */
export interface Link {
  readonly index: number
  readonly kind:
    | 'conductor' // wire, core or shield with both ends
    | 'mate' // two mated contacts
    | 'join' // bonded inside equipment
    | 'bond' // component "link"
    | 'fuse'
    | 'switch'
    | 'relay-contact' // 30–87, and 30–87a
    | 'coil' // relay coil or coil component, and coil ports of equipment
    | 'diode' // a → b conducts
    | 'resistor'
    | 'capacitor'
    | 'winding'
  readonly a: Terminal
  readonly b: Terminal
  readonly conductor?: Conductor
  readonly component?: ComponentUse
  /** Resistance in ohms where the description gives one. */
  readonly ohms?: number
}

/** All metal that is one node: terminals joined by conductors, mated contacts, bonds and joins, with no component between. */
export interface Net {
  readonly index: number
  /** Given name, else the signal name of the strongest pin on it, else its first address. */
  readonly name: string
  readonly terminals: readonly Terminal[]
  readonly conductors: readonly Conductor[]
}

/** Nets that a fuse joins: what is one potential while the fuses are whole. */
export interface Circuit {
  readonly index: number
  readonly nets: readonly Net[]
  readonly terminals: readonly Terminal[]
}

export interface State {
  readonly id: string
  readonly title: string
  readonly ignition: boolean
  /** Key under which loads state their current. */
  readonly load: string
  readonly brief: boolean
}

export type AmpacityTableId = NonNullable<Policy['ampacity']>

/** Shop policy with every default filled in; `stated` keeps what was written. */
export interface Settings {
  readonly stated: Policy
  readonly at?: Pointer
  readonly dropContinuousVolts: number
  readonly dropBriefVolts: number
  readonly dropCriticalShare: number
  readonly dropOtherShare: number
  readonly contactOhms: number
  readonly fuseOhms: number
  readonly holderOhms: number
  readonly fuseWithinMm: number
  readonly fuseNegative: 'forbid' | 'allow'
  readonly fuseMargin: number
  readonly shields: 'one-end' | 'both-ends'
  readonly parkedDays: number
  readonly feederLossDb: number
  readonly lineLossDb: number
  readonly lateFuse: 'accept' | 'warn'
  readonly ampacityTable: AmpacityTableId
  readonly batteryNegative: 'body-side' | 'post'
  readonly starWashers: 'forbid' | 'allow'
  readonly splices: 'crimp-only' | 'solder-allowed'
  readonly partyLineCommon: 'shared' | 'judged'
  readonly canStubFastMm: number
  readonly canStubSlowMm: number
  readonly conductorCelsius: number
}

/** A shop's parts by id, catalogue included. */
export interface PartIndex {
  readonly connectors: ReadonlyMap<string, ConnectorFamily>
  readonly contacts: ReadonlyMap<string, ContactPart>
  readonly seals: ReadonlyMap<string, SealPart>
  readonly wires: ReadonlyMap<string, WirePart>
  readonly cables: ReadonlyMap<string, CablePart>
  readonly fuses: ReadonlyMap<string, FusePart>
}

/** An installation, or one harness with stand-ins for the equipment it fits, as a graph with an address for everything. */
export interface Loom {
  readonly kind: 'installation' | 'harness'
  readonly id: string
  readonly title: string
  readonly at: Pointer
  readonly source: Installation | Harness
  readonly setting: 'vehicle' | 'boat' | 'building' | 'bench'
  readonly structure: 'metal' | 'non-conductive'
  readonly supplyVolts?: number
  readonly ambientCelsius: number
  readonly states: readonly State[]
  readonly settings: Settings
  readonly parts: PartIndex
  readonly units: readonly Unit[]
  readonly looms: readonly LoomUse[]
  readonly halves: readonly Half[]
  readonly terminals: readonly Terminal[]
  readonly conductors: readonly Conductor[]
  readonly components: readonly ComponentUse[]
  readonly links: readonly Link[]
  readonly nets: readonly Net[]
  readonly circuits: readonly Circuit[]
  /** Index into `nets` by terminal index. */
  readonly netOf: Int32Array
  /** Index into `circuits` by net index. */
  readonly circuitOf: Int32Array
  /** Links by terminal index. */
  readonly linksAt: readonly (readonly Link[])[]
  readonly terminalAt: ReadonlyMap<string, Terminal>
  readonly halfAt: ReadonlyMap<string, Half>
  readonly conductorAt: ReadonlyMap<string, Conductor>
  /** Names that lead nowhere, duplicates and contradictions met while resolving. */
  readonly findings: readonly Finding[]
}
