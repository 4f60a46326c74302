import { UsageError } from './command.ts'

/** One of several equal parts of the work: number 2 of 5. */
export interface Share {
  readonly number: number
  readonly of: number
}

const MOST = 1000

/** Reads `2/5`. Throws {@link UsageError}. */
export function readShare(text: string): Share {
  const [, number, of] = /^(\d{1,4})\/(\d{1,4})$/.exec(text) ?? []
  const share = { number: Number(number), of: Number(of) }
  if (!(share.number >= 1 && share.number <= share.of && share.of <= MOST))
    throw new UsageError(
      '--shard takes its number and how many there are, such as 2/5',
      'build --shard 1/2 --cache shard-1, and --shard 2/2 --cache shard-2 elsewhere',
    )
  return share
}
