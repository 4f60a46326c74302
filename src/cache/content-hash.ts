import { createHash } from 'node:crypto'

/** SHA-256 in hexadecimal. */
export function contentHash(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex')
}

/** One hash of several texts, which no other way of dividing the same characters gives. */
export function hashOf(...parts: readonly string[]): string {
  const hash = createHash('sha256')
  for (const part of parts) hash.update(`${Buffer.byteLength(part)}:`).update(part)
  return hash.digest('hex')
}
