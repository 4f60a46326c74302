/** Crockford's base 32: no I, L, O or U, so a code can be read over a radio or copied by hand. */
const ALPHABET = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'

/**
 * A stable 53-bit hash of a text, as a whole number.
 * Two multiplicative 32-bit lanes mixed at the end. It is for match codes and cache keys and is no protection against forgery.
 */
export function hashText(text: string): number {
  let high = 0xdeadbeef
  let low = 0x41c6ce57
  for (let index = 0; index < text.length; index++) {
    const unit = text.charCodeAt(index)
    high = Math.imul(high ^ unit, 2654435761)
    low = Math.imul(low ^ unit, 1597334677)
  }
  high = Math.imul(high ^ (high >>> 16), 2246822507) ^ Math.imul(low ^ (low >>> 13), 3266489909)
  low = Math.imul(low ^ (low >>> 16), 2246822507) ^ Math.imul(high ^ (high >>> 13), 3266489909)
  return 4294967296 * (2097151 & low) + (high >>> 0)
}

/** The hash of a text as base-32 characters, `length` 1 to 10 (5 bits each, 50 bits at most). */
export function hashCode(text: string, length = 8): string {
  let rest = hashText(text)
  let code = ''
  for (let index = 0; index < Math.min(10, Math.max(1, length)); index++) {
    code += ALPHABET[rest % 32]
    rest = Math.floor(rest / 32)
  }
  return code
}

/** The short code printed on every sheet of one issue, such as `7QK2-M9XD`: two papers that disagree do not match. */
export function matchCode(text: string): string {
  const code = hashCode(text, 8)
  return `${code.slice(0, 4)}-${code.slice(4)}`
}
