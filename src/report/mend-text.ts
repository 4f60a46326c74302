import { escapeTerminal } from '../base/escape.ts'
import type { Finding } from '../base/finding.ts'
import type { Place, Pointer } from '../base/place.ts'
import { showPlace } from '../base/place.ts'
import type { Mended, Unmended } from '../check/mends/plan-mends.ts'
import { LEVEL_WORD } from './check-report.ts'
import { countOf, hang } from './text-layout.ts'

/** What mending came to, for people. */
export interface MendReport {
  /** Done in JSON files; or what would be done. */
  readonly applied: readonly Mended[]
  /** In the patch for TypeScript. */
  readonly patched: readonly Mended[]
  readonly inWords: readonly Mended[]
  readonly unmended: readonly Unmended[]
  /** Findings that are no longer there, and ones that came; undefined when nothing was written. */
  readonly result?: { readonly gone: readonly Finding[]; readonly come: readonly Finding[] }
  readonly isDry: boolean
}

export interface MendTextOptions {
  readonly width: number
  readonly locate: (pointer: Pointer) => Place
  /** What stands at a place of a description now, for the reader to recognise. */
  readonly oldValue: (pointer: Pointer) => unknown
}

const shown = (value: unknown): string => (value === undefined ? 'nothing' : JSON.stringify(value))

function fault(finding: Finding, width: number): string[] {
  const { level, rule, subject, what } = finding
  return hang('  - ', escapeTerminal(`${LEVEL_WORD[level]} ${rule} · ${subject}: ${what}`), width)
}

function cure(mended: Mended, options: MendTextOptions): string[] {
  return [
    ...hang('    ', escapeTerminal(`${mended.edit.what}.`), options.width),
    ...mended.edit.changes.flatMap(({ at, value }) => {
      const change = `${at.path.at(-1)}: ${shown(options.oldValue(at))} becomes ${shown(value)}`
      return hang('    ', escapeTerminal(`${showPlace(options.locate(at))} · ${change}`), options.width)
    }),
  ]
}

function section(title: string, mends: readonly Mended[], options: MendTextOptions): string[] {
  if (mends.length === 0) return []
  return [
    `${title} (${mends.length}):`,
    ...mends.flatMap((mended) => [...fault(mended, options.width), ...cure(mended, options)]),
    '',
  ]
}

function left(unmended: readonly Unmended[], width: number): string[] {
  if (unmended.length === 0) return []
  return [
    `Left alone, since the nearest cure is not certain (${unmended.length}):`,
    ...unmended.flatMap(({ finding, why }) => [
      ...fault(finding, width),
      ...hang('    ', escapeTerminal(`${why}.`), width),
    ]),
    '',
  ]
}

function outcome({ result, applied, isDry }: MendReport, width: number): string[] {
  if (isDry) return ['Nothing was written.', '']
  if (!result || applied.length === 0) return ['No file was changed.', '']
  const come =
    result.come.length === 0 ? 'nothing new came' : `${countOf(result.come.length, 'finding')} came, below`
  return [...hang('', `Checked again: ${countOf(result.gone.length, 'finding')} gone, ${come}.`, width), '']
}

/** What was mended, what is for a person to do, and what was left alone. No line of it can be taken for a line of a patch. */
export function printMends(report: MendReport, options: MendTextOptions): string {
  const { isDry } = report
  const none = report.applied.length + report.patched.length + report.inWords.length === 0
  return [
    ...(none ? ['There is nothing to mend for certain.', ''] : []),
    ...section(isDry ? 'Certain, in JSON' : 'Mended', report.applied, options),
    ...section('Certain, in TypeScript: the patch below makes the changes', report.patched, options),
    ...section(
      'Certain, but not written out at a place of its own: to be changed by hand',
      report.inWords,
      options,
    ),
    ...left(report.unmended, options.width),
    ...outcome(report, options.width),
  ].join('\n')
}
