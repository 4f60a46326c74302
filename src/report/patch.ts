import { applyTextEdits, type TextEdit } from '../base/text-edit.ts'

/** Unchanged lines shown on either side of a change. */
const CONTEXT = 3

interface Block {
  /** Lines of the old text, from 0, the end not included. */
  from: number
  to: number
  readonly edits: TextEdit[]
}

/** Lines with their ends. */
const linesOf = (text: string): string[] => text.match(/[^\n]*\n|[^\n]+$/g) ?? []

/** The line an offset is in. */
function lineAt(starts: readonly number[], offset: number): number {
  let line = starts.length - 1
  while (line > 0 && (starts[line] ?? 0) > offset) line -= 1
  return line
}

/** Edits that touch the same or neighbouring lines, together. */
function blocksOf(lines: readonly string[], edits: readonly TextEdit[]): Block[] {
  const starts: number[] = []
  let at = 0
  for (const line of lines) {
    starts.push(at)
    at += line.length
  }
  const blocks: Block[] = []
  for (const edit of [...edits].sort((a, b) => a.start - b.start)) {
    const from = lineAt(starts, edit.start)
    const to = lineAt(starts, Math.max(edit.start, edit.end - 1)) + 1
    const last = blocks.at(-1)
    if (last && from <= last.to + 2 * CONTEXT) {
      last.to = Math.max(last.to, to)
      last.edits.push(edit)
    } else blocks.push({ from, to, edits: [edit] })
  }
  return blocks
}

const NO_END = '\n\\ No newline at end of file\n'
const marked = (mark: string, lines: readonly string[]): string =>
  lines.map((line) => `${mark}${line.endsWith('\n') ? line : `${line}${NO_END}`}`).join('')

/** Removed lines before added ones, for each stretch that differs; lines that stay alike inside a block are shown as such. */
function body(before: readonly string[], after: readonly string[]): string {
  if (before.length === after.length) {
    let text = ''
    for (let index = 0; index < before.length; ) {
      let end = index
      while (end < before.length && before[end] !== after[end]) end += 1
      text += marked('-', before.slice(index, end)) + marked('+', after.slice(index, end))
      while (end < before.length && before[end] === after[end]) {
        text += marked(' ', [before[end] ?? ''])
        end += 1
      }
      index = end
    }
    return text
  }
  let head = 0
  while (head < before.length && before[head] === after[head]) head += 1
  let tail = 0
  while (
    tail < Math.min(before.length, after.length) - head &&
    before[before.length - 1 - tail] === after[after.length - 1 - tail]
  )
    tail += 1
  return (
    marked(' ', before.slice(0, head)) +
    marked('-', before.slice(head, before.length - tail)) +
    marked('+', after.slice(head, after.length - tail)) +
    marked(' ', before.slice(before.length - tail))
  )
}

/**
 * Edits of one file as a unified diff that `git apply` and `patch -p1` take, line ends and all. Empty without edits.
 * @param file path from the folder in which the patch is to be applied, with slashes
 */
export function printPatch(file: string, text: string, edits: readonly TextEdit[]): string {
  if (edits.length === 0) return ''
  const lines = linesOf(text)
  const offset = (line: number): number => lines.slice(0, line).reduce((sum, each) => sum + each.length, 0)
  let shift = 0
  const hunks = blocksOf(lines, edits).map((block) => {
    const from = Math.max(0, block.from - CONTEXT)
    const to = Math.min(lines.length, block.to + CONTEXT)
    const start = offset(from)
    const old = lines.slice(from, to)
    const moved = block.edits.map((edit) => ({ ...edit, start: edit.start - start, end: edit.end - start }))
    const fresh = linesOf(applyTextEdits(old.join(''), moved))
    const head = `@@ -${from + 1},${old.length} +${from + 1 + shift},${fresh.length} @@\n`
    shift += fresh.length - old.length
    return head + body(old, fresh)
  })
  return `--- a/${file}\n+++ b/${file}\n${hunks.join('')}`
}
