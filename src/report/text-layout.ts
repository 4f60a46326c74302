/** Ranges of characters a terminal draws two cells wide: CJK, Hangul, full-width forms and pictographs. */
const WIDE =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\u33ff\u3400-\u4dbf\u4e00-\u9fff\ua000-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]/u
const NO_WIDTH = /[\p{M}\u200b-\u200d\ufeff]/u

/** Cells a text takes on a terminal. */
export function cells(text: string): number {
  let count = 0
  for (const character of text) count += NO_WIDTH.test(character) ? 0 : WIDE.test(character) ? 2 : 1
  return count
}

/** Breaks a text at spaces into lines of at most `width` cells; a longer word keeps a line to itself. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = []
  let line = ''
  let used = 0
  for (const word of text.split(' ')) {
    const size = cells(word)
    if (line !== '' && used + 1 + size > width) {
      lines.push(line)
      line = word
      used = size
    } else {
      line = line === '' ? word : `${line} ${word}`
      used += line === word ? size : size + 1
    }
  }
  return line === '' ? lines : [...lines, line]
}

/** Text behind a label of its own, with later lines lined up under the first. */
export function hang(label: string, text: string, width: number): string[] {
  const indent = ' '.repeat(cells(label))
  return wrap(text, Math.max(20, width - indent.length)).map((line, i) => (i === 0 ? label : indent) + line)
}

/** `1 warning`, `3 warnings`. */
export function countOf(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`
}
