import { COLOURS, parseColour } from '../base/colour.ts'
import { hashCode } from '../base/hash.ts'
import { faceSeen } from '../catalogue/connectors/face-view.ts'
import type { Half, Terminal } from '../resolve/loom.ts'
import type { BenchFact, BenchStep } from '../sheets/bench-step.ts'
import { benchSteps } from '../sheets/bench-steps.ts'
import { cavityWords } from '../sheets/cavity-words.ts'
import { groupBy } from '../sheets/group-by.ts'
import { matchCodeOf } from '../sheets/match-code.ts'
import { markup } from '../sheets/templates.ts'
import type { HarnessEntry } from './harness-entries.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { SiteFile } from './site-input.ts'

const SCRIPTS = ['bench-judge.js', 'bench-session.js', 'bench-face.js', 'bench-list.js', 'bench.js'] as const

/**
 * One thing at a time at arm's length: the whole list stands on the page, to print and to read without scripts, and
 * `bench.js` walks through it. What the script needs beyond the words stands in `data-` attributes.
 */
export function benchPage(site: Site, entry: HarnessEntry): SiteFile {
  const { harness, job, use } = entry
  const path = site.map.bench(harness.id)
  const match = matchCodeOf(job.loom, use)
  const steps = benchSteps(job.loom, use, job.solution)
  const facts = {
    path,
    title: `At the bench: ${harness.title}`,
    about: `Harness ${harness.id} step by step: cut, crimp, insert, ring out, as-built record.`,
    scripts: SCRIPTS,
    styles: ['bench.css'],
  }
  return makePage(site, 'bench', facts, {
    title: harness.title,
    id: harness.id,
    revision: harness.revision ?? '',
    match,
    back: linkTo(path, site.map.harness(harness.id)),
    facts: JSON.stringify({
      shop: site.shopName,
      harness: harness.id,
      title: harness.title,
      document: harness.document,
      revision: harness.revision,
      match,
      // The same issue can gain steps when the program that makes them does.
      steps: hashCode(steps.map(({ id }) => id).join()),
      file: path.replace(/^.*\/|\.html$/g, ''),
    }),
    count: steps.length,
    sections: sectionsOf(steps),
    faces: use.halves.flatMap((half) => faceViews(site, half)),
  })
}

function sectionsOf(steps: readonly BenchStep[]) {
  const numbered = steps.map((step, index) => ({ step, number: index + 1 }))
  // One block for each run of the same heading; the same heading comes once in each stage.
  return [...groupBy(numbered, ({ step }) => `${step.stage} ${step.section}`).values()].map((list) => ({
    title: list[0]?.step.section ?? '',
    note: list[0]?.step.note ?? '',
    steps: list.map(({ step, number }) => stepView(step, number)),
  }))
}

function stepView({ id, stage, ask, min, max, what, facts, a, b }: BenchStep, number: number) {
  const data = { id, number, stage, ask, min, max, a: spotsOf(a), b: spotsOf(b) }
  return { number, what, facts: facts.map(factView), data: JSON.stringify(data) }
}

function factView({ name, text, big, colour }: BenchFact) {
  const read = colour === undefined ? undefined : parseColour(colour)
  const codes = read?.ok ? read.value.codes : []
  const [ground, tracer] = codes.map((code) => COLOURS[code].hex)
  return { name, text, big: big ?? false, ground: ground ?? '', tracer: tracer ?? '' }
}

/** Pins by the half they are on; terminals of parts have no face. */
function spotsOf(terminals: readonly Terminal[]): [half: string, pins: string[]][] {
  return [...groupBy(terminals, ({ half }) => half)].flatMap(([half, pins]): [string, string[]][] =>
    half ? [[half.id, pins.map(({ name }) => name)]] : [],
  )
}

const SIDES = ['mating', 'wire-entry'] as const

/** Sides as the picture maker hands them out: the mating face first; a half drawn from the side has one picture. */
function faceViews(site: Site, half: Half) {
  const { family, gender, title = '' } = half
  if (!family) return []
  const both = site.input.pictures.faces({ family, gender, half, bare: true })
  // A ring looks the same from both sides.
  const pictures = half.pins.size === 1 ? both.slice(0, 1) : both
  return pictures.map((svg, index) => {
    const side = pictures.length === 2 ? SIDES[index] : undefined
    const seen = side && family.face && faceSeen(family.face, shownHalf(half), side)
    return {
      half: half.id,
      title,
      side: side ?? (half.pins.size === 1 ? 'alike' : 'only'),
      words: JSON.stringify(seen ? Object.fromEntries(cavityWords(seen)) : {}),
      svg: markup(svg),
    }
  })
}

/** The half whose face is drawn: a genderless family has one face for both. */
function shownHalf({ family, gender }: Half): 'pin' | 'socket' {
  const own = family?.face?.of ?? 'pin'
  return family?.genderless ? own : (gender ?? own)
}
