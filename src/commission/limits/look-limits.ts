import type { RuleContext } from '../../check/rule.ts'
import type { Half, Loom, Terminal } from '../../resolve/loom.ts'
import { halfName, pinName } from '../../sheets/names.ts'
import { ringOutSteps } from '../../sheets/ring-out.ts'
import type { Solution } from '../../solve/solution.ts'
import { lookLimit } from '../figure-limit.ts'
import type { Limits, LookLimit } from '../limit.ts'

/** Ring-out of every loom before it was fitted. */
export function benchLimits(loom: Loom, solution: Solution): Limits {
  const limits = loom.looms.map((use) => {
    const groups = ringOutSteps(loom, use, solution).map(({ title, steps }) => `${title} ${steps.length}`)
    return lookLimit({
      id: `${use.id}/ring-out`,
      group: 'bench',
      what: `Ring-out of ${use.id} (${use.harness.title})`,
      how: 'Done on the bench, every step passed, by somebody other than its maker; loom serial written down above. An as-built record of that serial answers it.',
      sum: `Steps of its sheet: ${groups.join(', ')}.`,
      source: 'ring-out sheet',
      address: use.id,
    })
  })
  return { limits, missing: [] }
}

const isKey = ({ on, does, half }: Terminal): boolean =>
  on === 'equipment' && half?.mate !== undefined && does.kind === 'switch-in' && does.purpose === 'key'

/** Keys, ignition and alarms: what has to happen, and what must not. */
export function logicLimits({ loom }: RuleContext): Limits {
  const keys = loom.terminals.filter(isKey)
  const halves = [...new Set(keys.flatMap(({ half }) => half ?? []))]
  const senses = loom.terminals.filter(
    ({ on, does, half }) =>
      on === 'equipment' && half?.mate !== undefined && does.kind === 'sense' && does.wants !== 'permanent',
  )
  const alarms = loom.terminals.filter(
    ({ on, does, half }) =>
      on === 'equipment' &&
      half?.mate !== undefined &&
      does.kind === 'switch-out' &&
      does.purpose === 'alarm',
  )
  const transmits = loom.terminals.some(({ does }) => does.kind === 'rf' && does.watts !== undefined)
  return {
    limits: [
      ...halves.map((half) => unpluggedLook(half)),
      ...keys.map((key) => keyLook(key)),
      ...senses.map((sense) => senseLook(sense)),
      ...alarms.map((alarm) => alarmLook(alarm)),
      ...(transmits ? [timeoutLook()] : []),
    ],
    missing: [],
  }
}

const unpluggedLook = (half: Half): LookLimit =>
  lookLimit({
    id: `${half.address}/unplugged`,
    group: 'logic',
    what: `${halfName(half)} unplugged: nothing is on air`,
    how: 'Into the dummy load: pull the plug, watch the wattmeter; then wiggle the cable near it.',
    sum: 'A key line that floats or shorts in a worn plug holds the transmitter on.',
    source: 'common practice',
    rule: 'cable-fault-keys',
    address: half.address,
    level: 'stop',
  })

const keyLook = (key: Terminal): LookLimit =>
  lookLimit({
    id: `${key.address}/keys`,
    group: 'logic',
    what: `${pinName(key)} keys, and lets go`,
    how: 'Dummy load: on with each press, off with each release, ten times.',
    sum: 'Every key input that is wired.',
    source: 'common practice',
    address: key.address,
    level: 'stop',
  })

const senseLook = (sense: Terminal): LookLimit =>
  lookLimit({
    id: `${sense.address}/follows`,
    group: 'logic',
    what: `${pinName(sense)} follows its feed`,
    how: 'Feed on: it comes up. Feed off: it goes down after its own delay, and stays down.',
    sum: 'What stays up flattens the battery.',
    source: 'common practice',
    rule: 'ignition-sense-permanent',
    address: sense.address,
  })

