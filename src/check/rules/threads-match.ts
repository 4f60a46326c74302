import type { Half } from '../../resolve/loom.ts'
import { wired } from '../examples/wired.ts'
import { found, unknown } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (thread: string) => {
  const data = wired({
    units: {
      terminal: { pins: { '2': { name: 'A' } }, family: 'dsub-9' },
      logger: { pins: { '2': { name: 'A' } }, family: 'dsub-9' },
    },
    runs: [['terminal.2', 'logger.2']],
  })
  return {
    ...data,
    equipment: (data.equipment ?? []).map((unit) => ({
      ...unit,
      connectors: unit.connectors.map((each) => ({ ...each, thread: 'UNC 4-40' })),
    })),
    harnesses: (data.harnesses ?? []).map((lead) => ({
      ...lead,
      connectors: lead.connectors.map((each) => ({ ...each, thread, contact: 'dsub-crimp-20' })),
    })),
  }
}

const threadOf = ({ source, family }: Half): string | undefined => source.thread ?? family?.thread

/** "UNC 4-40" and "4-40 UNC" are one thread. */
const normal = (thread: string): string =>
  (thread.toLowerCase().match(/[a-z]+|[\d.]+/g) ?? []).sort().join(' ')

export const threadsMatch: Rule = {
  id: 'threads-match',
  title: 'Locking screws match their posts',
  family: 'mating',
  level: 'note',
  covers: ['M11'],
  reason:
    'UNC 4-40 and M3 start in each other and then bind. The plug is left hanging, or the screw takes the thread of the post with it.',
  remedy: 'Change the screws or the posts; both kinds are sold loose.',
  needs: '"thread" of both halves, or of the family',
  sources: ['audio press on AES59 connectors', 'common practice'],
  examples: { trips: example('M3'), passes: example('4-40 UNC') },
  *check({ loom }) {
    for (const half of loom.halves) {
      const { mate } = half
      if (half.side !== 'harness' || !mate || half.family?.lock !== 'screw' || half.family.style !== 'dsub')
        continue
      const [own, other] = [threadOf(half), threadOf(mate)]
      if (own === undefined && other === undefined) continue
      if (own === undefined || other === undefined) {
        const silent = own === undefined ? half : mate
        yield unknown(
          silent.address,
          `needs the thread of the locking screws of ${silent.address}`,
          silent.at,
        )
        continue
      }
      if (normal(own) === normal(other)) continue
      yield found({
        subject: half.address,
        what: `The locking screws of ${half.address} are ${own} and those of ${mate.address} are ${other}`,
        why: `${own} does not run in ${other}: it binds after a turn or two and strips the softer one.`,
        fix: `Change the screws of ${half.id} to ${other}.`,
        facts: { own: { value: own }, other: { value: other } },
        at: half.at,
        marks: [half.address, mate.address],
      })
    }
  },
}
