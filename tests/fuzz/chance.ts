/** Numbers that look random and are the same for the same seed (mulberry32, public domain). */
export class Chance {
  #state: number

  constructor(seed: number) {
    this.#state = seed >>> 0
  }

  /** From 0 to below 1. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0
    let t = this.#state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }

  /** From 0 to below `end`, whole. */
  below(end: number): number {
    return Math.floor(this.next() * end)
  }

  of<T>(list: readonly T[]): T {
    const one = list[this.below(list.length)]
    if (one === undefined) throw new Error('nothing to choose from')
    return one
  }
}
