import { formatDbu, formatDecibels, formatOhms } from '../../base/format-quantity.ts'
import { audioLinks } from '../../check/queries/audio-links.ts'
import type { RuleContext } from '../../check/rule.ts'
import { pinName } from '../../sheets/names.ts'
import { audioLine } from '../../solve/audio-line.ts'
import type { SpeakerNetwork } from '../../solve/solution.ts'
import { figureLimit } from '../figure-limit.ts'
import type { FigureLimit, Limits } from '../limit.ts'
import { AUDIO_LEVEL, OHMS } from '../measures.ts'
import { unitFor } from '../unit-for.ts'

/** A line-up tone arrives within this of what was worked out; common practice. */
const LEVEL_DB = 2
/** A voice coil reads less at DC than its impedance, four fifths of it as a rule (IEC 60268-5: never less than that at any frequency). */
const COIL_SHARE = 0.7
const OVER_SHARE = 1.2
/** A leg of a bridged output that reads less than this to the chassis is leaking; common practice. */
const OPEN_OHMS = 1000

/** Loudspeaker lines, bridged legs, and the levels that are stated. */
export function audioLimits(context: RuleContext): Limits {
  const { solution, loom } = context
  const levels = levelLimits(context)
  return {
    limits: [...solution.speakers.flatMap(lineLimit), ...bridgedLimits(context), ...levels.limits],
    missing: [
      ...solution.speakers
        .filter(({ hot }) => hot.half?.mate !== undefined && loom.kind === 'installation')
        .flatMap(({ hot, needs }) =>
          needs.map((need) => ({ what: 'loudspeaker line', needs: need, address: hot.address })),
        ),
      ...levels.missing,
    ],
  }
}

function lineLimit({ hot, cold, totalOhms, loadOhms, lineOhms, speakers }: SpeakerNetwork): FigureLimit[] {
  if (!Number.isFinite(totalOhms) || speakers.length === 0) return []
  return [
    figureLimit({
      id: `${hot.address}/line`,
      group: 'audio',
      what: `Loudspeaker line at ${pinName(hot)}`,
      how: `Plug off the radio, meter on the loom: ${pinName(hot)} to ${cold ? pinName(cold) : 'its return'}.`,
      measure: OHMS,
      unit: unitFor(OHMS, totalOhms),
      least: loadOhms * COIL_SHARE + lineOhms,
      most: totalOhms * OVER_SHARE,
      expected: totalOhms,
      sum: `${speakers.map(({ ohms }) => formatOhms(ohms)).join(' with ')} make ${formatOhms(loadOhms)}, and ${formatOhms(lineOhms)} of line. A coil reads about four fifths of its impedance at DC; below ${COIL_SHARE} one is shorted or one too many is joined.`,
      source: 'IEC 60268-5 for coil and impedance (from memory)',
      rule: 'speaker-load',
      address: hot.address,
    }),
  ]
}

function bridgedLimits({ loom }: RuleContext): FigureLimit[] {
  const legs = loom.terminals.filter(
    ({ on, does, half }) =>
      on === 'equipment' && half?.mate !== undefined && does.kind === 'audio-out' && does.bridged === true,
  )
  return legs.map((leg) =>
    figureLimit({
      id: `${leg.address}/chassis`,
      group: 'audio',
      what: `${pinName(leg)} to chassis`,
      how: 'Plug off the radio, loudspeakers on: this leg of the loom to bare metal. “OL” is good.',
      measure: OHMS,
      unit: 'kΩ',
      least: OPEN_OHMS,
      sum: 'One leg of a bridge-tied output: half the supply stands on it, and ground would short it.',
      source: 'common practice',
      rule: 'bridged-leg-grounded',
      address: leg.address,
      level: 'stop',
    }),
  )
}

function levelLimits({ loom, solution, paths }: RuleContext): Limits {
  const found = loom.nets.flatMap((net) => audioLinks(net))
  const missing = new Set<string>()
  const limits = found.flatMap(({ output, inputs }): FigureLimit[] => {
    const { dbu, level } = output.does
    if (dbu === undefined || level === 'speaker') return []
    const line = audioLine(loom, paths.nets, solution.linkOhms, output)
    if (!line) {
      missing.add(output.address)
      return []
    }
    return inputs.flatMap((input) => {
      const arrives = line.inputs.find((one) => one.input === input)
      if (!arrives || !(arrives.ratio > 0)) return []
      const lossDb = 20 * Math.log10(arrives.ratio)
      const expected = dbu + lossDb
      return [
        figureLimit({
          id: `${input.address}/level`,
          group: 'audio',
          what: `Level at ${pinName(input)} from ${pinName(output)}`,
          how: `1 kHz at the nominal level of ${pinName(output)}; high-impedance meter across the pair, everything joined.`,
          measure: AUDIO_LEVEL,
          unit: 'dBu',
          least: expected - LEVEL_DB,
          most: expected + LEVEL_DB,
          expected,
          sum: `${formatDbu(dbu)} sent, ${formatDecibels(lossDb)} in the source impedance, the line and the input: ${formatDbu(expected)}; ${LEVEL_DB} dB either way.`,
          source: 'IEC 60268-3 for the level; voltage division; window: common practice',
          rule: 'audio-levels-match',
          address: input.address,
        }),
      ]
    })
  })
  return {
    limits,
    missing: [...missing].map((address) => ({
      what: 'audio level',
      needs: `the source impedance of ${address}`,
      address,
    })),
  }
}
