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
    id: 'record-shape',
    title: 'A file of readings has the shape that is asked for',
    family: 'papers',
    level: 'warning',
    reason:
      'A field that is misspelt or of the wrong type says nothing. It is left out of the record, and what it meant to say counts as not measured.',
    remedy:
      'Write what the message asks for at the place it names, or fill in the record on its page and save it again.',
    needs: 'nothing beyond the file',
    sources,
  },
  {
    id: 'record-place',
    title: 'A record names things that are described',
    family: 'papers',
    level: 'warning',
    reason:
      'Readings of an installation, loom or unit that is not described belong to nothing, and nobody would find them again.',
    remedy: 'Correct the name.',
    needs: 'nothing beyond the record and the description',
    sources,
  },
  {
    id: 'reading-unusable',
    title: 'A reading can be judged',
    family: 'papers',
    level: 'warning',
    reason:
      'A reading without its unit, in a unit of something else, of a limit that does not exist, or that no meter can show is a slip of the pen. Guessing what was meant could pass a fault.',
    remedy:
      'Write what the meter showed with its unit, beside the name of the limit as the record prints it.',
    needs: 'nothing beyond the record',
    sources,
  },
  {
    id: 'reading-outside-limit',
    title: 'Every reading of an asset is within its limit',
    family: 'papers',
    level: 'warning',
    reason:
      'The limit was worked out from the job. A reading outside it is a bad joint, a wrong part or a wrong description: one of them will be back as a fault call.',
    remedy: 'Find the cause, mend it, measure again, and keep the new record.',
    needs: 'readings of the asset',
    sources,
  },
  {
    id: 'record-stale',
    title: 'An asset is fitted to the issue that holds now',
    family: 'papers',
    level: 'note',
    reason:
      'The next technician works from the papers of today. On an asset that was fitted to another issue they show wires that are not there.',
    remedy: 'Rework the asset and measure it again, or write down why it stays as it is.',
    needs: 'revision or match code in the record',
    sources,
  },
  {
    id: 'as-built-open',
    title: 'A loom leaves the bench finished and tested',
    family: 'papers',
    level: 'warning',
    reason:
      'Steps that failed, were skipped or were not come to, or a loom that its maker tested alone, are found in the vehicle otherwise.',
    remedy: 'Finish the work on the bench page and keep its new record.',
    needs: 'the as-built record of the bench',
    sources,
  },
  {
    id: 'pick-list-complete',
    title: 'The bill of materials holds what the tables use',
    family: 'papers',
    level: 'warning',
    reason:
      'The bill, the crimp sheet and the cut list are counted each on its own. Where they differ one of them is wrong, and a job stops for a contact nobody ordered.',
    remedy: 'Do not pick from this bill; report the description that does this.',
    needs: 'nothing beyond the papers',
    sources,
    covers: ['X4'],
  },
  {
    id: 'ring-out-complete',
    title: 'Every net, screen and pair to be kept apart has a test step',
    family: 'papers',
    level: 'warning',
    reason:
      'What no step touches is not tested: an open crimp or a strand across two pins passes, and is found on the vehicle.',
    remedy: 'Add the step by hand, and report the description that does this.',
    needs: 'nothing beyond the papers',
    sources: ['IPC/WHMA-A-620 §19.5.1 and 19.5.2, by its contents list'],
    covers: ['X5'],
  },
  {
    id: 'issued-paper-unchanged',
    title: 'Nothing has changed since the papers were issued',
    family: 'papers',
    level: 'warning',
    reason:
      'A description edited after issue prints papers that no longer match the ones on the wall, under the same revision.',
    remedy: 'Raise the revision and issue again under the new match code, or take the change back.',
    needs: '"match" of the harness or installation: the code its papers print',
    sources,
    covers: ['X1'],
  },
  {
    id: 'template-broken',
    title: 'A template of the shop can be filled in',
    family: 'papers',
    level: 'warning',
    reason:
      'A template with a slip in it, a field that does not exist or a part that is not there cannot be filled in. Ours takes its place, so a note or a box that the shop counts on is missing from the paper.',
    remedy:
      'Mend the line that is named. The templates that come with the program show every field there is.',
    needs: 'nothing beyond the templates folder of the shop',
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
    id: 'waiver-endless',
    title: 'A waiver ends when the figures behind it change',
    family: 'description',
    level: 'note',
    reason:
      'Somebody accepted 0.6 V, and a year later it is 1.4 V on a longer wire: a waiver without the match code of its facts hides that too.',
    remedy:
      'Add the match code the finding prints, so that the waiver ends with the figures it was given for.',
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
