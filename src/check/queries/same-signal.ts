import type { PinFunction } from '../../describe/function.ts'
import type { Terminal } from '../../resolve/loom.ts'

const plain = (name: string): string => name.trim().toUpperCase().replace(/\s+/g, ' ').replace(/−|–/g, '-')

/** What a pin is looking for at the other end, so that an output finds its input: one word for both. */
function role(does: PinFunction): string | undefined {
  switch (does.kind) {
    case 'supply-out':
    case 'supply-in':
      return 'plus'
    case 'return':
      return 'minus'
    case 'audio-out':
    case 'audio-in':
      return `audio ${does.level} ${does.leg ?? 'single'}`
    case 'data':
      return `data ${does.standard} ${plain(does.line)}`
    case 'switch-out':
    case 'switch-in':
      return `switch ${does.purpose ?? 'other'}`
    case 'unstated':
    case 'reserved':
    case 'spare':
    case 'contact':
    case 'coil':
      return undefined
    default:
      return does.kind
  }
}

function unique<T>(items: readonly T[], key: (item: T) => string | undefined): ReadonlyMap<string, T> {
  const found = new Map<string, T | undefined>()
  for (const item of items) {
    const name = key(item)
    if (name !== undefined) found.set(name, found.has(name) ? undefined : item)
  }
  return new Map([...found].filter((entry): entry is [string, T] => entry[1] !== undefined))
}

/**
 * Which pin at the other end each pin means, by signal name and, where no name agrees, by what the two do.
 * Only names and roles that occur once at either end count: two pins called GND tell nothing.
 */
export function expectedPartners(
  near: readonly Terminal[],
  far: readonly Terminal[],
): ReadonlyMap<Terminal, Terminal> {
  const expected = new Map<Terminal, Terminal>()
  const taken = new Set<Terminal>()
  for (const key of [
    (pin: Terminal) => (pin.does.name ? plain(pin.does.name) : undefined),
    (pin: Terminal) => role(pin.does),
  ]) {
    const free = (pins: readonly Terminal[]) => pins.filter((pin) => !taken.has(pin))
    const there = unique(free(far), key)
    for (const [name, pin] of unique(free(near), key)) {
      const partner = there.get(name)
      if (!partner) continue
      expected.set(pin, partner)
      taken.add(pin).add(partner)
    }
  }
  return expected
}
