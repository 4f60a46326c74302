import type { Finding } from '../base/finding.ts'
import { below } from '../base/place.ts'
import { type AsBuilt, asBuiltGaps } from '../describe/as-built.ts'
import type { Readings } from '../describe/readings.ts'
import type { Sourced } from '../describe/shop.ts'
import type { ShopRecords } from '../describe/shop-records.ts'
import type { Loom } from '../resolve/loom.ts'
import { asBuiltAgainst } from '../sheets/as-built-against.ts'
import { benchSteps } from '../sheets/bench-steps.ts'
import { matchCodeOf } from '../sheets/match-code.ts'
import type { Solution } from '../solve/solution.ts'
import type { AssetRecord, FittedLoom, Issue } from './asset-record.ts'
import { type Judged, judge } from './judge.ts'
import type { Limits } from './limit.ts'
import { limitsOf } from './limits-of.ts'
import { readReading } from './read-reading.ts'
import {
  asBuiltFinding,
  outsideFinding,
  placeFinding,
  staleFinding,
  unknownLimit,
  unusableFinding,
} from './record-findings.ts'
import { ringOutAnswer } from './ring-out-answer.ts'
import { laterRevisions, standingOf } from './standing.ts'

interface SolvedLoom {
  readonly loom: Loom
  readonly solution: Solution
}

/** Every visit to every asset, judged against the description as it is now. */
export interface JudgedRecords {
  readonly assets: readonly AssetRecord[]
  readonly findings: readonly Finding[]
}

interface Bench {
  readonly asBuilt: readonly Sourced<AsBuilt>[]
  readonly matches: ReadonlyMap<string, string>
  /** What stands between a record and a loom that may be used. */
  readonly gaps: (record: AsBuilt) => string[]
}

/** Judges what was measured. Verdicts that a file carries are not believed; each is worked out from its reading. */
export function judgeRecords(records: ShopRecords, solved: readonly SolvedLoom[]): JudgedRecords {
  const jobs = solved.filter(({ loom }) => loom.kind === 'installation')
  const byId = new Map(jobs.map((job) => [job.loom.id, job]))
  const limits = new Map<Loom, Limits>()
  const findings: Finding[] = []
  const matches = harnessMatches(solved)
  const gaps = (record: AsBuilt) => [...asBuiltGaps(record), ...bentSteps(record, solved, matches)]
  const bench: Bench = { asBuilt: records.asBuilt, matches, gaps }
  const assets = records.readings.flatMap((one): AssetRecord[] => {
    const { installation, asset } = one.value
    const job = byId.get(installation)
    if (!job) {
      findings.push(
        placeFinding(asset, 'installation', installation, [...byId.keys()], below(one.at, 'installation')),
      )
      return []
    }
    const known = limits.get(job.loom) ?? limitsOf(job.loom, job.solution)
    limits.set(job.loom, known)
    return [judgeOne(one, job.loom, known, bench, superseded(one, records.readings), findings)]
  })
  for (const record of assets) if (!record.superseded) findings.push(...findingsOf(record))
  findings.push(...benchFindings(bench))
  return { assets, findings }
}

/** Match code of each harness where it is used first, as its own papers print it. */
function harnessMatches(solved: readonly SolvedLoom[]): ReadonlyMap<string, string> {
  const matches = new Map<string, string>()
  for (const { loom } of solved)
    for (const use of loom.looms)
      if (!matches.has(use.harness.id)) matches.set(use.harness.id, matchCodeOf(loom, use))
  return matches
}

/** What a record of the present issue says otherwise than the steps of its harness; of another issue nothing can be said. */
function bentSteps(
  record: AsBuilt,
  solved: readonly SolvedLoom[],
  matches: ReadonlyMap<string, string>,
): string[] {
  if (matches.get(record.harness) !== record.match) return []
  for (const { loom, solution } of solved) {
    const use = loom.looms.find(({ harness }) => harness.id === record.harness)
    if (use) return asBuiltAgainst(record, benchSteps(loom, use, solution))
  }
  return []
}

/** The latest record of an asset counts; of one day the one read last. */
function superseded(one: Sourced<Readings>, all: readonly Sourced<Readings>[]): boolean {
  const same = all.filter(
    ({ value }) => value.asset === one.value.asset && value.installation === one.value.installation,
  )
  const last = same.reduce((latest, next) => (next.value.date >= latest.value.date ? next : latest), one)
  return last !== one
}

function judgeOne(
  { value, at }: Sourced<Readings>,
  loom: Loom,
  limits: Limits,
  bench: Bench,
  isSuperseded: boolean,
  findings: Finding[],
): AssetRecord {
  const looms = fittedLooms(value, loom, bench)
  for (const [index, { loom: name }] of (value.looms ?? []).entries())
    if (!loom.looms.some(({ id }) => id === name))
      findings.push(
        placeFinding(
          value.asset,
          'loom',
          name,
          loom.looms.map(({ id }) => id),
          below(at, 'looms', index, 'loom'),
        ),
      )
  for (const [index, { unit }] of (value.equipment ?? []).entries())
    if (!loom.units.some(({ id }) => id === unit))
      findings.push(
        placeFinding(
          value.asset,
          'unit',
          unit,
          loom.units.map(({ id }) => id),
          below(at, 'equipment', index, 'unit'),
        ),
      )
  const lines = judgeLines({ value, at }, limits, looms, findings)
  const count = (wanted: Judged['verdict']) => lines.filter(({ verdict }) => verdict === wanted).length
  const fitted: Issue = { revision: value.revision, match: value.match }
  const now: Issue = { revision: loom.source.revision, match: matchCodeOf(loom) }
  return {
    readings: value,
    at,
    loom,
    limits,
    lines,
    counts: { pass: count('pass'), fail: count('fail'), notMeasured: count('not measured') },
    looms,
    fitted,
    now,
    standing: standingOf(fitted, now),
    superseded: isSuperseded,
  }
}

