import type { Conductor, Half, Loom, Terminal } from '../resolve/loom.ts'
import { functionTitle } from './function-words.ts'
import { pinName } from './names.ts'

/** The words on one label. */
export interface LabelText {
  /** What it is, in plain words. */
  readonly line1: string
  /** Where it belongs and where it goes. */
  readonly line2: string
  /** Both lines on one, with the number first. */
  readonly text: string
}

const label = (id: string, line1: string, line2: string): LabelText => ({
  line1,
  line2,
  text: [id, line1, line2].filter((part) => part !== '').join(' | '),
})

/**
 * The label at one end of a conductor: its own words, else the name of its net or of the signal it carries,
 * then this end and the far end, so that a plug in the hand says where it belongs.
 */
export function wireLabel(loom: Loom, conductor: Conductor, end: 'from' | 'to'): LabelText {
  const here = conductor[end]
  const there = conductor[end === 'from' ? 'to' : 'from']
  const route = [here, there].map((terminal) => (terminal ? pinName(terminal) : 'cut back')).join(' → ')
  const own = 'label' in conductor.source ? conductor.source.label : undefined
  return label(conductor.id, own ?? signalOf(loom, conductor), route)
}

/** The name of the signal on a conductor, when anything on its net has one. */
export function signalOf(loom: Loom, conductor: Conductor): string {
  if ('net' in conductor.source && conductor.source.net) return conductor.source.net
  const ends = [conductor.from, conductor.to].filter((end): end is Terminal => end !== undefined)
  const named = ends.find((end) => end.does.name !== undefined)
  if (named) return functionTitle(named.does)
  const net = ends[0] && loom.nets[loom.netOf[ends[0].index] ?? -1]
  const first = net?.terminals.find((terminal) => terminal.does.name !== undefined)
  return first ? functionTitle(first.does) : ''
}

/** The label of a connector: its words, then where it plugs in. */
export function halfLabel(half: Half): LabelText {
  const source = half.source
  const words = ('label' in source ? source.label : undefined) ?? half.title ?? ''
  const mate = half.mate ? `${half.id} → ${half.mate.unit ? `${half.mate.unit.id} ` : ''}${half.mate.id}` : ''
  return label(half.id, words, mate || (half.fits ? `${half.id} → ${half.fits}` : half.id))
}
