import { existsSync } from 'node:fs'
import { relative, resolve, sep } from 'node:path'
import type { SubjectChange } from '../compare/changes.ts'
import { compare } from '../compare/compare.ts'
import { placedHarnesses, type Revision } from '../compare/revision.ts'
import { subjectHeading, subjectSentences } from '../compare/sentences.ts'
import {
  type CommitInfo,
  commitFiles,
  commitsOf,
  findRepository,
  type Repository,
} from '../read/git-revision.ts'
import type { Trust } from '../read/trust.ts'
import { resolveShop } from '../resolve/resolve.ts'
import type { HistoryEntry } from '../wiki/site-input.ts'
import type { Io } from './io.ts'
import { describe, type Judged } from './pipeline.ts'
import { Unreadable } from './unreadable.ts'

const NOTHING_FOUND: Revision['result'] = {
  findings: [],
  notChecked: [],
  waived: [],
  heldBack: [],
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

/** The shop as it was at a commit, without its findings; undefined where it cannot be read today. */
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
    const { shop } = await describe(inputs, { ...io, cwd: files.folder }, trust)
    return { shop, looms: resolveShop(shop).looms.map((loom) => ({ loom })), result: NOTHING_FOUND }
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
): Promise<ReadonlyMap<string, readonly HistoryEntry[]> | undefined> {
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
  const present: Revision = { shop: judged.shop, looms: judged.looms, result: NOTHING_FOUND }
  // Present names, by the name a harness has in the revision looked at.
  let names = new Map([...placedHarnesses(present).keys()].map((id) => [id, id]))
  let after = present
  let by: Omit<HistoryEntry, 'changes'> = { commit: '', date: '', by: '', message: 'Not committed yet' }
  const steps: (CommitInfo | undefined)[] = commits.length > most ? commits : [...commits, undefined]
  for (const [i, step] of steps.entries()) {
    io.progress.say(`history ${i + 1} of ${steps.length}`)
    const before = step ? await revisionAt(repository, step, paths, trust, io) : BEFORE_ALL
    if (!before) continue
    const older = new Map(names)
    for (const subject of compare(before, after).subjects) {
      const now = subject.of === 'harness' ? names.get(subject.id) : undefined
      if (now === undefined) continue
      history.set(now, [...(history.get(now) ?? []), { ...by, changes: sentencesOf(subject) }])
      if (subject.was !== undefined) older.set(subject.was, now)
      if (subject.was !== undefined || subject.change === 'added') older.delete(subject.id)
    }
    names = older
    after = before
    if (step)
      by = { commit: step.commit.slice(0, 10), date: step.date, by: step.author, message: step.subject }
  }
  return history
}
