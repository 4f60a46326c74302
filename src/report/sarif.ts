import { type Finding, identity, type Level, type NotChecked } from '../base/finding.ts'
import { hashCode } from '../base/hash.ts'
import type { Locate, Pointer } from '../base/place.ts'
import type { PutQuestion } from '../check/check.ts'
import type { Waived } from '../check/waivers.ts'
import { type CheckReport, openQuestions, type RuleInfo } from './check-report.ts'
import { printJsonText } from './json.ts'

export interface SarifOptions {
  readonly locate: Locate
  readonly toolVersion: string
  /** Every rule that was run, so that a viewer can explain a finding; findings of other ids get a bare entry. */
  readonly rules: readonly RuleInfo[]
}

type SarifLevel = 'error' | 'warning' | 'note' | 'none'
type SarifObject = { readonly [key: string]: unknown }

const SARIF_LEVEL: Readonly<Record<Level, SarifLevel>> = { stop: 'error', warning: 'warning', note: 'note' }
const SCHEMA = 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json'

/** A file name as the URI reference SARIF asks for: forward slashes, everything else percent-encoded. */
function uriOf(file: string): string {
  const slashed = file.replaceAll('\\', '/')
  const encoded = slashed.split('/').map(encodeSegment).join('/')
  if (/^[A-Za-z]:\//.test(slashed))
    return `file:///${slashed.slice(0, 2)}${encoded.slice(encoded.indexOf('/'))}`
  if (slashed.startsWith('/')) return `file://${encoded}`
  return encoded
}

const HALF_PAIR = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g

/** `encodeURIComponent` throws on half a surrogate pair, which a file name may hold. */
function encodeSegment(segment: string): string {
  return encodeURIComponent(segment.replace(HALF_PAIR, '\ufffd'))
}

function location(at: Pointer, locate: Locate, subject?: string, text?: string): SarifObject {
  const place = locate(at)
  return {
    physicalLocation: {
      artifactLocation: { uri: uriOf(place.file) },
      region: { startLine: Math.max(1, place.line), startColumn: Math.max(1, place.column) },
    },
    ...(subject === undefined ? {} : { logicalLocations: [{ fullyQualifiedName: subject }] }),
    ...(text === undefined ? {} : { message: { text } }),
  }
}

function sentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`
}

function messageOf(finding: Finding): string {
  const assumed = finding.assumed.length > 0 ? ` Assumed: ${sentence(finding.assumed.join('; '))}` : ''
  return `${finding.subject}: ${sentence(finding.what)} Why: ${sentence(finding.why)} Fix: ${sentence(finding.fix)}${assumed}`
}

function resultOf(finding: Finding, ruleIndex: number, locate: Locate): SarifObject {
  const related = finding.notes.flatMap((note) =>
    note.at ? [location(note.at, locate, undefined, note.text)] : [],
  )
  return {
    ruleId: finding.rule,
    ruleIndex,
    level: SARIF_LEVEL[finding.level],
    message: { text: messageOf(finding) },
    locations: [location(finding.at, locate, finding.subject)],
    ...(related.length > 0 ? { relatedLocations: related } : {}),
    // Viewers pair runs by this; it holds no line number, so moving a line is not a new finding.
    partialFingerprints: { 'ruleAndAddress/v1': hashCode(identity(finding), 10) },
    properties: { subject: finding.subject, facts: finding.facts, marks: finding.marks },
  }
}

function waivedResult({ finding, waiver }: Waived, ruleIndex: number, locate: Locate): SarifObject {
  const justification = `${sentence(waiver.reason)} Accepted by ${waiver.by}, ${waiver.date}.`
  return {
    ...resultOf(finding, ruleIndex, locate),
    suppressions: [{ kind: 'external', status: 'accepted', justification }],
  }
}

/** "Open" is SARIF's word for a rule that lacked information to decide; its level must then be none. */
function openResult(missing: NotChecked, ruleIndex: number, locate: Locate): SarifObject {
  return {
    ruleId: missing.rule,
    ruleIndex,
    kind: 'open',
    level: 'none' satisfies SarifLevel,
    message: { text: `${missing.subject}: not checked: ${sentence(missing.needs)}` },
    ...(missing.at ? { locations: [location(missing.at, locate, missing.subject)] } : {}),
    partialFingerprints: {
      'ruleAndAddress/v1': hashCode(`${missing.rule} ${missing.subject} ${missing.needs}`, 10),
    },
  }
}

/** "Review" is SARIF's word for a result that a person has to look at; its level must then be none. */
function reviewResult(
  { question, subject, asking }: PutQuestion,
  ruleIndex: number,
  locate: Locate,
): SarifObject {
  return {
    ruleId: question.id,
    ruleIndex,
    kind: 'review',
    level: 'none' satisfies SarifLevel,
    message: { text: `${subject}: ${asking.text} ${asking.why}` },
    locations: [location(asking.at, locate, subject)],
    partialFingerprints: { 'ruleAndAddress/v1': hashCode(`${question.id} ${subject} open`, 10) },
  }
}

function descriptor(rule: RuleInfo): SarifObject {
  return {
    id: rule.id,
    shortDescription: { text: rule.title },
    fullDescription: { text: rule.reason },
    help: {
      text: `${rule.reason} Usual cure: ${sentence(rule.remedy)} Sources: ${sentence(rule.sources.join('; '))}`,
    },
    defaultConfiguration: { level: SARIF_LEVEL[rule.level] },
  }
}

/** Every rule once, in the order given, then ids that only findings name. */
function descriptors(report: CheckReport, rules: readonly RuleInfo[]): Map<string, SarifObject> {
  const table = new Map(rules.map((rule) => [rule.id, descriptor(rule)]))
  const named = [
    ...report.findings,
    ...report.waived.map(({ finding }) => finding),
    ...report.notChecked,
    ...openQuestions(report).map(({ question }) => ({ rule: question.id })),
  ].map(({ rule }) => rule)
  for (const id of named) if (!table.has(id)) table.set(id, { id })
  return table
}

/** The report as a SARIF 2.1.0 log with one run (OASIS Standard, Static Analysis Results Interchange Format 2.1.0). */
export function sarifLog(report: CheckReport, options: SarifOptions): SarifObject {
  const { locate } = options
  const table = descriptors(report, options.rules)
  const index = new Map([...table.keys()].map((id, at) => [id, at]))
  const indexOf = (id: string): number => index.get(id) ?? -1
  return {
    $schema: SCHEMA,
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: { name: 'loomwright', semanticVersion: options.toolVersion, rules: [...table.values()] },
        },
        columnKind: 'utf16CodeUnits',
        invocations: [{ executionSuccessful: true }],
        results: [
          ...report.findings.map((finding) => resultOf(finding, indexOf(finding.rule), locate)),
          ...report.waived.map((one) => waivedResult(one, indexOf(one.finding.rule), locate)),
          ...report.notChecked.map((missing) => openResult(missing, indexOf(missing.rule), locate)),
          ...openQuestions(report).map((put) => reviewResult(put, indexOf(put.question.id), locate)),
        ],
      },
    ],
  }
}

/** The report as SARIF 2.1.0 text. */
export function printSarif(report: CheckReport, options: SarifOptions): string {
  return printJsonText(sarifLog(report, options))
}
