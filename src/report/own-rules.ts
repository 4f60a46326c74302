import type { Level } from '../base/finding.ts'

interface OwnRule {
  readonly id: string
  readonly title: string
  readonly family: string
  readonly level: Level
  readonly reason: string
  readonly remedy: string
  readonly needs: string
  readonly sources: readonly string[]
  readonly covers?: readonly string[]
}

const sources = ['common practice'] as const

/** Findings about the description and the run themselves: they have no rule file, since no loom is needed to make them. */
export const ownRules: readonly OwnRule[] = [
  {
    id: 'description-shape',
    title: 'A description has the shape that is asked for',
    family: 'description',
    level: 'stop',
    reason:
      'A field that is misspelt, of the wrong type or without its unit says nothing, and a guess at it could end in a wrong crimp. What does not fit is left out of the check; nothing is drawn or published until it is mended.',
    remedy:
      'Write what the message asks for at the place it names. An editor that knows the schema (loomwright schema) says so while you type.',
    needs: 'nothing beyond the description',
    sources,
  },
  {
    id: 'stale-citation',
    title: 'A procedure cites what is there',
    family: 'papers',
    level: 'warning',
    reason:
      'A procedure that cites a pin, wire or figure that is no longer there sends the fitter to the wrong place; the printed guide shows the gap.',
    remedy: 'Cite what took its place, or take the sentence out.',
    needs: 'nothing beyond the procedure and the description it belongs to',
    sources,
  },
  {
    id: 'rule-unknown',
    title: 'A severity in the shop policy names a rule that exists',
    family: 'description',
    level: 'warning',
    reason:
      'A severity set for a misspelt rule changes nothing, and nobody notices until the finding that was meant to stop the work does not.',
    remedy: 'Correct the name, or delete the line.',
    needs: 'nothing beyond the shop policy',
    sources,
  },
  {
    id: 'waiver-stale',
    title: 'A waiver matches a finding',
    family: 'description',
    level: 'warning',
    reason: 'A waiver left behind after the mend would silently accept the same fault when it comes back.',
    remedy: 'Delete it, or copy rule and address from the finding it was meant for.',
    needs: 'nothing beyond the shop policy',
    sources,
    covers: ['X6'],
  },
  {
    id: 'rule-failed',
    title: 'Every rule has run to its end',
    family: 'description',
    level: 'warning',
    reason:
      'A rule broke down on this description: a fault of the tool. The others ran, but what this one looks for was not looked for everywhere.',
    remedy: 'Look at the points of that rule by hand, and report the description that does this.',
    needs: 'nothing',
    sources,
  },
]
