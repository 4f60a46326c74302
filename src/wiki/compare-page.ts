import { hashCode } from '../base/hash.ts'
import { type Changes, isEmpty } from '../compare/changes.ts'
import { type OutlineSection, outline } from '../compare/changes-outline.ts'
import type { TwoPlaces } from '../compare/two-places.ts'
import { markup, type Templates } from '../sheets/templates.ts'
import type { DrawingOverlay } from './compare-drawings.ts'

export interface ComparePageInput {
  readonly changes: Changes
  readonly before: string
  readonly after: string
  readonly overlays: readonly DrawingOverlay[]
  /** Harnesses too large, or too many, to be drawn here. */
  readonly leftOut: readonly string[]
  readonly places: TwoPlaces
  readonly templates: Templates
  /** Style of pages and drawings, to be carried within. */
  readonly css: string
  readonly script: string
  /** `sha256-…` of the script, the only one the page may run. */
  readonly scriptHash: string
}

const pictures = (svgs: readonly string[]) => svgs.map((svg, i) => ({ svg: markup(svg), number: i + 1 }))

/** Sections with a name for every line, under which a tick is kept; the name is that of its words. */
function ticked(sections: readonly OutlineSection[]) {
  return sections.map(({ title, lines }) => ({
    title,
    lines: lines.map(({ text, more = [] }) => ({ text, more, tick: hashCode(`${title}\n${text}`, 10) })),
  }))
}

/** A review as one page that stands alone: no other file, no network, ticks kept on the device. */
export function comparePageHtml(input: ComparePageInput): string {
  const { changes, templates, overlays } = input
  const { verdict, headline, findings, changes: things, rework } = outline(changes, input.places)
  // Lines may shift without anything being another, so where a finding stands is no part of what was looked at.
  const facts = JSON.stringify([input.before, input.after, things, outline(changes).findings])
  return templates.render('compare', {
    title: `Changes from ${input.before} to ${input.after}`,
    before: input.before,
    after: input.after,
    verdict: isEmpty(changes) ? 'Nothing changed in meaning.' : verdict,
    headline: isEmpty(changes) ? '' : headline,
    // Ticks belong to these very changes: another comparison begins with none.
    review: hashCode(facts, 10),
    urgent: ticked(findings.filter(({ brought }) => brought)),
    findings: ticked(findings.filter(({ brought }) => !brought)),
    things: ticked(things),
    rework: ticked(rework),
    overlays: overlays.map((one, i) => ({
      number: i + 1,
      id: one.id,
      title: one.title,
      views: [
        { key: 'old', name: 'Old', sheets: pictures(one.old), chosen: false },
        { key: 'over', name: 'Old over new', sheets: pictures(one.over), chosen: true },
        { key: 'new', name: 'New', sheets: pictures(one.new), chosen: false },
      ],
    })),
    leftOut: input.leftOut,
    css: markup(input.css.replaceAll('</', '<\\/')),
    script: markup(input.script),
    scriptHash: input.scriptHash,
  })
}
