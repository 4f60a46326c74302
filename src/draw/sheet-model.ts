/**
 * What a drawing is made from: plain data that knows nothing of rules or of how a harness is described.
 * Text may be anything a person typed; the engine measures and escapes it.
 */

/** Where a conductor lands. `pin` is the key of a row or terminal within the block. */
export interface EndRef {
  readonly block: string
  readonly pin: string
}

/** A numbered mark that refers to a finding printed elsewhere. The shape tells the level without colour. */
export interface Flag {
  readonly number: number
  readonly level: 'error' | 'warning' | 'note'
}

export type SymbolName =
  | 'fuse'
  | 'breaker'
  | 'diode'
  | 'resistor'
  | 'capacitor'
  | 'coil'
  | 'switch'
  | 'link'
  | 'transformer'
  | 'battery'
  | 'speaker'
  | 'microphone'
  | 'antenna'
  | 'motor'
  | 'lamp'

/** One used pin of a connector. */
export interface StripRow {
  /** Unique within the block. */
  readonly key: string
  /** Address of the pin, by which a page finds it. */
  readonly address?: string
  /** As moulded on the housing. */
  readonly pin: string
  /** Function or signal name. */
  readonly name: string
  /** Contact crimped on here, when it is worth a column. */
  readonly contact?: string
  readonly flags?: readonly Flag[]
}

/** Pins that carry no conductor, listed beneath the strip. */
export interface IdlePins {
  readonly state: string
  readonly pins: readonly string[]
}

/** One connector within a block. */
export interface StripSection {
  readonly id: string
  readonly title?: string
  readonly subtitle?: string
  readonly rows: readonly StripRow[]
  readonly idle?: readonly IdlePins[]
}

interface BlockBase {
  readonly id: string
  /** Reference designation and name, such as `P1 to transceiver`. */
  readonly title: string
  readonly subtitle?: string
  /** Wished place from the left, 0 first; worked out from the connections when left out. */
  readonly column?: number
  readonly flags?: readonly Flag[]
}

/** A connector or a unit with several connectors: a strip of rows. */
export interface StripBlock extends BlockBase {
  readonly kind: 'strip'
  readonly symbol?: SymbolName
  readonly sections: readonly StripSection[]
}

/** A two-terminal part in the run of a conductor. `subtitle` is its value. */
export interface InlineBlock extends BlockBase {
  readonly kind: 'inline'
  readonly symbol: SymbolName
  /** First terminal, then second; a diode's are anode, then cathode. */
  readonly pins: readonly [string, string]
}

/** A relay with its coil and contact. Terminal names are those printed on it. */
export interface RelayBlock extends BlockBase {
  readonly kind: 'relay'
  readonly coil: readonly [string, string]
  readonly common: string
  readonly open: string
  readonly closed?: string
  /** Part across the coil, built in. A diode has its cathode at the second coil terminal. */
  readonly suppressor?: 'diode' | 'resistor' | 'tvs'
}

/** A joint of conductors, drawn as a dot. */
export interface SpliceBlock extends BlockBase {
  readonly kind: 'splice'
}

/** A stud, bar or post that takes several conductors at one point. */
export interface StudBlock extends BlockBase {
  readonly kind: 'stud'
  readonly symbol: 'chassis' | 'earth' | 'terminal'
}

export type Block = StripBlock | InlineBlock | RelayBlock | SpliceBlock | StudBlock

/** One metal path. An end left out is cut off or folded back; a conductor that is not in a trunk has both ends. */
export interface Conductor {
  /** Unique on the drawing. */
  readonly id: string
  /** Number as printed; the id when left out. */
  readonly label?: string
  readonly net?: string
  readonly from?: EndRef
  readonly to?: EndRef
  /** IEC 60757 code, one or two colours. */
  readonly colour?: string
  /** Size as printed on the line, such as `1.5 (16)`. */
  readonly size?: string
  /** Said when somebody points at the line. */
  readonly title?: string
  readonly flags?: readonly Flag[]
}

/** A screen over conductors of a trunk. */
export interface Shield {
  readonly id: string
  /** Number as printed; the id when left out. */
  readonly label?: string
  readonly net?: string
  readonly title?: string
  /** Ids of the conductors under it; all of the trunk when empty. */
  readonly covers: readonly string[]
  readonly from?: EndRef
  readonly to?: EndRef
  readonly flags?: readonly Flag[]
}

/** Conductors that run as one: a cable, a twisted pair, a screened pair. */
export interface Trunk {
  readonly id: string
  readonly title: string
  /** Has a jacket round everything. */
  readonly jacket: boolean
  /** Ids of conductors, in the order of the cable. */
  readonly conductors: readonly string[]
  /** Twisted pairs, each by its two conductors. */
  readonly pairs: readonly (readonly [string, string])[]
  readonly shields: readonly Shield[]
}

/** Fields of the title block (ISO 7200). */
export interface TitleBlock {
  readonly owner?: string
  readonly title: string
  readonly supplement?: string
  readonly documentType: string
  readonly documentNo?: string
  readonly revision?: string
  readonly date?: string
  readonly status?: string
  readonly createdBy?: string
  readonly approvedBy?: string
  readonly matchCode?: string
  /** Such as `1:10`; `none` when left out. */
  readonly scale?: string
  readonly revisions?: readonly {
    readonly revision: string
    readonly date: string
    readonly by: string
    readonly what: string
  }[]
}

export interface SheetModel {
  readonly titleBlock: TitleBlock
  readonly blocks: readonly Block[]
  readonly conductors: readonly Conductor[]
  readonly trunks: readonly Trunk[]
  /** Printed beside the colour key. */
  readonly notes?: readonly string[]
}

/** What stands at a screen's lane: its number, with the word unless the number holds it. */
export const shieldWords = (shield: { readonly id: string; readonly label?: string }): string =>
  /shield|screen|drain/i.test(printed(shield)) ? printed(shield) : `${printed(shield)} shield`

/** The number of a conductor or shield as it is printed. */
export const printed = (path: { readonly id: string; readonly label?: string }): string =>
  path.label ?? path.id