/** Every loom of the installation, whether or not the record tells of it, and those it tells of that are not there. */
function fittedLooms(value: Readings, loom: Loom, { asBuilt, matches, gaps }: Bench): FittedLoom[] {
  const told = new Map((value.looms ?? []).map((one) => [one.loom, one]))
  return loom.looms.map((use): FittedLoom => {
    const one = told.get(use.id)
    const serial = one?.serial?.trim() ?? ''
    const record = asBuilt
      .filter(({ value: built }) => built.harness === use.harness.id && built.serial.trim() === serial)
      .at(-1)?.value
    const fitted: Issue = {
      revision: one?.revision ?? record?.revision,
      match: one?.match ?? record?.match,
    }
    // Papers of a harness carry the code of the job it is used in first; either will do.
    const own = matchCodeOf(loom, use)
    const match = fitted.match === matches.get(use.harness.id) ? fitted.match : own
    const now: Issue = { revision: use.harness.revision, match: match ?? own }
    return {
      id: use.id,
      use,
      serial,
      fitted,
      now,
      standing: standingOf(fitted, now),
      later: laterRevisions(use.harness, fitted.revision),
      asBuilt: record,
      gaps: record ? gaps(record) : [],
    }
  })
}

/** A line for each limit, in its order. */
function judgeLines(
  { value, at }: Sourced<Readings>,
  { limits }: Limits,
  looms: readonly FittedLoom[],
  findings: Finding[],
): Judged[] {
  const ids = limits.map(({ id }) => id)
  const byLimit = new Map(limits.map((limit) => [limit.id, limit]))
  const read = new Map<string, Judged>()
  for (const [index, { limit: id, reading, note }] of (value.values ?? []).entries()) {
    const limit = byLimit.get(id)
    const place = below(at, 'values', index, limit ? 'reading' : 'limit')
    if (!limit) {
      findings.push(unknownLimit(value.asset, id, ids, place))
      continue
    }
    if (reading.trim() === '') continue
    const result = readReading(reading, limit)
    if (!result.ok) findings.push(unusableFinding(value.asset, id, result.problem, place))
    else if (read.has(id))
      findings.push(
        unusableFinding(value.asset, id, 'it is written twice; keep the reading that counts', place),
      )
    else
      read.set(id, { limit, reading, ...judge(limit, result.value), ...(note === undefined ? {} : { note }) })
  }
  return limits.map((limit) => {
    const one = looms.find(({ id }) => limit.id === `${id}/ring-out`)
    if (one?.asBuilt && limit.kind === 'look') return ringOutAnswer(limit, one.asBuilt, one.gaps)
    return read.get(limit.id) ?? { limit, reading: '', verdict: 'not measured' }
  })
}

function findingsOf(record: AssetRecord): Finding[] {
  const { readings, lines, looms, at } = record
  const outside = lines
    .filter(({ verdict }) => verdict === 'fail')
    .map((line) => {
      const index = (readings.values ?? []).findIndex(({ limit }) => limit === line.limit.id)
      return outsideFinding(record, line, index)
    })
  const stale = looms
    .filter(({ standing }) => standing === 'older' || standing === 'changed')
    .map((one) => {
      const index = (readings.looms ?? []).findIndex(({ loom }) => loom === one.id)
      const later = one.later.map(({ revision, what }) => `${revision}: ${what}`)
      return staleFinding(record, `loom ${one.id}`, one.fitted, one.now, below(at, 'looms', index), later)
    })
  const own =
    stale.length === 0 && (record.standing === 'older' || record.standing === 'changed')
      ? [
          staleFinding(
            record,
            `installation ${readings.installation}`,
            record.fitted,
            record.now,
            below(at, readings.match === undefined ? 'revision' : 'match'),
            [],
          ),
        ]
      : []
  return [...outside, ...stale, ...own]
}

/** Bench records of looms nobody may use yet, and of harnesses that are not described. */
function benchFindings({ asBuilt, matches, gaps: gapsOf }: Bench): Finding[] {
  const last = new Map(asBuilt.map((one) => [`${one.value.harness}\n${one.value.serial}`, one]))
  return [...last.values()].flatMap(({ value, at }) => {
    if (!matches.has(value.harness))
      return [
        placeFinding(
          `loom ${value.serial}`,
          'harness',
          value.harness,
          [...matches.keys()],
          below(at, 'harness'),
        ),
      ]
    const gaps = gapsOf(value)
    return gaps.length > 0 ? [asBuiltFinding(value.serial, value.harness, gaps, at)] : []
  })
}
