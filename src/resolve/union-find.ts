/** Disjoint sets of 0 … n − 1 with path halving; near-constant time a step. */
export class UnionFind {
  private readonly parent: Int32Array

  constructor(size: number) {
    this.parent = Int32Array.from({ length: size }, (_, index) => index)
  }

  /** The representative of a set: its smallest member, so that results do not depend on the order of joins. */
  find(item: number): number {
    const { parent } = this
    let at = item
    for (;;) {
      const up = parent[at] ?? at
      if (up === at) return at
      const next = parent[up] ?? up
      parent[at] = next
      at = next
    }
  }

  join(a: number, b: number): void {
    const one = this.find(a)
    const two = this.find(b)
    if (one === two) return
    this.parent[Math.max(one, two)] = Math.min(one, two)
  }

  /** Dense set numbers by item, numbered in order of their smallest member, and how many there are. */
  sets(): { readonly of: Int32Array; readonly count: number } {
    const of = new Int32Array(this.parent.length)
    let count = 0
    for (let item = 0; item < of.length; item++) {
      const root = this.find(item)
      of[item] = root === item ? count++ : (of[root] ?? 0)
    }
    return { of, count }
  }
}
