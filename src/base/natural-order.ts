const CHUNKS = /\d+|\D+/g
const isDigits = (chunk: string): boolean => chunk >= '0' && chunk < ':'

function compareText(a: string, b: string): number {
  if (a === b) return 0
  return a < b ? -1 : 1
}

/** Compares runs of digits by value without turning them into numbers, so a long run cannot lose digits. */
function compareDigits(a: string, b: string): number {
  const left = a.replace(/^0+(?=\d)/, '')
  const right = b.replace(/^0+(?=\d)/, '')
  return left.length - right.length || compareText(left, right)
}

/**
 * Order for `sort` in which A2 comes before A10, as pins and wire numbers are read.
 * Independent of locale, so that the same description gives the same bytes everywhere; case only breaks ties.
 */
export function naturalOrder(a: string, b: string): number {
  const left = a.toLowerCase().match(CHUNKS) ?? []
  const right = b.toLowerCase().match(CHUNKS) ?? []
  for (let index = 0; index < Math.min(left.length, right.length); index++) {
    const one = left[index] ?? ''
    const two = right[index] ?? ''
    const order = isDigits(one) && isDigits(two) ? compareDigits(one, two) : compareText(one, two)
    if (order !== 0) return order
  }
  return left.length - right.length || compareText(a, b)
}

/** A copy of `items` in natural order of the text `key` gives for each. */
export function sortNaturally<T>(items: Iterable<T>, key: (item: T) => string): T[] {
  return [...items].sort((a, b) => naturalOrder(key(a), key(b)))
}
