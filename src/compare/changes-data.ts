import { type Finding, identity } from '../base/finding.ts'
import type { Locate, Pointer } from '../base/place.ts'
import { bringsStop, type Changes, type SubjectChange, type ThingChange } from './changes.ts'
import { headline, netSentence, subjectHeading, thingSentence, trendWords, verdict } from './sentences.ts'
import type { TwoPlaces } from './two-places.ts'

/** Version of the shape below; it changes only when a field is taken away or changes meaning. */
export const CHANGES_VERSION = 1

const placed = (at: Pointer | undefined, locate: Locate) =>
  at === undefined ? {} : { at: { ...locate(at), path: at.path } }

function thingData(thing: ThingChange, places: TwoPlaces) {
  const { at, addresses, ...rest } = thing
  const locate = thing.change === 'removed' ? places.before : places.after
  return {
    ...rest,
    sentence: thingSentence(thing),
    addresses: [...new Set(addresses)],
    ...placed(at, locate),
  }
}

function subjectData(subject: SubjectChange, places: TwoPlaces) {
  const { at, things, ...rest } = subject
  const locate = subject.change === 'removed' ? places.before : places.after
  return {
    ...rest,
    heading: subjectHeading(subject),
    ...placed(at, locate),
    things: things.map((one) => thingData(one, places)),
  }
}

function findingData(finding: Finding, locate: Locate) {
  const { rule, level, subject, what, why, fix, facts, at } = finding
  return { identity: identity(finding), rule, level, subject, what, why, fix, facts, ...placed(at, locate) }
}

/** A comparison as plain data. Lists are never left out; places of what was removed are those it had. */
export function changesData(changes: Changes, places: TwoPlaces, toolVersion: string) {
  const { findings } = changes
  return {
    changes: CHANGES_VERSION,
    tool: { name: 'loomwright', version: toolVersion },
    bringsStop: bringsStop(changes),
    verdict: verdict(changes),
    headline: headline(changes),
    subjects: changes.subjects.map((subject) => subjectData(subject, places)),
    nets: changes.nets.map((net) => ({ ...net, sentence: netSentence(net) })),
    findings: {
      appeared: findings.appeared.map((one) => findingData(one, places.after)),
      gone: findings.gone.map(({ finding, because }) => ({
        ...findingData(finding, places.before),
        because,
      })),
      kept: findings.kept.map((match) => ({
        ...findingData(match.after, places.after),
        trend: match.trend,
        levelBefore: match.before.level,
        figures: match.figures,
        words: trendWords(match),
      })),
      newlyNotChecked: findings.newlyNotChecked.map(({ rule, subject, needs }) => ({ rule, subject, needs })),
      nowChecked: findings.nowChecked.map(({ rule, subject, needs }) => ({ rule, subject, needs })),
    },
    rework: changes.rework.map(({ harness, title, steps }) => ({
      harness,
      title,
      steps: steps.map(({ text }) => text),
    })),
  }
}
