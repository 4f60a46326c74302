import type { FunctionOf } from '../../describe/function.ts'
import type { Net, Terminal } from '../../resolve/loom.ts'

export type OutPin = Terminal & { readonly does: FunctionOf<'audio-out'> }
export type InPin = Terminal & { readonly does: FunctionOf<'audio-in'> }

const isOut = (pin: Terminal): pin is OutPin =>
  pin.on === 'equipment' && pin.does.kind === 'audio-out' && pin.does.leg !== 'cold'
const isIn = (pin: Terminal): pin is InPin =>
  pin.on === 'equipment' && pin.does.kind === 'audio-in' && pin.does.leg !== 'cold'

/** Lines that stations share as a current, such as a party line, have no one level. */
const CURRENT_FEED_OHMS = 5000

/** Each output on a net with the inputs of other units that share the net with it. */
export function audioLinks(
  net: Net,
): readonly { readonly output: OutPin; readonly inputs: readonly InPin[] }[] {
  return net.terminals.filter(isOut).flatMap((output) => {
    if ((output.does.ohms ?? 0) >= CURRENT_FEED_OHMS) return []
    const inputs = net.terminals.filter(isIn).filter((pin) => pin.half?.unit !== output.half?.unit)
    return inputs.length > 0 ? [{ output, inputs }] : []
  })
}

/** Level a port of a kind is at where it does not say, dBu: common practice. */
const USUAL_DBU = { mic: -50, line: 0, headphone: 0, speaker: 20 } as const

/** Nominal level of a port, and whether it was stated. */
export function levelOf({ does }: OutPin | InPin): { readonly dbu: number; readonly stated: boolean } {
  return does.dbu === undefined
    ? { dbu: USUAL_DBU[does.level], stated: false }
    : { dbu: does.dbu, stated: true }
}
