/** Whether data is an object with a key of its own. */
export const holds = (data: unknown, key: string): boolean =>
  typeof data === 'object' && data !== null && !Array.isArray(data) && Object.hasOwn(data, key)

/** Whether a JSON file holds readings or an as-built record, and no description. */
export function isRecord(name: string, data: unknown): boolean {
  if (holds(data, 'loomwright')) return false
  return /\.readings\.jsonc?$/.test(name) || holds(data, 'readings') || holds(data, 'asBuilt')
}
