import { sheetHead } from '../sheets/head.ts'
import { markdownText } from '../sheets/markdown-text.ts'
import type { SheetHead } from '../sheets/sheet.ts'
import { type AssetRecord, attentionOf } from './asset-record.ts'
import { ATTENTION_WORDS, issueWords, STANDING_WORDS, VERDICT_WORDS } from './attention-words.ts'
import { GROUPS, RECORD_LIMITS } from './groups.ts'
import { limitText, marginText } from './judge.ts'
import { GROUP_IDS } from './limit.ts'

/** The head of an asset's papers: the asset is their subject, its record their date, and the issue is the one it was fitted to. */
export function asFittedHead({ loom, readings, fitted }: AssetRecord): SheetHead {
  return {
    // The code of today’s papers would be false on an asset that was fitted to others.
    ...sheetHead(loom, undefined, 'As-fitted record', undefined, fitted.match ?? 'not stated'),
    subject: `${readings.asset}, ${loom.title}`,
    revision: fitted.revision,
    date: readings.date,
    state: 'as fitted',
    madeBy: readings.by,
    checkedBy: readings.checkedBy,
  }
}

const record = (cells: readonly string[]): string => `| ${cells.map(markdownText).join(' | ')} |`

function table(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return 'None.'
  return [record(headings), `| ${headings.map(() => '---').join(' | ')} |`, ...rows.map(record)].join('\n')
}

/** The as-fitted set of one asset as Markdown. */
export function asFittedMarkdown(asset: AssetRecord): string {
  const { readings, loom, looms, lines, counts, limits } = asset
  const told = new Map((readings.equipment ?? []).map((one) => [one.unit, one]))
  const blocks = [
    `# ${markdownText(`As-fitted record: ${readings.asset}`)}`,
    [
      `- Installation: ${markdownText(`${loom.title} (${loom.id}), ${issueWords(asset.fitted)}, ${STANDING_WORDS[asset.standing]}`)}`,
      `- Date: ${markdownText(readings.date)}`,
      `- Measured by: ${markdownText(readings.by ?? '________')}`,
      `- Checked by: ${markdownText(readings.checkedBy ?? '________')}`,
      `- Taken over by: ${markdownText(readings.customer ?? '________')}`,
      `- Odometer or hours: ${markdownText(readings.odometer ?? '________')}`,
      `- Test set: ${markdownText(readings.testSet ?? '________')}`,
      `- Paper kept at: ${markdownText(readings.kept ?? '________')}`,
      `- Attention: ${markdownText(ATTENTION_WORDS[attentionOf(asset)])}; ${counts.pass} pass, ${counts.fail} outside, ${counts.notMeasured} not measured`,
    ].join('\n'),
    '## Looms',
    table(
      ['Loom', 'Harness', 'Serial', 'Fitted', 'Now', 'Standing'],
      looms.map((one) => [
        one.id,
        one.use?.harness.title ?? '',
        one.serial,
        issueWords(one.fitted),
        issueWords(one.now),
        STANDING_WORDS[one.standing],
      ]),
    ),
    '## Equipment',
    table(
      ['Unit', 'What', 'Where', 'Serial', 'Firmware', 'Settings'],
      loom.units.map((unit) => {
        const one = told.get(unit.id)
        return [
          unit.id,
          unit.title,
          unit.zone ?? '',
          one?.serial ?? '',
          one?.firmware ?? '',
          one?.settings ?? '',
        ]
      }),
    ),
    '## Deviations from the drawing',
    table(
      ['Where', 'What', 'Why', 'Accepted by'],
      (readings.deviations ?? []).map(({ at, what, why, by }) => [at ?? '', what, why ?? '', by ?? '']),
    ),
    '## Open questions',
    (readings.open ?? []).map((text) => `- ${markdownText(text)}`).join('\n') || 'None.',
    '## Readings',
    ...GROUP_IDS.flatMap((group) => {
      const some = lines.filter(({ limit }) => limit.group === group)
      if (some.length === 0) return []
      return [
        `### ${markdownText(GROUPS[group].title)}`,
        table(
          ['Measure', 'Limit', 'Reading', 'Verdict', 'Margin', 'Note'],
          some.map((line) => [
            line.limit.what,
            limitText(line.limit),
            line.reading,
            VERDICT_WORDS[line.verdict],
            marginText(line),
            line.note ?? '',
          ]),
        ),
      ]
    }),
    ...(limits.missing.length > 0
      ? [
          '## Not worked out',
          limits.missing
            .map(({ what, needs }) => `- ${markdownText(`${what}: the description lacks ${needs}`)}`)
            .join('\n'),
        ]
      : []),
    markdownText(RECORD_LIMITS),
  ]
  return `${blocks.join('\n\n')}\n`
}
