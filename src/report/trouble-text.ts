import { escapeTerminal } from '../base/escape.ts'
import type { Trouble } from '../base/finding.ts'
import { showPlace } from '../base/place.ts'
import { type SourceLine, sourceExcerpt } from './source-excerpt.ts'

const MOST_SHOWN = 20

function printOne(trouble: Trouble, sourceLine: SourceLine, width: number): string[] {
  const at = trouble.place ? `${showPlace(trouble.place)}: ` : ''
  const shown = trouble.place ? sourceExcerpt(trouble.place, sourceLine, width - 2) : undefined
  return [
    escapeTerminal(`${at}${trouble.what}`),
    ...(shown ?? []).map((text) => `  ${text}`),
    ...(trouble.fix === '' ? [] : [`  Fix: ${escapeTerminal(trouble.fix)}`]),
  ]
}

/** Problems that stopped the run, each at its place with its source line and cure; the first twenty in full, the rest counted. */
export function printTroubles(troubles: readonly Trouble[], sourceLine: SourceLine, width: number): string {
  const shown = troubles.slice(0, MOST_SHOWN).flatMap((trouble) => printOne(trouble, sourceLine, width))
  const more = troubles.length - MOST_SHOWN
  return `${[...shown, ...(more > 0 ? [`and ${more} more; mend these first`] : [])].join('\n')}\n`
}
