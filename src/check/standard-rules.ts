import { electricalRules } from './electrical-rules.ts'
import { mechanicalRules } from './mechanical-rules.ts'
import { paperRules } from './paper-rules.ts'
import { rfRules } from './rf-rules.ts'
import type { Rule } from './rule.ts'
import { activeLevel } from './rules/active-level.ts'
import { bareCopperAfloat } from './rules/bare-copper-afloat.ts'
import { bendRadius } from './rules/bend-radius.ts'
import { bridgedLegGrounded } from './rules/bridged-leg-grounded.ts'
import { busDropLength } from './rules/bus-drop-length.ts'
import { busTerminated } from './rules/bus-terminated.ts'
import { cableFaultKeys } from './rules/cable-fault-keys.ts'
import { channelsShareReturn } from './rules/channels-share-return.ts'
import { coilSuppressed } from './rules/coil-suppressed.ts'
import { coldLegAccounted } from './rules/cold-leg-accounted.ts'
import { contactCurrent } from './rules/contact-current.ts'
import { dataLegsSwapped } from './rules/data-legs-swapped.ts'
import { emptyCavitiesPlugged } from './rules/empty-cavities-plugged.ts'
import { feederDrop } from './rules/feeder-drop.ts'
import { fuseInFeed } from './rules/fuse-in-feed.ts'
import { fuseInNegative } from './rules/fuse-in-negative.ts'
import { fuseLoaded } from './rules/fuse-loaded.ts'
import { fuseNearSource } from './rules/fuse-near-source.ts'
import { fuseProtectsWire } from './rules/fuse-protects-wire.ts'
import { hotColdIdentity } from './rules/hot-cold-identity.ts'
import { ignitionSensePermanent } from './rules/ignition-sense-permanent.ts'
import { isolatedCommonGrounded } from './rules/isolated-common-grounded.ts'
import { lineTerminatedOnce } from './rules/line-terminated-once.ts'
import { matedHalvesFit } from './rules/mated-halves-fit.ts'
import { microphoneKind } from './rules/microphone-kind.ts'
import { mustConnect } from './rules/must-connect.ts'
import { neverConnect } from './rules/never-connect.ts'
import { oneDriverPerNet } from './rules/one-driver-per-net.ts'
import { oneNetPerContact } from './rules/one-net-per-contact.ts'
import { oneStandardPerJoint } from './rules/one-standard-per-joint.ts'
import { oneWirePerContact } from './rules/one-wire-per-contact.ts'
import { pairLegsTogether } from './rules/pair-legs-together.ts'
import { pinMapMirrored } from './rules/pin-map-mirrored.ts'
import { pinoutViewStated } from './rules/pinout-view-stated.ts'
import { plugsNotInterchangeable } from './rules/plugs-not-interchangeable.ts'
import { plusMeetsMinus } from './rules/plus-meets-minus.ts'
import { returnAsBigAsFeed } from './rules/return-as-big-as-feed.ts'
import { returnPastSensor } from './rules/return-past-sensor.ts'
import { ringsPerStud } from './rules/rings-per-stud.ts'
import { screenBonded } from './rules/screen-bonded.ts'
import { screenBothEnds } from './rules/screen-both-ends.ts'
import { screenOnChassis } from './rules/screen-on-chassis.ts'
import { sealFitsWire } from './rules/seal-fits-wire.ts'
import { shellOffPin1 } from './rules/shell-off-pin-1.ts'
import { speakerLoad } from './rules/speaker-load.ts'
import { speakerPower } from './rules/speaker-power.ts'
import { spliceAsDecided } from './rules/splice-as-decided.ts'
import { standingDrain } from './rules/standing-drain.ts'
import { switchCurrent } from './rules/switch-current.ts'
import { thinWireAfloat } from './rules/thin-wire-afloat.ts'
import { voltageAtLoad } from './rules/voltage-at-load.ts'
import { voltsWithinLimit } from './rules/volts-within-limit.ts'
import { wireFitsContact } from './rules/wire-fits-contact.ts'

/**
 * Every rule, by family. Order matters in one way: of findings with one cause and one level the earlier rule's is shown, so
 * a rule that names a cause stands before those that see its consequences.
 */
export const standardRules: readonly Rule[] = [
  // mating
  pinMapMirrored,
  pinoutViewStated,
  matedHalvesFit,
  plugsNotInterchangeable,
  // pins
  oneNetPerContact,
  oneWirePerContact,
  mustConnect,
  neverConnect,
  oneDriverPerNet,
  // crimping
  wireFitsContact,
  sealFitsWire,
  emptyCavitiesPlugged,
  ringsPerStud,
  bareCopperAfloat,
  contactCurrent,
  bendRadius,
  // power
  plusMeetsMinus,
  feederDrop,
  ...electricalRules,
  voltageAtLoad,
  fuseInFeed,
  fuseProtectsWire,
  fuseNearSource,
  fuseLoaded,
  fuseInNegative,
  returnPastSensor,
  thinWireAfloat,
  returnAsBigAsFeed,
  ignitionSensePermanent,
  standingDrain,
  // Names the cause of volts over a limit where a supply meets data.
  oneStandardPerJoint,
  voltsWithinLimit,
  // audio
  bridgedLegGrounded,
  pairLegsTogether,
  hotColdIdentity,
  coldLegAccounted,
  lineTerminatedOnce,
  microphoneKind,
  speakerLoad,
  speakerPower,
  // grounding
  shellOffPin1,
  isolatedCommonGrounded,
  screenBothEnds,
  screenOnChassis,
  screenBonded,
  channelsShareReturn,
  // switching
  coilSuppressed,
  switchCurrent,
  activeLevel,
  cableFaultKeys,
  // data
  dataLegsSwapped,
  busTerminated,
  busDropLength,
  // plugs, crimps and routing
  ...mechanicalRules,
  spliceAsDecided,
  // antenna feeders
  ...rfRules,
  // papers and questions
  ...paperRules,
]
