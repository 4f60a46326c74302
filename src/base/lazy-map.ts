/**
 * A map whose values are made when they are first asked for, and then kept: of a catalogue of hundreds a job uses a few.
 * Keys keep the order in which they were given; of a key given twice the last one counts.
 */
export class LazyMap<V> implements ReadonlyMap<string, V> {
  readonly #makers: Map<string, () => V>
  readonly #made = new Map<string, V>()

  constructor(makers: Iterable<readonly [key: string, make: () => V]>) {
    this.#makers = new Map(makers)
  }

  get size(): number {
    return this.#makers.size
  }

  has(key: string): boolean {
    return this.#makers.has(key)
  }

  get(key: string): V | undefined {
    const known = this.#made.get(key)
    if (known !== undefined) return known
    const make = this.#makers.get(key)
    if (!make) return undefined
    const value = make()
    this.#made.set(key, value)
    return value
  }

  keys(): MapIterator<string> {
    return this.#makers.keys()
  }

  *values(): MapIterator<V> {
    for (const key of this.#makers.keys()) yield this.get(key) as V
  }

  *entries(): MapIterator<[string, V]> {
    for (const key of this.#makers.keys()) yield [key, this.get(key) as V]
  }

  [Symbol.iterator](): MapIterator<[string, V]> {
    return this.entries()
  }

  forEach(visit: (value: V, key: string, map: ReadonlyMap<string, V>) => void): void {
    for (const [key, value] of this) visit(value, key, this)
  }
}
