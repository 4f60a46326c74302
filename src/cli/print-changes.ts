import { escapeTerminal } from '../base/escape.ts'
import { type Changes, isEmpty } from '../compare/changes.ts'
import { type OutlineLine, type OutlineSection, outline } from '../compare/changes-outline.ts'
import type { TwoPlaces } from '../compare/two-places.ts'
import { painter } from '../report/text.ts'
import { hang, wrap } from '../report/text-layout.ts'

/** Longer lists are cut on a terminal: the other formats have all of them. */
const MOST_LINES = 60

export interface PrintOptions {
  readonly before: string
  readonly after: string
  readonly width: number
  readonly colour: boolean
  /** Only the findings the change brings. */
  readonly findingsOnly: boolean
  readonly places: TwoPlaces
}

function lineText({ text, more = [] }: OutlineLine, bullet: string, width: number): string[] {
  return [
    ...hang(bullet, escapeTerminal(text), width),
    ...more.flatMap((one) => hang(' '.repeat(bullet.length + 2), escapeTerminal(one), width)),
  ]
}

/** A comparison as plain sentences for a terminal. Ends with a line end. */
export function printChanges(changes: Changes, options: PrintOptions): string {
  const { width } = options
  const paint = painter(options.colour)
  const told = outline(changes, options.places)
  const title = (text: string) => wrap(escapeTerminal(text), width).map((line) => paint.bold(line))
  const section = ({ title: heading, lines, tasks }: OutlineSection): string[] => {
    const shown = lines.slice(0, MOST_LINES)
    const more = lines.length - shown.length
    return [
      ...title(heading),
      ...shown.flatMap((line) => lineText(line, tasks ? '  [ ] ' : '  - ', width)),
      ...(more > 0 ? [`  and ${more} more; --format markdown prints all`] : []),
      '',
    ]
  }
  const sections = options.findingsOnly
    ? told.findings.filter(({ brought }) => brought)
    : [...told.findings, ...told.changes, ...told.rework]
  const head = `Compared ${options.before} with ${options.after}.`
  const sum = isEmpty(changes) ? 'Nothing changed in meaning.' : `${told.headline} ${told.verdict}`
  return `${[...wrap(escapeTerminal(head), width), ...title(sum), '', ...sections.flatMap(section)].join('\n').trimEnd()}\n`
}
