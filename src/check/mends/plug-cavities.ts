import { below } from '../../base/place.ts'
import { localSubject, type Mend } from './mend.ts'

/** An open cavity of a sealed connector has one cure. */
export const plugCavities: Mend = {
  id: 'plug-cavities',
  rules: ['empty-cavities-plugged'],
  propose(finding, { loom }) {
    const half = loom.halfAt.get(localSubject(finding, loom))
    if (half?.side !== 'harness') return []
    const what = `cavity plugs in ${half.id}: ${finding.facts.open?.value ?? ''}`
    return [[{ what, changes: [{ at: below(half.at, 'plugEmpty'), value: true }] }]]
  },
}
