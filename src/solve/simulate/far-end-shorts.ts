import type { ComponentUse, Conductor, Link, Loom, Terminal } from '../../resolve/loom.ts'
import { isClosed } from '../dc-elements.ts'
import { faultCurrent } from '../formulas/fault-current.ts'
import { bladeFuseOpeningTime, type OpeningTime } from '../formulas/fuse-opening-time.ts'
import { fuseRating } from '../fuse-rating.ts'
import { sumOhms } from '../link-ohms.ts'
import type { Paths } from '../paths.ts'
import { type Tree, throughSupply, walk } from '../reach.ts'
import { returnPin } from '../return-pin.ts'
import type { Solution } from '../solution.ts'

/** A dead short at a load, and the fuse that has to open. */
export interface FarEndShort {
  readonly load: Terminal
  readonly source: Terminal
  readonly fuse: ComponentUse
  readonly ratingAmps: number
  readonly volts: number
  /** Out and back, source included. */
  readonly loopOhms: number
  readonly faultAmps: number
  /** Between these times the fuse opens; for fuses of other kinds too, for want of a better figure. */
  readonly opens: OpeningTime
  readonly links: readonly Link[]
}

export interface FarEndShorts {
  readonly results: readonly FarEndShort[]
  readonly unknown: readonly { readonly load: Terminal; readonly needs: string }[]
}

/** Shorts each load at its own pins and finds the smallest fuse on the way, and how soon it opens. */
export function shortFarEnds(loom: Loom, paths: Paths, solution: Solution): FarEndShorts {
  const results: FarEndShort[] = []
  const unknown: { load: Terminal; needs: string }[] = []
  const backTrees = new Map<Terminal, Tree>()
  const backTree = (from: Terminal): Tree => {
    const tree = backTrees.get(from) ?? walk(loom, from, throughSupply)
    backTrees.set(from, tree)
    return tree
  }
  for (const load of loom.terminals) {
    if (load.on !== 'equipment' || load.does.kind !== 'supply-in') continue
    for (const { source, links, fuses } of paths.supply.supplies(load)) {
      const fuse = smallest(fuses)
      const back = returnPin(load)
      const home = returnPin(source)
      const returned = back && home ? backTree(home).pathTo(back) : undefined
      if (!fuse || source.does.kind !== 'supply-out' || !returned) continue
      if (neverFed(links, loom)) continue
      const loop = sumOhms([...links, ...returned], solution.linkOhms)
      const missing = loop.missing[0]
      if (missing) {
        unknown.push({ load, needs: `the size and length of ${missing.id}` })
        continue
      }
      const volts = source.does.volts?.max ?? loom.supplyVolts
      if (volts === undefined) {
        unknown.push({ load, needs: `the voltage of ${source.address}` })
        continue
      }
      const inner = source.does.resistance ?? 0
      const amps = Math.min(
        faultCurrent(volts, inner, loop.ohms),
        source.does.maxAmps ?? Number.POSITIVE_INFINITY,
      )
      results.push({
        load,
        source,
        fuse: fuse.fuse,
        ratingAmps: fuse.amps,
        volts,
        loopOhms: loop.ohms + inner,
        faultAmps: amps,
        opens: bladeFuseOpeningTime(amps, fuse.amps),
        links: [...links, ...returned],
      })
    }
  }
  return { results, unknown }
}

function smallest(fuses: readonly ComponentUse[]): { fuse: ComponentUse; amps: number } | undefined {
  return fuses
    .flatMap((fuse) => {
      const amps = fuseRating(fuse)
      return amps === undefined ? [] : [{ fuse, amps }]
    })
    .reduce<{ fuse: ComponentUse; amps: number } | undefined>(
      (least, next) => (least && least.amps <= next.amps ? least : next),
      undefined,
    )
}

/** Through a contact that no state closes nothing flows. */
const neverFed = (links: readonly Link[], loom: Loom): boolean =>
  links.some(
    (link) =>
      (link.kind === 'switch' || link.kind === 'relay-contact') &&
      loom.states.every((state) => !isClosed(link, state)),
  )

/** The conductors on a path, in order. */
export const conductorsOf = (links: readonly Link[]): readonly Conductor[] =>
  links.flatMap((link) => (link.conductor ? [link.conductor] : []))
