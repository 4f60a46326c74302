import type { Edit } from '../../base/finding.ts'
import { below } from '../../base/place.ts'
import type { Conductor } from '../../resolve/loom.ts'
import { type Ladder, type Mend, markedConductors } from './mend.ts'

/** The core that is twisted with a conductor's own, if its pair is a pair. */
function twin({ cable, core }: Conductor): string | undefined {
  const cores = cable?.part?.cores ?? []
  const pair = cores.find(({ name }) => name === core)?.pair
  const rest = cores.filter((other) => other.pair === pair && other.name !== core)
  return pair === undefined || rest.length !== 1 ? undefined : rest[0]?.name
}

const coreAt = (conductor: Conductor) => below(conductor.at, 'core')

/** Brings one leg onto the core twisted with the other's; what was on that core takes the one that becomes free. */
function join(stays: Conductor, moves: Conductor): Ladder {
  const { cable } = stays
  const wanted = twin(stays)
  if (!cable || cable !== moves.cable || wanted === undefined || moves.core === undefined) return []
  const there = cable.conductors.filter((each) => each.core === wanted && each.kind === 'core')
  if (there.length > 1) return []
  const [holder] = there
  const edit: Edit = {
    what: holder
      ? `${moves.id} and ${holder.id} change cores, so that ${moves.id} is twisted with ${stays.id}`
      : `${moves.id} to core ${wanted}, which is twisted with that of ${stays.id}`,
    changes: [
      { at: coreAt(moves), value: wanted },
      ...(holder ? [{ at: coreAt(holder), value: moves.core }] : []),
    ],
  }
  return [edit]
}

/** A split pair in a cable. Twisted wires carry the name of their pair themselves, and which two are twisted only the shop knows. */
export const coreOfPair: Mend = {
  id: 'core-of-pair',
  rules: ['pair-legs-together'],
  propose(finding, { loom }) {
    const [hot, cold, more] = markedConductors(finding, loom)
    return hot && cold && !more && hot.kind === 'core' && cold.kind === 'core' ? [join(hot, cold)] : []
  },
}
