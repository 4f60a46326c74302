import {
  formatCelsius,
  formatDays,
  formatDecibels,
  formatLength,
  formatOhms,
  formatPercent,
  formatVolts,
} from '../base/format-quantity.ts'
import { DECISIONS, type Decision } from '../describe/decisions.ts'
import type { Policy } from '../describe/policy.ts'
import type { Settings } from '../resolve/loom.ts'
import { settingsFrom } from '../resolve/settings.ts'

/** What a setting decides, what holds when a shop says nothing, and why. */
export interface PolicySetting {
  /** Path in the policy. */
  readonly id: Decision
  readonly title: string
  /** What is in force. */
  readonly value: (settings: Settings) => string
  /** Why the default is what it is. */
  readonly reason: string
  /** Where published guidance disagrees: who says what. */
  readonly disagrees?: string
}

const setting = (
  id: Decision,
  title: string,
  value: PolicySetting['value'],
  reason: string,
  disagrees?: string,
): PolicySetting => ({ id, title, value, reason, ...(disagrees === undefined ? {} : { disagrees }) })

const DROP =
  '0.5 V, 3 % and 10 % are each right for someone: FAA AC 43.13-1B table 11-6 for 14 V (0.5 V for good, 1 V for minutes), ABYC and ISO 10133 for boats (3 % and 10 %), specifications of fire apparatus (10 %).'

