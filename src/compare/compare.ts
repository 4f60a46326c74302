import type { Changes, Rework, SubjectChange } from './changes.ts'
import { compareFindings, type SubjectNames } from './compare-findings.ts'
import { compareHarness } from './compare-harness.ts'
import { compareInstallation } from './compare-installation.ts'
import { compareNets } from './compare-nets.ts'
import { compareProcedures } from './compare-procedures.ts'
import { compareEquipment, compareParts, subjects } from './compare-shop-lists.ts'
import { conductorsOf, throughRenames } from './match-harness.ts'
import { type MatchedHarness, type MatchedJob, matchRevisions } from './match-revisions.ts'
import { type PlacedHarness, placedHarnesses, type Revision } from './revision.ts'
import { reworkOf } from './rework.ts'
import { fieldChanges } from './thing-change.ts'

/** New names for the subjects of findings, which are `job/address`. */
function subjectNames(
  jobs: ReadonlyMap<string, MatchedJob>,
  harnesses: ReadonlyMap<string, MatchedHarness>,
): Omit<SubjectNames, 'nothingChanged'> {
  const split = (subject: string) => {
    const slash = subject.indexOf('/')
    return slash < 0
      ? { job: subject, rest: undefined }
      : { job: subject.slice(0, slash), rest: subject.slice(slash + 1) }
  }
  const within = (job: string, address: string): string => {
    const known = jobs.get(job)
    if (known) return known.match.address(address)
    const harness = harnesses.get(job)
    return harness ? throughRenames(harness.match.renamed, address) : address
  }
  const jobNow = (job: string) => jobs.get(job)?.after.id ?? harnesses.get(job)?.after.harness.id ?? job
  return {
    now: (subject) => {
      const { job, rest } = split(subject)
      return rest === undefined ? jobNow(job) : `${jobNow(job)}/${within(job, rest)}`
    },
    address: (subject, address) => within(split(subject).job, address),
    jobLeft: (subject) => {
      const { job, rest } = split(subject)
      return rest === undefined || jobs.has(job) || harnesses.has(job)
    },
  }
}

function policyChanges(before: Revision, after: Revision): SubjectChange[] {
  const [one, two] = [before.shop.policy, after.shop.policy]
  const waivers = (revision: Revision) =>
    Object.fromEntries(
      (revision.shop.policy?.value.waivers ?? []).map(({ rule, at, ...rest }) => [
        `waiver of ${rule} at ${at}`,
        rest.reason,
      ]),
    )
  const read = (revision: Revision) => ({
    ...revision.shop.policy?.value,
    waivers: undefined,
    ...waivers(revision),
  })
  const things = fieldChanges(read(before), read(after), [], two?.at)
  if (things.length === 0) return []
  const at = two?.at ?? one?.at
  return [
    {
      of: 'policy',
      change: 'altered',
      id: 'policy',
      title: 'Policy of the shop',
      things,
      ...(at ? { at } : {}),
    },
  ]
}

function countWires(placed: PlacedHarness | undefined): string {
  const count = placed ? conductorsOf(placed).length : 0
  return `${count} ${count === 1 ? 'conductor' : 'conductors'}`
}

/** Whether nothing is told of a subject but new names. */
const isOnlyNames = ({ change, things }: SubjectChange): boolean =>
  change === 'altered' &&
  things.every((thing) => thing.change === 'altered' && thing.moves.length === 0 && thing.values.length === 0)

/**
 * What tells two revisions of a shop apart, by meaning: formatting, order and comments make no difference, and what was only
 * renamed is known again by what lands on it and what it fits.
 */
export function compare(before: Revision, after: Revision): Changes {
  const { equipment, harnesses, installations, matched, jobs, names, fits } = matchRevisions(before, after)
  const rework: Rework[] = []
  const harnessSubjects = [...matched.values()].flatMap(({ before: one, after: two, match, source }) => {
    const subject = compareHarness(one, two, match, fits, source.at)
    const work = subject && reworkOf(subject, one, two, match)
    if (work) rework.push(work)
    return subject ? [subject] : []
  })
  const placed = { before: placedHarnesses(before), after: placedHarnesses(after) }
  const loneHarnesses = subjects(
    'harness',
    { ...harnesses, kept: [] },
    ({ id }) => countWires(placed.after.get(id) ?? placed.before.get(id)),
    () => [],
  )
  const installationSubjects = installations.kept.flatMap(([one, two]) => {
    const job = jobs.get(one.value.id)
    return (
      compareInstallation(one, two, [job?.before, job?.after], job?.match, names.equipment, names.harness) ??
      []
    )
  })
  const all = [
    ...harnessSubjects,
    ...loneHarnesses,
    ...installationSubjects,
    ...subjects(
      'installation',
      { ...installations, kept: [] },
      ({ title }) => title,
      () => [],
    ),
    ...compareEquipment(equipment),
    ...compareParts(before.shop.parts, after.shop.parts),
    ...policyChanges(before, after),
    ...compareProcedures(before.shop.procedures, after.shop.procedures),
  ]
  const nets = [...jobs.values()].flatMap((job) => compareNets(job.before, job.after, job.match))
  const nothingChanged = nets.length === 0 && all.every(isOnlyNames)
  const findings = compareFindings(before, after, { ...subjectNames(jobs, matched), nothingChanged })
  return { subjects: all, nets, findings, rework }
}
