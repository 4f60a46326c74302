import type { Pointer } from '../../base/place.ts'
import type { FunctionOf } from '../../describe/function.ts'
import type { Circuit, Link, Terminal } from '../../resolve/loom.ts'
import { returnPin } from '../../solve/return-pin.ts'
import type { RuleContext } from '../rule.ts'

export type Switch = Terminal & { readonly does: FunctionOf<'switch-out'> }

/** A coil with a switching output on one of its ends. */
export interface DrivenCoil {
  /** `main.K1`, or the first pin of a coil in equipment. */
  readonly address: string
  readonly at: Pointer
  /** End that is the more positive while the coil is on. */
  readonly plus: Terminal
  readonly minus: Terminal
  readonly driver: Switch
  readonly ohms?: number
  /** Suppressor built in; undefined where nothing is said. */
  readonly suppressed?: 'none' | 'diode' | 'resistor' | 'tvs'
  /** Where a built-in diode has its cathode: terminal 86 of a relay. */
  readonly cathode?: Terminal
}

const circuitOf = ({ paths }: RuleContext, terminal: Terminal): Circuit =>
  paths.nets.circuit(paths.nets.net(terminal))

export const isSwitch = (terminal: Terminal): terminal is Switch =>
  terminal.on === 'equipment' && terminal.does.kind === 'switch-out'

/** A switching output on the circuit of a terminal; none where a supply or ground holds it. */
function switchAt(context: RuleContext, terminal: Terminal): Switch | undefined {
  const { terminals, nets } = circuitOf(context, terminal)
  const isHeld = nets.some(
    (net) => context.paths.nets.isGround(net) || context.paths.nets.pins(net, 'supply-out').length > 0,
  )
  return isHeld ? undefined : terminals.find(isSwitch)
}

type Ends = Omit<DrivenCoil, 'driver' | 'plus' | 'minus'> & { readonly a: Terminal; readonly b: Terminal }

function endsOf(link: Link): Ends {
  const { a, b, ohms } = link
  const source = link.component?.source
  const said =
    source?.kind === 'relay' || source?.kind === 'coil'
      ? source.suppressed
      : [a, b].map(({ does }) => (does.kind === 'coil' ? does.suppressed : undefined)).find((each) => each)
  return {
    address: link.component?.address ?? a.address,
    at: link.component?.at ?? a.at,
    a,
    b,
    ...(ohms === undefined ? {} : { ohms }),
    ...(said ? { suppressed: said } : {}),
    ...(source?.kind === 'relay' ? { cathode: a } : {}),
  }
}

/** Motors are coils too; nothing can be said about what is built into them. */
function motorsOf({ loom }: RuleContext): readonly Ends[] {
  return loom.terminals.flatMap((pin) => {
    const back =
      pin.on === 'equipment' && pin.does.kind === 'supply-in' && pin.does.motor ? returnPin(pin) : undefined
    return back ? [{ address: pin.address, at: pin.at, a: pin, b: back }] : []
  })
}

/** Every relay, solenoid, horn or motor coil that a switching output drives. */
export function drivenCoils(context: RuleContext): readonly DrivenCoil[] {
  const coils = context.loom.links.filter((link) => link.kind === 'coil').map(endsOf)
  return [...coils, ...motorsOf(context)].flatMap(({ a, b, ...rest }) => {
    const [atA, atB] = [switchAt(context, a), switchAt(context, b)]
    const driver = atA ?? atB
    if (!driver) return []
    const [switched, other] = atA ? [a, b] : [b, a]
    const [plus, minus] = driver.does.active === 'high' ? [switched, other] : [other, switched]
    return [{ ...rest, plus, minus, driver }]
  })
}

/** Parts that lie from one end of a coil to the other: diodes by the way they point, resistors and capacitors. */
export function acrossCoil(context: RuleContext, { plus, minus }: DrivenCoil) {
  const [high, low] = [circuitOf(context, plus), circuitOf(context, minus)]
  const between = (link: Link, from: Circuit, to: Circuit): boolean =>
    circuitOf(context, link.a) === from && circuitOf(context, link.b) === to
  const { links } = context.loom
  return {
    right: links.filter((link) => link.kind === 'diode' && between(link, low, high)),
    wrong: links.filter((link) => link.kind === 'diode' && between(link, high, low)),
    damped: links.filter(
      (link) =>
        (link.kind === 'resistor' || link.kind === 'capacitor') &&
        (between(link, high, low) || between(link, low, high)),
    ),
  }
}
