import type { Half, Loom } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, unknown } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (half: 'pin' | 'socket') =>
  exampleLead({
    parts: [rowHousing(4)],
    equipment: [
      unitOf('box', socket('J1', 'row-4', { '1': { kind: 'data', standard: 'proprietary', line: 'DATA' } })),
    ],
    harness: { connectors: [{ id: 'P1', family: 'row-4', half, fits: 'box.J1' }] },
  })

/** Each mated pair once, the free half first. */
function* joints(loom: Loom): Iterable<readonly [Half, Half]> {
  for (const half of loom.halves)
    for (const mate of half.mates)
      if (half.side === 'harness' && (mate.side === 'equipment' || half.index < mate.index))
        yield [half, mate]
}

function familiesMate(a: Half, b: Half): boolean {
  if (!a.family || !b.family) return true
  const accepts = (one: Half, other: Half) =>
    one.family?.matesWith?.includes(other.familyId) ?? one.familyId === other.familyId
  return accepts(a, b) || accepts(b, a)
}

function report(free: Half, fixed: Half, what: string, why: string, fix: string): Outcome {
  return found({
    subject: free.address,
    what,
    why,
    fix,
    facts: {
      free: { value: `${free.familyId} ${free.gender ?? ''} ${free.coding ?? ''}`.trim() },
      fixed: { value: `${fixed.familyId} ${fixed.gender ?? ''} ${fixed.coding ?? ''}`.trim() },
      mate: { value: fixed.address },
    },
    at: free.at,
    cause: `mate:${free.address}:${fixed.address}`,
    marks: [free.address, fixed.address],
  })
}

const titleOf = (half: Half): string => half.family?.title ?? half.familyId

function judge(free: Half, fixed: Half): Outcome | undefined {
  const pair = `${free.address} and ${fixed.address}`
  if (!free.family || !fixed.family)
    return unknown(
      free.address,
      `needs the connector family of ${free.family ? fixed.address : free.address}`,
      free.at,
    )
  if (!familiesMate(free, fixed))
    return report(
      free,
      fixed,
      `${pair} are not of families that mate`,
      `One is a ${titleOf(free)}, the other a ${titleOf(fixed)}.`,
      `Fit the half of ${titleOf(fixed)} to ${free.address}, or make an adaptor.`,
    )
  if (free.coding !== fixed.coding && free.coding !== undefined && fixed.coding !== undefined)
    return report(
      free,
      fixed,
      `${pair} are keyed differently: ${free.coding} and ${fixed.coding}`,
      'Halves of different coding are made not to go together, or only with force.',
      `Order ${free.address} with coding ${fixed.coding}.`,
    )
  if (free.family.genderless || fixed.family.genderless) return undefined
  const blank = [free, fixed].find((half) => half.gender === undefined)
  if (blank) return unknown(blank.address, `needs the half of ${blank.address}: pin or socket`, blank.at)
  if (free.gender !== fixed.gender) return undefined
  return report(
    free,
    fixed,
    `${pair} are both ${free.gender} halves and cannot mate`,
    `A ${free.gender} half goes together with a ${free.gender === 'pin' ? 'socket' : 'pin'} half only.`,
    `Order ${free.address} as the ${free.gender === 'pin' ? 'socket' : 'pin'} half.`,
  )
}

export const matedHalvesFit: Rule = {
  id: 'mated-halves-fit',
  title: 'Mated halves go together',
  family: 'mating',
  level: 'stop',
  covers: ['M3'],
  reason:
    'Two halves of one gender, of different families or of different keying cannot be joined, and it shows only when the finished loom meets the equipment.',
  remedy: 'Order the opposite half of the same family and keying.',
  needs: 'family and half (pin or socket) of both, and their coding where the family has one',
  sources: ['common practice'],
  examples: { trips: example('socket'), passes: example('pin') },
  *check({ loom }) {
    for (const [free, fixed] of joints(loom)) {
      const outcome = judge(free, fixed)
      if (outcome) yield outcome
    }
  },
}