const alarmLook = (alarm: Terminal): LookLimit =>
  lookLimit({
    id: `${alarm.address}/alarm`,
    group: 'logic',
    what: `Alarm of ${pinName(alarm)} sounds, and stops`,
    how: 'Warn everybody. One second; it must not sound when the radio is switched on or off.',
    sum: 'Output, relay and load in one go.',
    source: 'common practice',
    address: alarm.address,
  })

const timeoutLook = (): LookLimit =>
  lookLimit({
    id: 'check/time-out',
    group: 'logic',
    what: 'The transmitter lets go by itself at its time-out',
    how: 'Into the dummy load, key held down; note the seconds.',
    sum: 'A stuck key then costs a minute and not a battery or a channel.',
    source: 'common practice',
  })

const asset = (id: string, what: string, how: string, sum: string, source: string): LookLimit =>
  lookLimit({ id: `check/${id}`, group: 'asset', what, how, sum, source })

/** The vehicle, vessel or room as a whole. */
export function assetLimits(loom: Loom): Limits {
  const transmits = loom.terminals.some(({ does }) => does.kind === 'rf' && does.watts !== undefined)
  const audio = loom.terminals.some(
    ({ on, does }) =>
      on === 'equipment' &&
      does.kind === 'audio-in' &&
      (does.level === 'speaker' || does.level === 'headphone'),
  )
  const vehicle = loom.setting === 'vehicle'
  const boat = loom.setting === 'boat'
  const code = 'FCS 1362 (2010 issue), commissioning'
  const limits = [
    ...(vehicle
      ? [
          asset(
            'warning-lamps',
            'No warning lamp is on that was not on before',
            'Ignition on, engine running; restraint lamp goes out as the handbook says.',
            'Compare with the condition report made before work began.',
            code,
          ),
          asset(
            'vehicle-steady',
            'Vehicle steady while transmitting',
            'Engine about 1500 r/min, each band, full power: indicators, wipers, engine, instruments, locks.',
            'Radio energy gets into electronics; each band differs.',
            code,
          ),
          asset(
            'road-test',
            'Short road test',
            'Talk both ways; nothing rattles, nothing is in the way of pedals, wheel, view or airbags.',
            'Last chance before the driver finds it.',
            code,
          ),
        ]
      : []),
    ...(boat
      ? [
          asset(
            'compass',
            'Compass unmoved',
            'Compare headings with everything off, then on, and transmitting.',
            'Loudspeakers and feeders near it pull it.',
            'common practice',
          ),
          asset(
            'bilge',
            'Bilge pump runs by float and by hand',
            'Lift the float; everything else off.',
            'It has to work with nobody on board.',
            'common practice',
          ),
          asset(
            'boat-steady',
            'Instruments steady while transmitting',
            'Everything on, full power: plotter, pilot, sensors, lights.',
            'Radio energy gets into electronics.',
            'common practice',
          ),
        ]
      : []),
    ...(loom.setting === 'vehicle' || boat
      ? [
          asset(
            'engine-noise',
            'No engine noise in the audio',
            'Engine about 1500 r/min, lights and blower on: listen, then transmit and ask the other end.',
            'Noise of the charging system shows only under load.',
            code,
          ),
        ]
      : []),
    ...(audio
      ? [
          lookLimit({
            id: 'check/audio',
            group: 'audio',
            what: 'Speech clear in every loudspeaker, handset and headset',
            how: 'Volume down first. Each one alone, then at the level of use; same polarity: stand between two.',
            sum: 'Every input and output once, with the person who will use them.',
            source: 'common practice',
          }),
        ]
      : []),
    ...(transmits
      ? [
          asset(
            'both-ways',
            'Understood both ways at the edge of the area',
            'Lowest, middle and highest channel; ask the other end for a report.',
            'The easy channel proves little.',
            code,
          ),
        ]
      : []),
    asset(
      'shown',
      'Shown to the user, who can work it',
      'Every control; what to do when a fuse goes; where this paper is kept.',
      'User and installer sign.',
      code,
    ),
  ]
  return { limits, missing: [] }
}
