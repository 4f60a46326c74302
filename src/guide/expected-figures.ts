import { formatAmps, formatOhms, formatVolts } from '../base/format-quantity.ts'
import { pinName } from '../sheets/names.ts'
import type { Solution, StateSolution } from '../solve/solution.ts'

/** One figure a meter should show, with room for the reading. */
export interface Expected {
  readonly state: string
  readonly where: string
  readonly what: string
  readonly figure: string
}

/** What to measure at first power-up: amps out of each source and volts at each load, in each state, lightest first. */
export function expectedFigures(solution: Solution | undefined): Expected[] {
  const states = (solution?.states ?? []).filter((one) => one.converged)
  return states.flatMap((one) => [...sourceFigures(one), ...loadFigures(one)])
}

function sourceFigures({ state, sources }: StateSolution): Expected[] {
  return sources
    .filter((source) => source.amps > 0)
    .map((source) => ({
      state: state.title,
      where: pinName(source.terminal),
      what: 'current out',
      figure: formatAmps(source.amps),
    }))
}

function loadFigures({ state, loads }: StateSolution): Expected[] {
  // A load that draws nothing in this state says no more than in the state before.
  return loads
    .filter((load) => load.amps > 0)
    .map((load) => ({
      state: state.title,
      where: load.back ? `${pinName(load.terminal)} against ${pinName(load.back)}` : pinName(load.terminal),
      what: `volts at ${formatAmps(load.amps)}`,
      figure: formatVolts(load.volts),
    }))
}

/** What a meter shows at each loudspeaker output before it is plugged in: the speakers with their line, never below the least load. */
export function speakerFigures(solution: Solution | undefined): Expected[] {
  return (solution?.speakers ?? []).map((network) => ({
    state: 'off, unplugged',
    where: network.cold ? `${pinName(network.hot)} to ${pinName(network.cold)}` : pinName(network.hot),
    what: 'loudspeaker line; DC reads a little below the impedance',
    figure: formatOhms(network.totalOhms),
  }))
}
