import { relative } from 'node:path'
import { isCurrent, readStamp, summaryKey } from '../cache/build-stamp.ts'
import { type BuildOrder, lastLines, orderOf, realPath } from './build-order.ts'
import { CLEAN, type Runner, STOPS_FOUND } from './command.ts'
import type { Io } from './io.ts'

/*
 * This file and what it imports are all that a build loads when nothing has changed, so it imports nothing of the phases.
 */

/** Says what the last build said where it would only do the same again; its stops, or undefined where there is work to do. */
function sameAgain(order: BuildOrder, io: Io): number | undefined {
  const { keeping, share, merge, since, arranged } = order
  if (!keeping || share || merge !== undefined || since !== undefined || arranged) return undefined
  const stamp = readStamp(keeping.store, order.stampKey)
  const summary = stamp?.summaries[summaryKey(io.width, io.colour)]
  if (!stamp || summary === undefined || !isCurrent(stamp, order.target)) return undefined
  const folder = relative(io.cwd, realPath(order.target)) || '.'
  io.out(summary)
  const total = stamp.output.length
  io.out(lastLines(order, { folder, total, change: '0 new or changed' }, stamp.hasFindings))
  return stamp.stops
}

/** `build [FOLDER|FILE…]`: check, draw, publish; once, or again whenever a file changes. */
export const runBuild: Runner = async (args, io) => {
  const order = orderOf(args, io)
  if (args.flag('watch')) return await (await import('./build-shop.ts')).buildAndWatch(order, args, io)
  const stops = sameAgain(order, io) ?? (await (await import('./build-shop.ts')).buildShop(order, args, io))
  return stops > 0 && !args.flag('allow-stops') ? STOPS_FOUND : CLEAN
}
