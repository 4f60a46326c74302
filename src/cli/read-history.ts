import { existsSync } from 'node:fs'
import { relative, resolve, sep } from 'node:path'
import type { Finding } from '../base/finding.ts'
import { broughtFindings, type SubjectChange } from '../compare/changes.ts'
import { compare } from '../compare/compare.ts'
import { findingsByHarness } from '../compare/findings-by-harness.ts'
import { placedHarnesses, type Revision } from '../compare/revision.ts'
import { findingLine, goneWords, subjectHeading, subjectSentences } from '../compare/sentences.ts'
import {
  type CommitInfo,
  commitFiles,
  commitsOf,
  findRepository,
  type Repository,
} from '../read/git-revision.ts'
import type { Trust } from '../read/trust.ts'
import { matchCodeOf } from '../sheets/match-code.ts'
import type { Sheet } from '../sheets/sheet.ts'
import { changeSheets, issuedCodes } from '../wiki/change-sheets.ts'
import type { HistoryEntry } from '../wiki/site-input.ts'
import type { Io } from './io.ts'
import { type Judged, judge } from './pipeline.ts'
import { Unreadable } from './unreadable.ts'

const NOTHING_FOUND: Revision['result'] = {
  findings: [],
  notChecked: [],
  waived: [],
  heldBack: [],
  questions: [],
  rulesRun: [],
}
const NO_SHOP: Revision['shop'] = {
  parts: [],
  equipment: [],
  harnesses: [],
  installations: [],
  policy: undefined,
  procedures: [],
}
const BEFORE_ALL: Revision = { shop: NO_SHOP, looms: [], result: NOTHING_FOUND }

/** The shop as it was at a commit; undefined where it cannot be read today. */
async function revisionAt(
  repository: Repository,
  { commit }: CommitInfo,
  paths: readonly string[],
  trust: Trust,
  io: Io,
): Promise<Revision | undefined> {
  const files = await commitFiles(repository, commit)
  try {
    const inputs = paths.map((path) => resolve(files.folder, path)).filter((path) => existsSync(path))
    if (inputs.length === 0) return BEFORE_ALL
    const { shop, looms, result } = await judge(inputs, { ...io, cwd: files.folder }, trust)
    return { shop, looms, result }
  } catch (error) {
    if (error instanceof Unreadable) return undefined
    throw error
  } finally {
    await files.dispose()
  }
}

function sentencesOf(subject: SubjectChange): string[] {
  const told = subjectSentences(subject)
  return subject.change === 'altered' && subject.was === undefined
    ? told
    : [`${subjectHeading(subject)}.`, ...told]
}

type Commit = Omit<HistoryEntry, 'changes' | 'brought' | 'gone'>

/** Findings as lines, by the present names of the harnesses they are on. */
function linesBy(
  findings: ReadonlyMap<string, readonly Finding[]>,
  names: ReadonlyMap<string, string>,
  line: (finding: Finding) => string,
): Map<string, string[]> {
  return new Map(
    [...findings].flatMap(([id, list]) => {
      const now = names.get(id)
      return now === undefined ? [] : [[now, list.map(line)] as const]
    }),
  )
}

/** What git tells of a shop. */
export interface PastOfShop {
  readonly history: ReadonlyMap<string, readonly HistoryEntry[]>
  /** From the last issue of each harness to what it is now. */
  readonly changeSheets: ReadonlyMap<string, Sheet>
}

/** Looks for the last other issue of each harness, going back commit by commit; one comparison a state that has some. */
class LastIssues {
  readonly sheets = new Map<string, Sheet>()
  readonly #present: Revision
  readonly #codes: ReadonlyMap<string, string>

  constructor(present: Revision) {
    this.#present = present
    this.#codes = new Map(
      [...placedHarnesses(present).values()].map(({ harness, loom, use }) => [
        harness.id,
        matchCodeOf(loom, use),
      ]),
    )
  }

  /** `names` leads from names of that state to present ones. */
  look(revision: Revision, name: string, names: ReadonlyMap<string, string>): void {
    const found = new Set<string>()
    for (const [id, code] of issuedCodes(revision)) {
      const now = names.get(id)
      if (now !== undefined && !this.sheets.has(now) && this.#codes.get(now) !== code) found.add(now)
    }
    if (found.size === 0) return
    const sheets = changeSheets({ revision, name }, this.#present, (id) => found.has(id))
    for (const [id, sheet] of sheets) this.sheets.set(id, sheet)
  }
}

/**
 * What the last commits changed in each harness of the shop, newest first, by its present name. Empty outside a git repository.
 * A commit whose descriptions cannot be read today is passed over; the next readable one tells of both.
 */
export async function readHistory(
  judged: Judged,
  inputs: readonly string[],
  most: number,
  trust: Trust,
  io: Io,
): Promise<PastOfShop | undefined> {
  const repository = await findRepository(io.cwd)
  if (!repository) return undefined
  const paths = (inputs.length > 0 ? inputs : ['.']).map((input) =>
    relative(repository.top, resolve(io.cwd, input)).split(sep).join('/'),
  )
  if (paths.some((path) => path.startsWith('..'))) return undefined
  const commits = await commitsOf(
    repository,
    paths.map((path) => path || '.'),
    most + 1,
  )
  const history = new Map<string, HistoryEntry[]>()
  const present: Revision = { shop: judged.shop, looms: judged.looms, result: judged.result }
  const issues = new LastIssues(present)
  // Present names, by the name a harness has in the revision looked at.
  let names = new Map([...placedHarnesses(present).keys()].map((id) => [id, id]))
  let after = present
  let by: Commit = { commit: '', date: '', by: '', message: 'Not committed yet' }
  const steps: (CommitInfo | undefined)[] = commits.length > most ? commits : [...commits, undefined]
  for (const [i, step] of steps.entries()) {
    io.progress.say(`history ${i + 1} of ${steps.length}`)
    const before = step ? await revisionAt(repository, step, paths, trust, io) : BEFORE_ALL
    if (!before) continue
    const older = new Map(names)
    const changes = compare(before, after)
    const told = new Map<string, readonly string[]>()
    for (const subject of changes.subjects) {
      const now = subject.of === 'harness' ? names.get(subject.id) : undefined
      if (now === undefined) continue
      told.set(now, sentencesOf(subject))
      if (subject.was !== undefined) older.set(subject.was, now)
      if (subject.was !== undefined || subject.change === 'added') older.delete(subject.id)
    }
    const brought = linesBy(findingsByHarness(after, broughtFindings(changes)), names, findingLine)
    const why = new Map(changes.findings.gone.map(({ finding, because }) => [finding, goneWords(because)]))
    const gone = linesBy(
      findingsByHarness(before, [...why.keys()]),
      older,
      (one) => `${findingLine(one)}: ${why.get(one)}`,
    )
    for (const id of new Set([...told.keys(), ...brought.keys(), ...gone.keys()]))
      history.set(id, [
        ...(history.get(id) ?? []),
        { ...by, changes: told.get(id) ?? [], brought: brought.get(id) ?? [], gone: gone.get(id) ?? [] },
      ])
    names = older
    after = before
    if (step) issues.look(before, `commit ${step.commit.slice(0, 10)} of ${step.date}`, names)
    if (step)
      by = { commit: step.commit.slice(0, 10), date: step.date, by: step.author, message: step.subject }
  }
  return { history, changeSheets: issues.sheets }
}
