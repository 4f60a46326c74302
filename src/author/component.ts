import type { ComponentInput, ComponentKind } from '../describe/component.ts'
import { terminalsOf } from '../describe/component-terminals.ts'
import { type Pin, type PinArgument, withPins } from './end.ts'
import { type FusePart, nameOf, ownOf, type Ref } from './part.ts'
import { hide, mark, tidy } from './site.ts'

type InputOf<Kind extends ComponentKind> = Extract<ComponentInput, { kind: Kind }>
type TerminalOf<Kind extends ComponentKind> = (typeof terminalsOf)[Kind][number]

/** A part in the run, or inside equipment. Its terminals are members: `F1.in`, `K1[86]`; `pin('86')` does the same. */
export type Component<Id extends string, Kind extends ComponentKind> = Omit<InputOf<Kind>, 'id'> & {
  readonly id: Id
  pin<const K extends PinArgument<TerminalOf<Kind>>>(
    name: `${K}` extends TerminalOf<Kind> ? K : `${Kind} ${Id} has no terminal ${K}`,
  ): Pin<`${K}`>
} & { readonly [K in TerminalOf<Kind>]: Pin<K> }

type Figures<Kind extends ComponentKind> = Omit<InputOf<Kind>, 'kind' | 'id' | 'part'>

function build(
  kind: ComponentKind,
  id: string,
  figures: object,
  cut: (...v: never[]) => unknown,
  uses?: object,
) {
  const data = mark(tidy({ kind, id, ...figures }), cut, {
    lands: 'components',
    args: ['id', ''],
    uses: [uses],
  })
  const handle = withPins(data) as unknown as { id: string } & { pin(name: string): Pin }
  return hide(handle, Object.fromEntries(terminalsOf[kind].map((name) => [name, handle.pin(name)]))) as never
}

/** A fuse or breaker; terminals `in` and `out`. */
export function fuse<const Id extends string>(
  id: Id,
  figures: Figures<'fuse'> & { part?: Ref<FusePart> } = {},
): Component<Id, 'fuse'> {
  return build('fuse', id, { ...figures, part: nameOf(figures.part) }, fuse, ownOf(figures.part))
}

/** A switch; terminals `1` and `2`. */
export function switchPart<const Id extends string>(
  id: Id,
  figures: Figures<'switch'> = {},
): Component<Id, 'switch'> {
  return build('switch', id, figures, switchPart)
}

/** A relay; coil `85` and `86`, contacts `30`, `87` and, in a changeover relay, `87a` (DIN 72552). */
export function relay<const Id extends string>(
  id: Id,
  figures: Figures<'relay'> = {},
): Component<Id, 'relay'> {
  return build('relay', id, figures, relay)
}

/** A diode; anode `a`, cathode `k`. */
export function diode<const Id extends string>(
  id: Id,
  figures: Figures<'diode'> = {},
): Component<Id, 'diode'> {
  return build('diode', id, figures, diode)
}

/** A resistor; terminals `1` and `2`. */
export function resistor<const Id extends string>(
  id: Id,
  figures: Figures<'resistor'> = {},
): Component<Id, 'resistor'> {
  return build('resistor', id, figures, resistor)
}

/** A capacitor; terminals `1` and `2`. */
export function capacitor<const Id extends string>(
  id: Id,
  figures: Figures<'capacitor'> = {},
): Component<Id, 'capacitor'> {
  return build('capacitor', id, figures, capacitor)
}

/** A coil: solenoid, horn, valve; terminals `1` and `2`. */
export function coil<const Id extends string>(id: Id, figures: Figures<'coil'> = {}): Component<Id, 'coil'> {
  return build('coil', id, figures, coil)
}

/** An isolation transformer; `p1` and `p2` on one side, `s1` and `s2` on the other. */
export function transformer<const Id extends string>(
  id: Id,
  figures: Figures<'transformer'> = {},
): Component<Id, 'transformer'> {
  return build('transformer', id, figures, transformer)
}

/** A bond, strap, shunt or bar; terminals `1` and `2`. */
export function link<const Id extends string>(id: Id, figures: Figures<'link'> = {}): Component<Id, 'link'> {
  return build('link', id, figures, link)
}
