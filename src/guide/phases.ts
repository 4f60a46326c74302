import type { Hazard } from './cautions.ts'

/** The order in which the hands move. */
export const PHASE_IDS = [
  'prepare',
  'isolate',
  'open-up',
  'mount',
  'antenna',
  'route',
  'ground',
  'loads',
  'signals',
  'supply',
  'power-up',
  'test',
  'refit',
  'hand-over',
] as const
export type PhaseId = (typeof PHASE_IDS)[number]

interface PhaseFacts {
  readonly title: string
  /** Other headings under which a shop writes its own steps for this phase. */
  readonly aliases: readonly string[]
  /** Hazards whose caution is printed at the head of the phase, where it bites. */
  readonly bites: readonly Hazard[]
}

export const PHASES: Readonly<Record<PhaseId, PhaseFacts>> = {
  prepare: {
    title: 'Before you start',
    aliases: ['before', 'preparation', 'survey', 'tools'],
    bites: ['high-voltage', 'fuel'],
  },
  isolate: {
    title: 'Isolate the supply',
    aliases: ['isolation', 'power off', 'disconnect'],
    bites: ['battery', '24-volt', 'boat', 'mains'],
  },
  'open-up': {
    title: 'Open up',
    aliases: ['trim', 'trim removal', 'remove trim', 'strip'],
    bites: ['airbag'],
  },
  mount: {
    title: 'Mount the equipment',
    aliases: ['mounting', 'fix', 'equipment'],
    bites: ['drilling', 'road'],
  },
  antenna: { title: 'Antenna and coax', aliases: ['aerial', 'coax', 'feeder'], bites: ['heights'] },
  route: {
    title: 'Run the loom',
    aliases: ['routing', 'run', 'loom', 'cable run', 'grommets'],
    bites: ['airbag', 'high-voltage'],
  },
  ground: { title: 'Grounds first', aliases: ['grounds', 'grounding', 'earth', 'bonding'], bites: [] },
  loads: { title: 'Then the loads', aliases: ['connect', 'load', 'power leads'], bites: [] },
  signals: { title: 'Then the signals', aliases: ['signal', 'audio', 'data', 'control'], bites: [] },
  supply: {
    title: 'Supply, and the fuse last',
    aliases: ['fuse', 'fuses', 'battery', 'supply last'],
    bites: ['battery', 'mains'],
  },
  'power-up': { title: 'First power-up', aliases: ['power on', 'first power', 'switch on'], bites: [] },
  test: {
    title: 'Functional test',
    aliases: ['tests', 'commissioning', 'function', 'functional steps'],
    bites: ['rf', 'hearing'],
  },
  refit: { title: 'Refit', aliases: ['close up', 'reassemble', 'trim back'], bites: [] },
  'hand-over': {
    title: 'Hand over',
    aliases: ['handover', 'demonstrate', 'sign off', 'deviations'],
    bites: [],
  },
}

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()

/** The phase a heading or front matter means, by id, title or alias; undefined when it is none of them. */
export function phaseNamed(text: string): PhaseId | undefined {
  const wanted = plain(text)
  return PHASE_IDS.find((id) => {
    const { title, aliases } = PHASES[id]
    return [id, title, ...aliases].some((name) => plain(name) === wanted)
  })
}
