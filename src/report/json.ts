import {
  type Edit,
  type EditValue,
  type Finding,
  identity,
  type Level,
  type NotChecked,
} from '../base/finding.ts'
import type { Locate, Place, Pointer } from '../base/place.ts'
import type { AnswerState } from '../check/ask.ts'
import type { PutQuestion } from '../check/check.ts'
import { factsCode, type Waived } from '../check/waivers.ts'
import { type CheckReport, foundIn, openQuestions, type WhatIfReport } from './check-report.ts'

/** Version of the shape below; it changes only when a field is taken away or changes meaning. */
export const REPORT_VERSION = 1

/** Where a finding is: for people as file, line and column, for programs as the path inside the document. */
export interface JsonPlace extends Place {
  readonly path: readonly (string | number)[]
}

export interface JsonFinding {
  /** Rule and address together; stays the same when lines move. */
  readonly identity: string
  readonly rule: string
  readonly level: Level
  readonly subject: string
  readonly what: string
  readonly why: string
  readonly fix: string
  readonly assumed: readonly string[]
  readonly facts: Finding['facts']
  /** Match code of the facts, for the `facts` of a waiver: the waiver ends when a figure changes. */
  readonly factsCode: string
  readonly at: JsonPlace
  readonly notes: readonly { readonly text: string; readonly at?: JsonPlace }[]
  readonly cause?: string
  readonly marks: readonly string[]
  /** A cure without a choice, where mends were asked for: each value with the document and path it goes to. */
  readonly edit?: {
    readonly what: string
    readonly changes: readonly { readonly doc: string; readonly at: JsonPlace; readonly value: EditValue }[]
  }
}

export interface JsonQuestion {
  readonly question: string
  readonly subject: string
  readonly text: string
  readonly why: string
  readonly state: AnswerState
  /** What an answer lacks, or how it is bad. */
  readonly remark?: string
  readonly answer?: {
    readonly answer: string
    readonly by: string
    readonly date: string
    readonly distanceMm?: number
    readonly note?: string
  }
  readonly at: JsonPlace
}

/**
 * A check as data. Lists are never left out, so a reader needs no test for them; `findings` are in the order of the
 * check, worst first. Lengths, volts and so on are in `facts` with their unit and never only inside a sentence.
 */
export interface JsonReport {
  readonly report: typeof REPORT_VERSION
  readonly tool: { readonly name: 'loomwright'; readonly version: string }
  /** Everything found, also what a chosen level leaves out of `findings`. */
  readonly counts: Readonly<Record<Level | 'waived' | 'notChecked' | 'openQuestions', number>>
  readonly findings: readonly JsonFinding[]
  readonly waived: readonly (JsonFinding & {
    readonly accepted: { readonly by: string; readonly date: string; readonly reason: string }
  })[]
  /** Everything a person is asked; one that is open is no pass. */
  readonly questions: readonly JsonQuestion[]
  /** What the simulations came to; only where they were asked for. */
  readonly whatIf?: readonly WhatIfReport[]
  readonly notChecked: readonly (Omit<NotChecked, 'at'> & { readonly at?: JsonPlace })[]
}

const placed = (at: Pointer, locate: Locate): JsonPlace => ({ ...locate(at), path: at.path })

const jsonEdit = ({ what, changes }: Edit, locate: Locate): NonNullable<JsonFinding['edit']> => ({
  what,
  changes: changes.map(({ at, value }) => ({ doc: at.doc, at: placed(at, locate), value })),
})

function jsonFinding(finding: Finding, locate: Locate): JsonFinding {
  const { rule, level, subject, what, why, fix, assumed, facts, cause, marks, edit } = finding
  return {
    identity: identity(finding),
    rule,
    level,
    subject,
    what,
    why,
    fix,
    assumed,
    facts,
    factsCode: factsCode(finding),
    at: placed(finding.at, locate),
    notes: finding.notes.map(({ text, at }) => ({ text, ...(at ? { at: placed(at, locate) } : {}) })),
    ...(cause === undefined ? {} : { cause }),
    marks,
    ...(edit ? { edit: jsonEdit(edit, locate) } : {}),
  }
}

function jsonAccepted({ finding, waiver }: Waived, locate: Locate): JsonReport['waived'][number] {
  const { by, date, reason } = waiver
  return { ...jsonFinding(finding, locate), accepted: { by, date, reason } }
}

function jsonQuestion(put: PutQuestion, locate: Locate): JsonQuestion {
  const { question, subject, asking, state, remark, answer } = put
  return {
    question: question.id,
    subject,
    text: asking.text,
    why: asking.why,
    state,
    ...(remark === undefined ? {} : { remark }),
    ...(answer === undefined
      ? {}
      : {
          answer: {
            answer: answer.answer,
            by: answer.by,
            date: answer.date,
            ...(answer.distance === undefined ? {} : { distanceMm: answer.distance }),
            ...(answer.note === undefined ? {} : { note: answer.note }),
          },
        }),
    at: placed(asking.at, locate),
  }
}

/** The report as plain data in the shape of {@link JsonReport}. */
export function reportData(report: CheckReport, locate: Locate, toolVersion: string): JsonReport {
  return {
    report: REPORT_VERSION,
    tool: { name: 'loomwright', version: toolVersion },
    counts: {
      ...foundIn(report),
      waived: report.waived.length,
      notChecked: report.notChecked.length,
      openQuestions: openQuestions(report).length,
    },
    findings: report.findings.map((finding) => jsonFinding(finding, locate)),
    waived: report.waived.map((accepted) => jsonAccepted(accepted, locate)),
    questions: (report.questions ?? []).map((put) => jsonQuestion(put, locate)),
    ...(report.whatIf ? { whatIf: report.whatIf } : {}),
    notChecked: report.notChecked.map(({ rule, subject, needs, at }) => ({
      rule,
      subject,
      needs,
      ...(at ? { at: placed(at, locate) } : {}),
    })),
  }
}

/** Control characters that JSON.stringify leaves as they are, and marks that turn the reading direction. */
const RAW = /[\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/g

/** Indented JSON whose strings read back unchanged, yet which cannot steer a terminal it is printed on. */
export function printJsonText(value: unknown): string {
  const escaped = JSON.stringify(value, null, 2).replace(
    RAW,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )
  return `${escaped}\n`
}

/** The report as JSON text, in the shape of {@link JsonReport}. */
export function printJson(report: CheckReport, locate: Locate, toolVersion: string): string {
  return printJsonText(reportData(report, locate, toolVersion))
}
