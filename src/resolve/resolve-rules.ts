import type { Level } from '../base/finding.ts'

/** What `explain` and the rule pages say about a finding made while resolving. */
export interface ResolveRule {
  readonly id: ResolveRuleId
  readonly title: string
  readonly family: 'names' | 'pins' | 'mating'
  readonly level: Level
  readonly covers: readonly string[]
  readonly reason: string
  readonly remedy: string
  readonly needs: string
  readonly sources: readonly string[]
}

export type ResolveRuleId =
  | 'duplicate-name'
  | 'name-not-found'
  | 'pin-exists'
  | 'core-used-once'
  | 'contradiction'
  | 'mate-unclear'

const commonPractice = ['common practice']

/** Rules that are judged while names are looked up, before anything is computed. */
export const resolveRules: readonly ResolveRule[] = [
  {
    id: 'duplicate-name',
    title: 'A name stands for one thing',
    family: 'names',
    level: 'warning',
    covers: ['X2'],
    reason:
      'Labels, cut lists and ring-out sheets address things by name. When two wires or two plugs share one, the person at the bench connects the wrong one and every sheet still looks right.',
    remedy: 'Rename one of the two.',
    needs: 'nothing beyond the names',
    sources: ['AV label standard F501.01, as reported', 'common practice'],
  },
  {
    id: 'name-not-found',
    title: 'Every name leads to something described',
    family: 'names',
    level: 'stop',
    covers: [],
    reason:
      'A name that leads nowhere is a wire that leads nowhere: it is missing from drawings, cut lists and checks, which would then pass for the wrong reason.',
    remedy: 'Correct the spelling, or describe the missing part, equipment, harness, connector or state.',
    needs: 'nothing beyond the names',
    sources: commonPractice,
  },
  {
    id: 'pin-exists',
    title: 'A pin exists on its connector',
    family: 'pins',
    level: 'stop',
    covers: ['P3'],
    reason:
      'A contact cannot be put into a cavity the housing does not have. Most often the family is wrong or the pin was read from another face.',
    remedy: 'Use a pin the housing has, or correct the family.',
    needs: 'the pins of the connector family',
    sources: commonPractice,
  },
  {
    id: 'core-used-once',
    title: 'A cable core is used once, and the cable has it',
    family: 'pins',
    level: 'stop',
    covers: ['P10'],
    reason:
      'One core has two ends. Listing it twice promises a conductor the cable does not have, and the second circuit stays open or is doubled onto the first.',
    remedy: 'Give each circuit a core of its own, or choose a cable with more cores.',
    needs: 'the cores of the cable',
    sources: commonPractice,
  },
  {
    id: 'contradiction',
    title: 'A description does not contradict itself',
    family: 'names',
    level: 'stop',
    covers: [],
    reason:
      'Where two statements cannot both be true, every drawing and figure made from them is wrong for one of the two, and nobody can tell which.',
    remedy: 'Decide which statement is true and correct the other.',
    needs: 'nothing beyond the description',
    sources: commonPractice,
  },
  {
    id: 'mate-unclear',
    title: 'It is clear what each plug mates with',
    family: 'mating',
    level: 'warning',
    covers: [],
    reason:
      'Drops, loops and drains are judged across mated connectors. A plug whose partner is not known cuts its circuits off from the figures.',
    remedy: 'List the pair under the installation’s mates, or say which equipment connector the plug fits.',
    needs: 'the mates of the installation, or the connector each plug fits',
    sources: commonPractice,
  },
]
