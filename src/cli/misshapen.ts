import type { Finding } from '../base/finding.ts'
import type { Locate } from '../base/place.ts'
import type { ShopSource } from '../read/shop-source.ts'
import { Unreadable } from './unreadable.ts'

/** A description that does not have its shape. It can be checked in part, but nothing may be made from it: a part is missing. */
export class Misshapen extends Unreadable {
  constructor(findings: readonly Finding[], { source, locate }: { source: ShopSource; locate: Locate }) {
    super(
      findings.map(({ what, fix, at }) => ({ what, fix, place: locate(at) })),
      source,
    )
    this.name = 'Misshapen'
  }
}
