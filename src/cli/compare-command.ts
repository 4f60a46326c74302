import { bringsStop, broughtFindings, type Changes } from '../compare/changes.ts'
import { compare } from '../compare/compare.ts'
import { type Args, CLEAN, type Runner, STOPS_FOUND } from './command.ts'
import { type ReadSide, withBothSides } from './compare-sides.ts'
import type { Io } from './io.ts'
import { packageVersion } from './package-file.ts'
import { trustOf } from './trust-of.ts'
import { writeResult } from './write-result.ts'

async function print(
  changes: Changes,
  before: ReadSide,
  after: ReadSide,
  args: Args,
  io: Io,
): Promise<string> {
  const places = { before: before.locate, after: after.locate }
  const names = { before: before.name, after: after.name, places }
  const findingsOnly = args.flag('baseline')
  switch (args.text('format') ?? 'text') {
    case 'markdown':
      return (await import('../compare/changes-markdown.ts')).changesMarkdown(changes, {
        ...names,
        findingsOnly,
      })
    case 'json': {
      const { changesData } = await import('../compare/changes-data.ts')
      const { printJsonText } = await import('../report/json.ts')
      return printJsonText(changesData(changes, places, packageVersion()))
    }
    case 'sarif':
      return (await import('./compare-sarif.ts')).printComparedSarif(changes, before, after)
    case 'annotations': {
      const { onChangedLine } = await import('./changed-line.ts')
      const { printAnnotations } = await import('../report/annotations.ts')
      const things = changes.subjects.flatMap((subject) => subject.things)
      const brought = broughtFindings(changes).map((finding) => onChangedLine(finding, things))
      return printAnnotations(brought, after.locate)
    }
    case 'rework': {
      const { changeSheets } = await import('../wiki/change-sheets.ts')
      const { toMarkdown } = await import('../sheets/markdown.ts')
      const sheets = changeSheets({ name: before.name, revision: before.revision }, after.revision)
      const text = [...sheets.values()].map(toMarkdown).join('\n')
      return text === '' ? 'No harness that both sides have was changed.\n' : text
    }
    case 'html':
      return (await import('./compare-html.ts')).comparePage(changes, before, after, io)
    default: {
      const { printChanges } = await import('./print-changes.ts')
      const colour = io.colour && args.text('output') === undefined
      return printChanges(changes, { ...names, findingsOnly, width: io.width, colour })
    }
  }
}

/** `compare OLD NEW` or `compare A..B`: what changed in meaning, and by the exit status whether a stop is new. */
export const runCompare: Runner = (args, io) =>
  withBothSides(
    args.positionals,
    { within: args.text('in'), trust: trustOf(args), runCode: args.flag('run-code') },
    io,
    async (before, after) => {
      io.progress.say('comparing')
      const changes = compare(before.revision, after.revision)
      const text = await print(changes, before, after, args, io)
      io.progress.done()
      await writeResult(text, args.text('output'), io, [...before.inputs, ...after.inputs])
      return bringsStop(changes) ? STOPS_FOUND : CLEAN
    },
  )
