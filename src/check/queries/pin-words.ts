import { formatRange, formatVolts } from '../../base/format-quantity.ts'
import type { FunctionOf, PinFunction } from '../../describe/function.ts'
import type { Terminal } from '../../resolve/loom.ts'

const AUDIO_IN = {
  mic: 'microphone input',
  line: 'line input',
  headphone: 'earphone',
  speaker: 'loudspeaker',
} as const
const AUDIO_OUT = {
  mic: 'microphone',
  line: 'line output',
  headphone: 'headphone output',
  speaker: 'loudspeaker output',
} as const

const PLAIN: Partial<Record<PinFunction['kind'], string>> = {
  unstated: 'function not stated',
  'supply-in': 'supply input',
  return: 'supply return',
  chassis: 'chassis',
  'signal-return': 'signal return',
  shield: 'shield',
  'switch-out': 'switching output',
  sense: 'sense input',
  contact: 'contact',
  coil: 'coil',
  rf: 'radio-frequency port',
  reserved: 'reserved pin',
  spare: 'spare pin',
}

const supplyWords = (does: FunctionOf<'supply-out'>): string =>
  does.volts ? `${formatRange(does.volts, formatVolts)} supply` : 'supply'

const switchWords = (does: FunctionOf<'switch-in'>): string =>
  does.purpose === 'key' ? 'transmit key input' : 'switching input'

/** What a pin does, in words: "microphone input", "12.00 V to 14.40 V supply". */
export function functionWords(does: PinFunction): string {
  switch (does.kind) {
    case 'supply-out':
      return supplyWords(does)
    case 'audio-out':
      return AUDIO_OUT[does.level]
    case 'audio-in':
      return AUDIO_IN[does.level]
    case 'switch-in':
      return switchWords(does)
    case 'data':
      return `${does.standard} line ${does.line}`
    default:
      return PLAIN[does.kind] ?? does.kind
  }
}

/** `radio.J2.1 (SPK+, loudspeaker output)`. */
export function pinWords(terminal: Terminal): string {
  const { does } = terminal
  const said = does.kind === 'unstated' && does.name ? [] : [functionWords(does)]
  return `${terminal.address} (${[...(does.name ? [does.name] : []), ...said].join(', ')})`
}