/** Every decision of the policy with its reason, in the order of {@link DECISIONS}. */
export const policySettings: readonly PolicySetting[] = [
  setting(
    'drop.continuous',
    'Most a supply may lose for long, both ways',
    (s) => formatVolts(s.dropContinuousVolts),
    'A radio that is made for 13.6 V gives its power down to about 13 V.',
    DROP,
  ),
  setting(
    'drop.brief',
    'The same for minutes at most',
    (s) => formatVolts(s.dropBriefVolts),
    'An over is short, and its copper cools between overs.',
    DROP,
  ),
  setting(
    'drop.critical',
    'On a boat: electronics, lights and feeders',
    (s) => formatPercent(s.dropCriticalShare),
    'Navigation and radios have to work on a low battery.',
    DROP,
  ),
  setting(
    'drop.other',
    'On a boat: everything else',
    (s) => formatPercent(s.dropOtherShare),
    'A dimmer cabin lamp endangers nobody.',
    DROP,
  ),
  setting(
    'allowances.contact',
    'A mated power contact or a ring',
    (s) => formatOhms(s.contactOhms),
    'Common practice where no figure is given; measured ones may be stated on the part.',
  ),
  setting(
    'allowances.fuse',
    'A fuse',
    (s) => formatOhms(s.fuseOhms),
    'Common practice for blade fuses of 10 to 30 A.',
  ),
  setting(
    'allowances.holder',
    'A fuse holder',
    (s) => formatOhms(s.holderOhms),
    'Common practice for blade holders with crimped tabs.',
  ),
  setting(
    'fuseWithin',
    'On a vehicle: from the source to its fuse',
    (s) => formatLength(s.fuseWithinMm),
    'As near as a hand can fit it; the wire before it is protected by nothing. Boats have limits of their own (ABYC E-11).',
  ),
  setting(
    'fuseNegative',
    'A fuse in a negative lead',
    (s) => s.fuseNegative,
    'If it blows, the current comes back by screens and coax; the body bond stays whole.',
    'FCS 1362 §4.6.4 forbids it and bonds to the body; a US state transport specification asks for it where the lead runs to the battery post; 46 CFR 111 wants a device in each battery conductor; a small-vessel code allows none in an earthed one.',
  ),
  setting(
    'fuseMargin',
    'Ampacity of a wire over its fuse',
    (s) => `${s.fuseMargin} ×`,
    'The ampacity is already derated for heat and bundle. Fire specifications ask for 1.25, a car maker for 1.35.',
  ),
  setting(
    'lateFuse',
    'A short that opens its fuse late while the wire bears it',
    (s) => s.lateFuse,
    'At two to five times its rating a blade fuse takes up to 5 s. Where the wire bears that by the adiabatic equation of IEC 60364-5-54 nothing is harmed, and on long thin runs nothing else is to be had.',
  ),
  setting(
    'ampacity',
    'Table of current ratings',
    (s) => s.ampacityTable,
    '33 CFR 183.425 table 5 is for single wires at 30 °C; heat and bundle come on top, and every finding prints the table it used.',
    'Tables differ by two to three: FAA AC 43.13-1B supposes a full bundle in 70 °C air, 33 CFR 183.425 and ISO 10133 a single wire at 30 °C.',
  ),
  setting(
    'batteryNegative',
    'Returns on a battery with a sensor on its post',
    (s) => s.batteryNegative,
    'The sensor counts only what comes from its body side; what goes to the post is missing from the charge it reports.',
    'Older advice for radios says the battery post; makers of vehicles with a battery sensor say its body side.',
  ),
  setting(
    'starWashers',
    'Toothed washers under ground rings',
    (s) => s.starWashers,
    'The teeth hold the ring off the metal between them and let water in; a flat face with grease lasts.',
    'Hobby guides like them because they bite through paint; specifications of fire apparatus forbid them.',
  ),
  setting(
    'splices',
    'Splices in vehicles and boats',
    (s) => s.splices,
    'Strands bend together in a crimp; solder makes a rod that breaks where it ends.',
    'One school solders and sleeves every splice, the other crimps only.',
  ),
  setting(
    'shields',
    'Screens of audio and data',
    (s) => s.shields,
    'One end makes no loop, whatever the grounds of the two ends do.',
    'Kit made to AES48 wants both ends; older sites and long runs between two earths want one.',
  ),
  setting(
    'partyLineCommon',
    'Common of a powered party line',
    (s) => s.partyLineCommon,
    'Its stations share screen, common and supply return by design; holding that against each station would hide the findings that matter.',
  ),
  setting(
    'canStub.fast',
    'Longest stub of a CAN bus from 500 kbit/s on',
    (s) => formatLength(s.canStubFastMm),
    'ISO 11898 as quoted: 0.3 m at 1 Mbit/s.',
    'ISO 11898 is quoted with 0.3 m, SAE J1939-11 with 1 m; manuals of controllers allow more at low rates.',
  ),
  setting(
    'canStub.slow',
    'Longest stub below that',
    (s) => formatLength(s.canStubSlowMm),
    'SAE J1939-11 as quoted: 1 m at 250 kbit/s.',
    'ISO 11898 is quoted with 0.3 m, SAE J1939-11 with 1 m; manuals of controllers allow more at low rates.',
  ),
  setting(
    'audio.lineLossDb',
    'Most a loudspeaker line may lose',
    (s) => formatDecibels(s.lineLossDb),
    '1 dB is the least change that is heard in speech, and cab loudspeakers hang on thin wire. Cable tables for music ask for 0.5 dB: state that in a music shop.',
  ),
  setting(
    'audio.damping',
    'Least damping factor',
    (s) => (s.stated.audio?.damping === undefined ? 'not judged' : String(s.stated.audio.damping)),
    'Speech does not show it. For music 25 is usual.',
  ),
  setting(
    'rf.feederLossDb',
    'Most an antenna feeder may lose',
    (s) => formatDecibels(s.feederLossDb),
    '3 dB are half the power, on transmit and on receive.',
  ),
  setting(
    'rf.feederLengths',
    'Lengths feeders are cut to',
    (s) => s.stated.rf?.feederLengths?.map(formatLength).join(', ') ?? 'any',
    'A fleet with one length can compare its readings; a shop that fits one vehicle has nothing to compare.',
  ),
  setting(
    'supports',
    'Longest stretch without a tie or clip',
    (s) => (s.stated.supports === undefined ? 'by the place' : formatLength(s.stated.supports)),
    'Vehicles, boats and aircraft have figures of their own, printed with each finding.',
  ),
  setting(
    'remake',
    'Wire used up when a contact is made off again',
    (s) => (s.stated.remake === undefined ? 'by the rule' : formatLength(s.stated.remake)),
    'A loom lives to have its ends made twice.',
  ),
  setting(
    'colours.plus',
    'Colours of supply plus',
    (s) => s.stated.colours?.plus?.join(', ') ?? 'not judged',
    'Codes differ by trade; judged only against one the shop states.',
  ),
  setting(
    'colours.minus',
    'Colours of supply return',
    (s) => s.stated.colours?.minus?.join(', ') ?? 'not judged',
    'Codes differ by trade: black is DC minus on a vehicle and a live AC colour afloat, where yellow avoids the mistake.',
  ),
  setting(
    'parked',
    'How long a vehicle stands and still starts',
    (s) => formatDays(s.parkedDays),
    'Three weeks of holiday; common practice.',
  ),
  setting(
    'conductorTemperature',
    'Copper temperature for drops',
    (s) => formatCelsius(s.conductorCelsius),
    'Tables are made at 20 °C; at 60 °C copper has 16 % more.',
  ),
]

/** One row of the page of decisions. */
export interface Decided {
  readonly id: Decision
  readonly title: string
  readonly value: string
  /** Whether the shop says so itself, or the default holds. */
  readonly stated: boolean
  readonly reason: string
  /** The reason the shop gives. */
  readonly ownReason?: string
  readonly disagrees?: string
}

function isStated(policy: Policy, id: Decision): boolean {
  const value = id
    .split('.')
    .reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], policy)
  return value !== undefined
}

/** What is in force in a shop, with where it comes from and why. */
export function decidedIn(policy: Policy | undefined): Decided[] {
  const settings = settingsFrom(policy)
  const byId = new Map(policySettings.map((one) => [one.id, one]))
  return DECISIONS.flatMap((id): Decided[] => {
    const one = byId.get(id)
    if (!one) return []
    const { title, reason, disagrees } = one
    const own = policy?.reasons?.[id]
    return [
      {
        id,
        title,
        value: one.value(settings),
        stated: isStated(policy ?? {}, id),
        reason,
        ...(own === undefined ? {} : { ownReason: own }),
        ...(disagrees === undefined ? {} : { disagrees }),
      },
    ]
  })
}
