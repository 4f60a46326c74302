/** Milliseconds of repeated runs of one thing. */
export type Series = readonly number[]

/** Time on the wall, in milliseconds. */
export const wall = (): number => performance.now()

/** Processor time of this process, in milliseconds: what others do on the machine hardly shows in it. */
export function processor(): number {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1000
}

/**
 * Runs several things in turn, so that what else goes on falls on all of them alike. The first round warms up and does not count.
 */
export async function alternate(
  runs: number,
  things: readonly (() => unknown)[],
  clock: () => number = processor,
): Promise<Series[]> {
  const series: number[][] = things.map(() => [])
  for (let round = 0; round <= runs; round++)
    for (const [index, thing] of things.entries()) {
      const begun = clock()
      await thing()
      if (round > 0) series[index]?.push(clock() - begun)
    }
  return series
}
