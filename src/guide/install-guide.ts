import type { Finding } from '../base/finding.ts'
import type { Procedure } from '../describe/shop.ts'
import { sheetHead } from '../sheets/head.ts'
import type { SheetHead } from '../sheets/sheet.ts'
import { type Caution, cautionFor, type Hazard, LIMITS } from './cautions.ts'
import type { Href } from './expand-tree.ts'
import { type Expected, expectedFigures, speakerFigures } from './expected-figures.ts'
import type { Facts } from './facts.ts'
import { hazardsOf } from './hazards.ts'
import { PHASE_IDS, PHASES, type PhaseId } from './phases.ts'
import { type GuideQuestion, guideQuestions } from './questions.ts'
import { type ShopSteps, shopSteps } from './shop-steps.ts'
import { type GuideStep, stepsOf } from './steps.ts'
import { toolsFor } from './tools.ts'

export interface GuidePhase {
  readonly id: PhaseId
  readonly title: string
  /** Cautions that bite here, read before the first step. */
  readonly cautions: readonly Caution[]
  readonly steps: readonly GuideStep[]
  /** What only a look can tell, to be answered here. */
  readonly questions: readonly GuideQuestion[]
  /** The shop's own steps, after the general ones. */
  readonly own: readonly ShopSteps[]
  readonly figures: readonly Expected[]
}

/** An install guide as data. */
export interface Guide {
  readonly title: string
  readonly head: SheetHead
  readonly limits: string
  /** Findings at stop level: the guide says so before the first step. */
  readonly stops: readonly Finding[]
  readonly tools: readonly string[]
  readonly phases: readonly GuidePhase[]
}

/** The install guide of one installation, or of a lone harness with its stand-ins, in the order in which the hands move. */
export function installGuide(facts: Facts, procedures: readonly Procedure[] = [], href?: Href): Guide {
  const { loom } = facts
  const hazards = hazardsOf(loom)
  const own = shopSteps(facts, procedures, href)
  const steps = stepsOf(loom, facts.solution)
  const asked = guideQuestions(facts)
  const phases = PHASE_IDS.map((id) => phase(id, hazards, steps, own, asked, facts)).filter(
    (one) => one.steps.length + one.questions.length + one.own.length + one.figures.length > 0,
  )
  return {
    title: 'Install guide',
    head: sheetHead(loom, loom.kind === 'harness' ? loom.looms[0] : undefined, 'Install guide'),
    limits: LIMITS,
    stops: (facts.findings ?? []).filter((finding) => finding.level === 'stop'),
    tools: toolsFor(loom, hazards),
    phases,
  }
}

function phase(
  id: PhaseId,
  hazards: ReadonlySet<Hazard>,
  steps: ReadonlyMap<PhaseId, readonly GuideStep[]>,
  own: readonly ShopSteps[],
  asked: readonly GuideQuestion[],
  facts: Facts,
): GuidePhase {
  const { title, bites } = PHASES[id]
  return {
    id,
    title,
    cautions: bites.filter((hazard) => hazards.has(hazard)).map(cautionFor),
    steps: steps.get(id) ?? [],
    questions: asked.filter(({ phase }) => phase === id),
    own: own.filter((piece) => piece.phase === id),
    figures:
      id === 'power-up'
        ? expectedFigures(facts.solution)
        : id === 'test'
          ? speakerFigures(facts.solution)
          : [],
  }
}
