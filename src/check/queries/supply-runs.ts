import type { Conductor, Link, State, Terminal } from '../../resolve/loom.ts'
import { type DropAlong, dropAlong } from '../../solve/drop-along.ts'
import type { LoadResult } from '../../solve/solution.ts'
import type { RuleContext } from '../rule.ts'

/** A stretch of a run: the same way out and back. */
export interface Stretch {
  readonly volts: number
  /** In copper alone. */
  readonly conductorVolts: number
  /** Conductors with what each loses, most first. */
  readonly losses: readonly Loss[]
}

export interface Loss {
  readonly conductor: Conductor
  readonly amps: number
  readonly volts: number
  readonly sum: string
}

/** The way from a source to one load and back, in one state. */
export interface Run {
  readonly load: LoadResult
  readonly state: State
  readonly whole: Stretch
  /** What every load of the source has in common. */
  readonly feeder: Stretch
  /** What this load shares with some others. */
  readonly shared: Stretch
  /** What serves this load alone. */
  readonly own: Stretch
  /** Way out and way back. */
  readonly feed: readonly Link[]
  readonly back: readonly Link[]
}

interface Way {
  readonly source: Terminal
  readonly feed: readonly Link[]
  readonly back: readonly Link[]
  readonly backFrom: Terminal
}

/** Every run of every state in which the load draws something and the way is known. Work grows with loads × states × path. */
export function supplyRuns({ solution, paths }: RuleContext): readonly Run[] {
  const ways = new Map<string, Way | undefined>()
  const wayOf = (load: LoadResult): Way | undefined => {
    const key = `${load.terminal.index} ${load.source.index}`
    if (!ways.has(key)) {
      const feed = paths.supply.supplies(load.terminal).find(({ source }) => source === load.source)
      const back = paths.supply.returnPath(load.terminal, load.source)
      ways.set(
        key,
        feed && back && { source: load.source, feed: feed.links, back: back.links, backFrom: back.from },
      )
    }
    return ways.get(key)
  }
  return solution.states.flatMap((solved) => {
    const drawing = solved.loads.filter(({ amps }) => amps > 0)
    const found = drawing.flatMap((load) => {
      const way = wayOf(load)
      return way ? [{ load, way }] : []
    })
    const { usersOf, loadsOf } = countUsers(found.map(({ way }) => way))
    return found.map(({ load, way }): Run => {
      const drop = (links: readonly Link[], start: Terminal) =>
        dropAlong(start, links, solved.amps, solution.linkOhms)
      const terms = [...drop(way.feed, way.source).terms, ...drop(way.back, way.backFrom).terms]
      const all = loadsOf(way.source)
      const part = (test: (users: number) => boolean) =>
        stretch(terms.filter(({ link }) => test(usersOf(link))))
      return {
        load,
        state: solved.state,
        feed: way.feed,
        back: way.back,
        whole: stretch(terms),
        feeder: part((users) => users > 1 && users >= all),
        shared: part((users) => users > 1 && users < all),
        own: part((users) => users <= 1),
      }
    })
  })
}

/** How many loads go through each link, and how many hang on each source. */
function countUsers(ways: readonly Way[]) {
  const users = new Map<Link, number>()
  const loads = new Map<Terminal, number>()
  for (const way of ways) {
    loads.set(way.source, (loads.get(way.source) ?? 0) + 1)
    for (const link of new Set([...way.feed, ...way.back])) users.set(link, (users.get(link) ?? 0) + 1)
  }
  return {
    usersOf: (link: Link) => users.get(link) ?? 0,
    loadsOf: (source: Terminal) => loads.get(source) ?? 0,
  }
}

function stretch(terms: DropAlong['terms']): Stretch {
  const losses = terms.flatMap(({ link, amps, volts, sum }) =>
    link.conductor ? [{ conductor: link.conductor, amps, volts, sum }] : [],
  )
  return {
    volts: terms.reduce((sum, term) => sum + term.volts, 0),
    conductorVolts: losses.reduce((sum, loss) => sum + loss.volts, 0),
    losses: [...losses].sort((a, b) => b.volts - a.volts),
  }
}
