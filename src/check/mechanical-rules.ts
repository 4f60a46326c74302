import type { Rule } from './rule.ts'
import { bundleFits } from './rules/bundle-fits.ts'
import { cableEntryClamped } from './rules/cable-entry-clamped.ts'
import { coloursAgree } from './rules/colours-agree.ts'
import { crimpOnStrands } from './rules/crimp-on-strands.ts'
import { crimpToolNamed } from './rules/crimp-tool-named.ts'
import { dripLoop } from './rules/drip-loop.ts'
import { endsFinished } from './rules/ends-finished.ts'
import { fitForZone } from './rules/fit-for-zone.ts'
import { flexLoop } from './rules/flex-loop.ts'
import { inputDriven } from './rules/input-driven.ts'
import { insulationFitsContact } from './rules/insulation-fits-contact.ts'
import { lengthReaches } from './rules/length-reaches.ts'
import { liveHalfShrouded } from './rules/live-half-shrouded.ts'
import { panelCrossing } from './rules/panel-crossing.ts'
import { pinchSplicePlace } from './rules/pinch-splice-place.ts'
import { powerPlugKeyed } from './rules/power-plug-keyed.ts'
import { spareContactsLeft } from './rules/spare-contacts-left.ts'
import { spareCoresFinished } from './rules/spare-cores-finished.ts'
import { supportSpacing } from './rules/support-spacing.ts'
import { temperatureClass } from './rules/temperature-class.ts'
import { threadsMatch } from './rules/threads-match.ts'
import { vibrationLocked } from './rules/vibration-locked.ts'

/** Rules of plugs, crimps, and how a loom lies in its place, by family. */
export const mechanicalRules: readonly Rule[] = [
  // mating
  liveHalfShrouded,
  powerPlugKeyed,
  vibrationLocked,
  threadsMatch,
  // pins
  endsFinished,
  inputDriven,
  coloursAgree,
  spareCoresFinished,
  spareContactsLeft,
  // crimping
  insulationFitsContact,
  crimpToolNamed,
  crimpOnStrands,
  pinchSplicePlace,
  // routing
  panelCrossing,
  bundleFits,
  lengthReaches,
  supportSpacing,
  flexLoop,
  cableEntryClamped,
  temperatureClass,
  fitForZone,
  dripLoop,
]
