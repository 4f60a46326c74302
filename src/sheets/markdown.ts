import { headLines } from './head.ts'
import { markdownText } from './markdown-text.ts'
import { cellOf, columnTitle, type Section, type Sheet } from './sheet.ts'

/** A paper as GitHub-flavoured Markdown: readable as it stands, and nothing typed by a user is markup in it. */
export function toMarkdown(sheet: Sheet): string {
  const head = headLines(sheet.head).map(([name, value]) => `- ${name}: ${markdownText(value ?? '________')}`)
  const blocks = [
    `# ${markdownText(`${sheet.title}: ${sheet.head.subject}`)}`,
    head.join('\n'),
    markdownText(sheet.use),
    ...sheet.sections.flatMap((section) => sectionBlocks(sheet, section)),
    list(sheet.foot),
    sheet.fields.map((field) => `${markdownText(field)}: ________`).join('  \n'),
  ]
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`
}

const list = (lines: readonly string[]): string => lines.map((line) => `- ${markdownText(line)}`).join('\n')

function sectionBlocks(sheet: Sheet, section: Section): string[] {
  const record = (cells: readonly string[]) => `| ${cells.join(' | ')} |`
  const rule = sheet.columns.map((column) => (column.use === 'number' ? '---:' : '---'))
  const rows = section.rows.map((row) =>
    record(sheet.columns.map((column) => (column.use === 'tick' ? '☐' : markdownText(cellOf(row, column))))),
  )
  return [
    section.title === undefined ? '' : `## ${markdownText(section.title)}`,
    section.note === undefined ? '' : markdownText(section.note),
    section.rows.length === 0
      ? 'Nothing to list.'
      : [record(sheet.columns.map((c) => markdownText(columnTitle(c)))), record(rule), ...rows].join('\n'),
  ]
}
