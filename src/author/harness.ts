import type { ComponentInput } from '../describe/component.ts'
import type { HarnessConnectorInput, HarnessInput } from '../describe/harness.ts'
import type { CableOfHarness } from './cable.ts'
import type { Connector } from './connector.ts'
import { type LandingKind, mark, markOf, tidy } from './site.ts'
import type { Splice, Wire } from './wire.ts'

/** One thing or a list of things, to any depth a loop or a helper function leaves behind. */
export type Nested<T> = T | readonly Nested<T>[]

type AnyConnector = HarnessConnectorInput & { readonly id: string }

/** A type of harness, with the names of its connectors in its type. */
export interface Harness<Ids extends string = string, Id extends string = string>
  extends Omit<HarnessInput, 'id'> {
  readonly id: Id
  /** For types only: never set. */
  readonly types?: { ids: Ids }
}

type HarnessOptions<C extends readonly AnyConnector[]> = Omit<
  HarnessInput,
  'id' | 'connectors' | 'splices' | 'components' | 'wires' | 'cables'
> & {
  /** Its connectors in the order papers list them. Those that wires land on are added by themselves. */
  connectors?: C
  /** Splices; those that wires land on are added by themselves. */
  splices?: readonly Splice[]
  /** Fuses, relays and other parts in the run; those that wires land on are added by themselves. */
  components?: readonly ComponentInput[]
  wires?: Nested<Wire>
  cables?: Nested<CableOfHarness>
}

/** Depth first, so that things keep the order in which they were written. */
const flatten = <T>(nested: Nested<T> | undefined): T[] =>
  nested === undefined
    ? []
    : Array.isArray(nested)
      ? nested.flatMap((one: Nested<T>) => flatten(one))
      : [nested as T]

const some = <T>(list: readonly T[]): readonly T[] | undefined => (list.length > 0 ? list : undefined)

/** The things listed, then those that conductors land on, each once. */
function listed(
  lands: LandingKind,
  given: readonly object[] | undefined,
  landed: readonly object[],
): object[] {
  return [...new Set([...(given ?? []), ...landed.filter((owner) => markOf(owner)?.lands === lands)])]
}

/** A loom: what is cut, crimped and rung out as one piece. Connectors, splices and parts that its wires land on need no list. */
export function harness<
  const Id extends string,
  const C extends readonly AnyConnector[] = readonly Connector[],
>(id: Id, options: HarnessOptions<C>): Harness<C[number]['id'], Id> {
  const { connectors, splices, components, wires, cables, ...rest } = options
  const runs = [...flatten(wires), ...flatten(cables)]
  const landed = runs.flatMap((run) => run.owners)
  const all = {
    connectors: listed('connectors', connectors, landed),
    splices: listed('splices', splices, landed),
    components: listed('components', components, landed),
  }
  const data = tidy({
    id,
    ...rest,
    connectors: all.connectors,
    splices: some(all.splices),
    components: some(all.components),
    wires: some(flatten(wires)),
    cables: some(flatten(cables)),
  })
  const parts = [...all.connectors, ...all.components, ...runs]
  const uses = [...new Set(parts.flatMap((one) => markOf(one)?.uses ?? []))]
  return mark(data, harness, { kind: 'harness', args: ['id', ''], uses }) as unknown as Harness<
    C[number]['id'],
    Id
  >
}
