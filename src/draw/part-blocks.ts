import { formatAmps, formatFarads, formatOhms, formatVolts } from '../base/format-quantity.ts'
import { functionWords } from '../check/queries/pin-words.ts'
import type { Component } from '../describe/component.ts'
import type { PinFunction } from '../describe/function.ts'
import type { ComponentUse, Half } from '../resolve/loom.ts'
import type { Block, Flag, IdlePins, SymbolName } from './sheet-model.ts'

/** Marks by address of a pin, conductor, component, splice, connector or unit. */
export type FlagsAt = (address: string) => { readonly flags?: readonly Flag[] }

/** A pin's signal name, else what it does in words; empty where nothing is known. */
export function pinName(does: PinFunction): string {
  return does.name ?? (does.kind === 'unstated' ? '' : functionWords(does))
}

/** `D-sub 25-way, sockets`. */
export function familyWords(half: Half): string {
  const contacts = half.gender === 'pin' ? 'pins' : half.gender === 'socket' ? 'sockets' : undefined
  return [half.family?.title ?? half.familyId, half.family?.genderless ? undefined : contacts, half.coding]
    .filter((part) => part !== undefined)
    .join(', ')
}

/** Pins of a half that nothing lands on, by what is done with them. */
export function idlePins(half: Half, used: ReadonlySet<string>): IdlePins[] {
  const { source } = half
  const free = [...half.pins.keys()].filter((pin) => !used.has(pin) && pin !== 'shell')
  if (half.side === 'equipment') return free.length > 0 ? [{ state: 'not wired', pins: free }] : []
  const plugAll = 'plugEmpty' in source && source.plugEmpty === true
  const isPlugged = (pin: string): boolean => {
    const stated = source.pins && Object.hasOwn(source.pins, pin) ? source.pins[pin] : undefined
    return plugAll || (stated !== undefined && 'plugged' in stated && stated.plugged === true)
  }
  const plugged = free.filter(isPlugged)
  const open = free.filter((pin) => !isPlugged(pin))
  return [
    ...(open.length > 0 ? [{ state: 'empty cavity', pins: open }] : []),
    ...(plugged.length > 0 ? [{ state: 'closed with plug', pins: plugged }] : []),
  ]
}

const SYMBOLS: Readonly<Partial<Record<Component['kind'], SymbolName>>> = {
  fuse: 'fuse',
  switch: 'switch',
  diode: 'diode',
  resistor: 'resistor',
  capacitor: 'capacitor',
  coil: 'coil',
  link: 'link',
}

const joined = (...parts: readonly (string | undefined)[]) =>
  parts.filter((part) => part !== undefined && part !== '').join(', ')

/** The figure printed at a component. */
function valueText(use: ComponentUse): string {
  const { source } = use
  switch (source.kind) {
    case 'fuse': {
      const amps = source.rating ?? use.fusePart?.rating
      return joined(amps === undefined ? undefined : formatAmps(amps), use.fusePart?.style)
    }
    case 'switch':
      return joined(source.maxAmps === undefined ? undefined : formatAmps(source.maxAmps))
    case 'diode':
      return joined(
        source.maxAmps === undefined ? undefined : formatAmps(source.maxAmps),
        source.maxVolts === undefined ? undefined : formatVolts(source.maxVolts),
      )
    case 'resistor':
    case 'coil':
      return source.ohms === undefined ? '' : formatOhms(source.ohms)
    case 'capacitor':
      return source.farads === undefined ? '' : formatFarads(source.farads)
    case 'relay':
      return joined(
        source.coil === undefined ? undefined : `coil ${formatOhms(source.coil)}`,
        source.suppressed === undefined || source.suppressed === 'none'
          ? 'nothing across the coil'
          : `${source.suppressed} across the coil`,
      )
    default:
      return ''
  }
}

/** A component of a loom as a block of its own. */
export function componentBlock(use: ComponentUse, flagsAt: FlagsAt): Block {
  const { source } = use
  const title = source.title ? `${use.id} ${source.title}` : use.id
  const base = { id: use.address, title, subtitle: valueText(use), ...flagsAt(use.address) }
  if (source.kind === 'relay') {
    const suppressor = source.suppressed
    return {
      ...base,
      kind: 'relay',
      coil: ['85', '86'],
      common: '30',
      open: '87',
      ...(use.terminals.has('87a') ? { closed: '87a' } : {}),
      ...(suppressor && suppressor !== 'none' ? { suppressor } : {}),
    }
  }
  const symbol = SYMBOLS[source.kind]
  const [first, second] = [...use.terminals.keys()]
  if (symbol && first !== undefined && second !== undefined)
    return { ...base, kind: 'inline', symbol, pins: [first, second] }
  const rows = [...use.terminals.keys()].map((pin) => ({ key: pin, pin, name: '' }))
  return { ...base, kind: 'strip', symbol: 'transformer', sections: [{ id: use.id, rows }] }
}
