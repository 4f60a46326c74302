import { below, type Pointer } from '../base/place.ts'
import type { Harness } from '../describe/harness.ts'
import type { GraphBuilder } from './graph-builder.ts'

/** Sees to it that a name is given once in its list of a harness. */
export class NameGuard {
  private readonly taken = new Map<string, { kind: string; at: Pointer }>()
  private readonly b: GraphBuilder
  private readonly harness: Harness

  constructor(b: GraphBuilder, harness: Harness) {
    this.b = b
    this.harness = harness
  }

  claim(id: string, kind: string, at: Pointer, level: 'stop' | 'warning' = 'stop'): boolean {
    const first = this.taken.get(id)
    if (!first) {
      this.taken.set(id, { kind, at })
      return true
    }
    const both = first.kind === kind ? `two ${kind}s` : `a ${first.kind} and a ${kind}`
    this.b.report({
      rule: 'duplicate-name',
      level,
      subject: `${this.harness.id}/${id}`,
      what: `Harness ${this.harness.id} has ${both} called ${id}`,
      fix: `Rename one of them${level === 'stop' ? '; until then the first counts' : ''}.`,
      at: below(at, 'id'),
      notes: [{ text: `the first ${first.kind} ${id}`, at: below(first.at, 'id') }],
    })
    return false
  }
}
