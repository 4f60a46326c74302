import type { Rule } from './rule.ts'
import { audioLevelsMatch } from './rules/audio-levels-match.ts'
import { bankMiddleLoaded } from './rules/bank-middle-loaded.ts'
import { biasReachesOnlyTakers } from './rules/bias-reaches-only-takers.ts'
import { bodyReturnAbsent } from './rules/body-return-absent.ts'
import { busIsALine } from './rules/bus-is-a-line.ts'
import { busStubLengths } from './rules/bus-stub-lengths.ts'
import { cableImpedance } from './rules/cable-impedance.ts'
import { compassClear } from './rules/compass-clear.ts'
import { constantVoltageLine } from './rules/constant-voltage-line.ts'
import { earthKept } from './rules/earth-kept.ts'
import { fusesNotParalleled } from './rules/fuses-not-paralleled.ts'
import { fusesStepDown } from './rules/fuses-step-down.ts'
import { groundLoopInSignal } from './rules/ground-loop-in-signal.ts'
import { groundLost } from './rules/ground-lost.ts'
import { inputBridgesOutput } from './rules/input-bridges-output.ts'
import { inputKindFits } from './rules/input-kind-fits.ts'
import { isolatorBackFed } from './rules/isolator-back-fed.ts'
import { keyAndMicReturns } from './rules/key-and-mic-returns.ts'
import { lanPairs } from './rules/lan-pairs.ts'
import { loadWithinAmpacity } from './rules/load-within-ampacity.ts'
import { logicLevels } from './rules/logic-levels.ts'
import { mainsApart } from './rules/mains-apart.ts'
import { noiseInSharedReturn } from './rules/noise-in-shared-return.ts'
import { onePullUp } from './rules/one-pull-up.ts'
import { partsOutlastFuse } from './rules/parts-outlast-fuse.ts'
import { relayTerminals } from './rules/relay-terminals.ts'
import { restraintCircuitTapped } from './rules/restraint-circuit-tapped.ts'
import { screenSoleReturn } from './rules/screen-sole-return.ts'
import { serialDirections } from './rules/serial-directions.ts'
import { shortOpensFuse } from './rules/short-opens-fuse.ts'
import { signalBesidePower } from './rules/signal-beside-power.ts'
import { speakerInMicCable } from './rules/speaker-in-mic-cable.ts'
import { speakerLineLoss } from './rules/speaker-line-loss.ts'
import { speakersInPhase } from './rules/speakers-in-phase.ts'
import { stereoIntoBalanced } from './rules/stereo-into-balanced.ts'
import { suppliesMeet } from './rules/supplies-meet.ts'
import { supplyNotOverloaded } from './rules/supply-not-overloaded.ts'
import { supplyRangeFits } from './rules/supply-range-fits.ts'
import { vehicleCircuitOverloaded } from './rules/vehicle-circuit-overloaded.ts'

/** Rules that follow currents, faults, levels and lines through the whole loom, by family. */
export const electricalRules: readonly Rule[] = [
  // power
  suppliesMeet,
  bankMiddleLoaded,
  supplyRangeFits,
  bodyReturnAbsent,
  fusesNotParalleled,
  fusesStepDown,
  shortOpensFuse,
  partsOutlastFuse,
  loadWithinAmpacity,
  vehicleCircuitOverloaded,
  restraintCircuitTapped,
  isolatorBackFed,
  supplyNotOverloaded,
  groundLost,
  // switching
  logicLevels,
  onePullUp,
  inputKindFits,
  keyAndMicReturns,
  relayTerminals,
  // audio
  speakersInPhase,
  speakerLineLoss,
  constantVoltageLine,
  audioLevelsMatch,
  inputBridgesOutput,
  biasReachesOnlyTakers,
  speakerInMicCable,
  stereoIntoBalanced,
  // grounding
  screenSoleReturn,
  groundLoopInSignal,
  noiseInSharedReturn,
  earthKept,
  mainsApart,
  signalBesidePower,
  compassClear,
  // data
  busStubLengths,
  serialDirections,
  busIsALine,
  lanPairs,
  cableImpedance,
]
