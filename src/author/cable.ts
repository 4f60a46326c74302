import type { CableInput } from '../describe/harness.ts'
import { type End, endsOf } from './end.ts'
import type { NumberIn } from './equipment.ts'
import {
  type CableArgument,
  type CoresOf,
  type KnownCable,
  nameOf,
  ownOf,
  type PartName,
  type Ref,
  type ShieldsOf,
} from './part.ts'
import { hide, mark, tidy } from './site.ts'
import type { Landing } from './wire.ts'

export type CableOfHarness = CableInput & Landing

type CoreInput = CableInput['cores'][number]
type ShieldInput = NonNullable<CableInput['shields']>[number]

/** Where a core starts and ends, with a number or label of its own if it has one. */
export type CoreRun = readonly [from: End, to: End, details?: Omit<CoreInput, 'core' | 'from' | 'to'>]
/** Where a shield lands. Leave out the end at which it is cut back. */
export type ShieldRun = Omit<ShieldInput, 'shield' | 'from' | 'to'> & { from?: End; to?: End }

type Cores<Names extends string = string> = { readonly [K in Names]?: CoreRun }
type Shields<Names extends string = string> = { readonly [K in Names]?: ShieldRun }
type NoStray<C, Names extends string, Given, Noun extends string> = string extends keyof Given
  ? unknown
  : {
      readonly [K in Exclude<
        keyof Given,
        Names | NumberIn<Names>
      >]: `cable ${PartName<C>} has no ${Noun} ${K & (string | number)}`
    }

type Rest = Omit<CableInput, 'id' | 'part' | 'cores' | 'shields'>
export type CableOptions<C, K, S> = Rest & {
  /** Each core that is used, by its name: `{ 1: [P2.pin('5'), X1.pin('2')] }`. */
  cores: K & NoStray<C, CoresOf<C>, K, 'core'>
  /** Each shield that lands somewhere: `{ screen: { from: P2.pin('shell') } }`. */
  shields?: S & NoStray<C, ShieldsOf<C>, S, 'shield'>
}

const coreRow = ([core, [from, to, details]]: [string, CoreRun]): CoreInput =>
  tidy({ core, from: from.address, to: to.address, ...details })

const shieldRow = ([shield, { from, to, ...details }]: [string, ShieldRun]): ShieldInput =>
  tidy({ shield, from: from?.address, to: to?.address, ...details })

/** A call names cores and shields by key, data lists them: `cores.0.to` in the data is `cores.1a.1` in the call. */
export function routeInCall(run: object, path: readonly (string | number)[]): readonly (string | number)[] {
  const { cores, shields } = run as Partial<CableInput>
  const [list, index, key, ...rest] = path
  if (typeof index !== 'number' || (list !== 'cores' && list !== 'shields')) return path
  const name = list === 'cores' ? cores?.[index]?.core : shields?.[index]?.shield
  if (name === undefined) return path
  if (key === undefined || key === 'core' || key === 'shield') return [list, name]
  if (list === 'shields') return [list, name, key, ...rest]
  return key === 'from' ? [list, name, 0] : key === 'to' ? [list, name, 1] : [list, name, 2, key, ...rest]
}

/** A run of cable, with where its cores and shields land. Cores that are not named are spare. */
export function cable<
  const C extends CableArgument,
  const K extends Cores<CoresOf<C>>,
  const S extends Shields<ShieldsOf<C>> = Record<never, never>,
>(id: string, part: KnownCable<C>, options: CableOptions<C, K, S>): CableOfHarness {
  const cores = Object.entries(options.cores as Record<string, CoreRun>)
  const shields = Object.entries((options.shields ?? {}) as Record<string, ShieldRun>)
  for (const [core, [from, to]] of cores) endsOf(`core ${core} of cable ${id}`, from, to)
  const data = tidy({
    id,
    part: nameOf(part as Ref<{ id: string }>),
    ...(options as Rest),
    cores: cores.map(coreRow),
    shields: shields.length > 0 ? shields.map(shieldRow) : undefined,
  })
  const ends = [
    ...cores.flatMap(([, [from, to]]) => [from, to]),
    ...shields.flatMap(([, { from, to }]) => [from, to]),
  ]
  const owners = ends.flatMap((end) => (end ? [end.owner] : []))
  return hide(
    mark(data, cable, {
      args: ['id', 'part', ''],
      route: routeInCall,
      uses: [ownOf(part as Ref<{ id: string }>)],
    }),
    {
      owners,
    },
  ) as unknown as CableOfHarness
}
