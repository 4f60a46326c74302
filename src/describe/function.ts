import * as z from 'zod'
import { proseText } from './name-schema.ts'
import {
  ampHoursText,
  ampsText,
  bitRateText,
  dbmText,
  dbuText,
  decibelsText,
  hertzText,
  ohmsText,
  ppmText,
  ratioText,
  voltsRange,
  voltsText,
  wattsText,
} from './quantity-schema.ts'

/** Conventional operating states. A job may add its own; a load without a figure for one falls back along this list. */
export const operatingStates = ['off', 'standby', 'receive', 'transmit'] as const

const loadAmps = z
  .union(
    [
      ampsText('Current drawn.', '12 A'),
      z.record(z.string(), ampsText('Current drawn in that operating state.', '12 A')),
    ],
    {
      error: () =>
        'expected a current such as "12 A", or one for each operating state: { "standby": "0.35 A", "transmit": "12 A" }',
    },
  )
  .meta({
    description: 'Current drawn: one figure for every state in which it is fed, or one for each state.',
  })
const loadWatts = z
  .union(
    [
      wattsText('Power drawn.', '60 W'),
      z.record(z.string(), wattsText('Power drawn in that operating state.', '60 W')),
    ],
    {
      error: () => 'expected a power such as "60 W", or one for each operating state',
    },
  )
  .meta({ description: 'Constant power drawn, for a switching supply: current rises as volts fall.' })

const common = {
  name: proseText('Signal name, as the equipment maker writes it.', 40).optional(),
  note: proseText('What else to know about the pin.', 300).optional(),
  port: proseText(
    'Pins that work together carry the same port name: the two legs of an output, a supply and its return.',
    40,
  ).optional(),
  connect: z.enum(['must', 'may', 'never']).optional().meta({
    description: 'Whether a loom has to connect it; "may" when left out, "never" for reserved pins.',
  }),
  limit: voltsRange('Voltage against the return that does no damage.', '-0.5..16 V').optional(),
}
const leg = z
  .enum(['hot', 'cold', 'single'])
  .optional()
  .meta({ description: 'hot (+), cold (−), or single against a return.' })

/** What a pin does electrically. Every figure is optional; a rule that needs one says so. */
export const pinFunction = z
  .discriminatedUnion(
    'kind',
    [
      z
        .strictObject({ kind: z.literal('unstated').default('unstated'), ...common })
        .meta({ description: 'Nothing is known but a name.' }),
      z.strictObject({
        kind: z.literal('supply-out'),
        ...common,
        volts: voltsRange('Voltage delivered: lowest to highest.', '12..14.4 V').optional(),
        feed: z
          .enum(['permanent', 'ignition', 'accessory', 'switched'])
          .optional()
          .meta({ description: 'permanent = terminal 30, ignition = 15 (DIN 72552).' }),
        maxAmps: ampsText('Most it can deliver.', '5 A').optional(),
        resistance: ohmsText('Source resistance.', '10 mΩ').optional(),
        capacity: ampHoursText('Usable charge of a battery.').optional(),
        battery: z.boolean().optional().meta({
          description: 'This is a battery terminal: unfused energy, and the place where drain is counted.',
        }),
        fused: ampsText('Rating of the fuse that the vehicle has before this tap.', '15 A').optional(),
        loaded: ampsText('What the circuit of this tap carries already.', '6 A').optional(),
        cranking: voltsText('Lowest voltage here while an engine cranks.', '6.5 V').optional(),
        addOn: z.boolean().optional().meta({
          description: 'The maker offers this point for added equipment.',
        }),
      }),
      z.strictObject({
        kind: z.literal('supply-in'),
        ...common,
        volts: voltsRange('Voltage it works on.', '10.8..15.6 V').optional(),
        amps: loadAmps.optional(),
        watts: loadWatts.optional(),
        inrush: ampsText('Switch-on peak.', '30 A').optional(),
        awake: z.string().max(40).optional().meta({
          description:
            'Sense pin that switches it on, such as "J2.10": with that pin dead it draws its "off" current only.',
        }),
        motor: z
          .boolean()
          .optional()
          .meta({ description: 'Motor, horn or pump: inductive, not electronics.' }),
        survivesCranking: z
          .boolean()
          .optional()
          .meta({ description: 'Has to go on working while an engine cranks.' }),
      }),
      z.strictObject({
        kind: z.literal('return'),
        ...common,
        isolated: z
          .boolean()
          .optional()
          .meta({ description: 'Common that must stay off ship or vehicle ground.' }),
      }),
      z.strictObject({
        kind: z.literal('chassis'),
        ...common,
        earth: z.boolean().optional().meta({ description: 'Protective earth of mains equipment.' }),
      }),
      z.strictObject({ kind: z.literal('signal-return'), ...common, isolated: z.boolean().optional() }),
      z.strictObject({ kind: z.literal('shield'), ...common }),
      z.strictObject({
        kind: z.literal('audio-out'),
        ...common,
        level: z.enum(['mic', 'line', 'headphone', 'speaker']),
        leg,
        bridged: z
          .boolean()
          .optional()
          .meta({ description: 'Bridge-tied: both legs are driven, neither may meet ground.' }),
        ohms: ohmsText('Source impedance.', '150 Ω').optional(),
        minLoad: ohmsText('Lowest load impedance allowed.', '4 Ω').optional(),
        watts: wattsText('Power into the lowest load.').optional(),
        dbu: dbuText('Nominal level.').optional(),
        bias: voltsText(
          'DC put out on the line: phantom, microphone bias, party-line feed.',
          '48 V',
        ).optional(),
        lineVolts: voltsText('Voltage of a constant-voltage loudspeaker line.', '100 V').optional(),
        element: z
          .enum(['dynamic', 'electret', 'ribbon'])
          .optional()
          .meta({ description: 'Kind of microphone.' }),
      }),
      z.strictObject({
        kind: z.literal('audio-in'),
        ...common,
        level: z.enum(['mic', 'line', 'headphone', 'speaker']),
        leg,
        ohms: ohmsText(
          'Input impedance, or nominal impedance of a loudspeaker or earphone.',
          '10 kΩ',
        ).optional(),
        watts: wattsText('Power a loudspeaker is rated for.', '40 W').optional(),
        tap: wattsText(
          'Power taken from a constant-voltage line, by the tap of its transformer.',
          '6 W',
        ).optional(),
        dbu: dbuText('Nominal level.').optional(),
        bias: voltsText('Microphone bias or phantom it puts out.', '8 V').optional(),
        element: z
          .enum(['dynamic', 'electret', 'ribbon'])
          .optional()
          .meta({ description: 'Kind of microphone it is made for.' }),
      }),
      z.strictObject({
        kind: z.literal('switch-out'),
        ...common,
        form: z.enum(['open-collector', 'contact', 'push-pull']),
        maxAmps: ampsText('Most it may switch.', '100 mA').optional(),
        maxVolts: voltsText('Most it may hold off.', '30 V').optional(),
        active: z.enum(['low', 'high']).optional(),
        saturation: voltsText('Voltage left across it when on.', '0.4 V').optional(),
        purpose: z.enum(['key', 'alarm', 'squelch', 'other']).optional(),
      }),
      z.strictObject({
        kind: z.literal('switch-in'),
        ...common,
        active: z.enum(['low', 'high']).optional(),
        pull: z.enum(['up', 'down', 'none']).optional(),
        pullOhms: ohmsText('Pull resistor.', '10 kΩ').optional(),
        rail: voltsText('Voltage it is pulled to.', '5 V').optional(),
        lowBelow: voltsText('Surely taken as low below this.', '0.8 V').optional(),
        highAbove: voltsText('Surely taken as high above this.', '2 V').optional(),
        purpose: z
          .enum(['key', 'alarm', 'squelch', 'other'])
          .optional()
          .meta({ description: 'key = puts a transmitter on air.' }),
        wants: z.enum(['dry-contact', 'voltage', 'any']).optional(),
      }),
      z.strictObject({
        kind: z.literal('sense'),
        ...common,
        wants: z
          .enum(['permanent', 'ignition', 'accessory'])
          .optional()
          .meta({ description: 'Feed it should follow.' }),
        amps: ampsText('Current it takes.', '5 mA').optional(),
      }),
      z
        .strictObject({
          kind: z.literal('contact'),
          ...common,
          rest: z.enum(['open', 'closed']).optional(),
          maxAmps: ampsText('Most it may switch.', '2 A').optional(),
        })
        .meta({ description: 'One side of a volt-free contact; both sides carry the same port.' }),
      z
        .strictObject({
          kind: z.literal('coil'),
          ...common,
          ohms: ohmsText('Coil resistance.', '80 Ω').optional(),
          side: z.enum(['plus', 'minus', 'any']).optional(),
          suppressed: z.enum(['none', 'diode', 'resistor', 'tvs']).optional(),
        })
        .meta({ description: 'One end of a relay, solenoid or horn coil; both ends carry the same port.' }),
      z.strictObject({
        kind: z.literal('data'),
        ...common,
        standard: z.enum([
          'tia-232',
          'tia-485',
          'tia-422',
          'can',
          'usb-2.0',
          'ethernet',
          'iec-61162-1',
          'audio-aes3',
          'ttl',
          'proprietary',
        ]),
        line: proseText('Line name in that standard: TXD, RXD, CAN_H, A, B, TX+.', 20),
        direction: z.enum(['in', 'out', 'both']).optional(),
        idle: z.enum(['high', 'low']).optional().meta({
          description: 'Level of the line at rest, which tells A from B whatever the maker calls them.',
        }),
        terminates: ohmsText('Termination fitted inside the equipment.').optional(),
        bitRate: bitRateText('Rate it works at.').optional(),
        isolated: z.boolean().optional(),
      }),
      z.strictObject({
        kind: z.literal('rf'),
        ...common,
        ohms: ohmsText('Characteristic impedance.', '50 Ω').optional(),
        watts: wattsText('Power.', '40 W').optional(),
        from: hertzText('Lowest frequency.').optional(),
        to: hertzText('Highest frequency.', '174 MHz').optional(),
        tolerance: ppmText('Most its carrier may be off frequency.').optional(),
        deviation: hertzText('Most it may deviate.', '2.5 kHz').optional(),
        sensitivity: dbmText('Weakest signal it receives with 12 dB SINAD.').optional(),
        vswr: ratioText('Highest standing wave ratio of an antenna over its band.').optional(),
        gain: decibelsText('Gain of an antenna over an isotropic one.').optional(),
      }),
      z.strictObject({ kind: z.literal('reserved'), ...common }).meta({ description: 'Do not connect.' }),
      z.strictObject({ kind: z.literal('spare'), ...common }),
    ],
    { error: () => 'a pin says what it does: kind "supply-in", "return", "audio-out", … (or "unstated")' },
  )
  .meta({ id: 'PinFunction' })

export type PinFunction = z.output<typeof pinFunction>
export type PinFunctionInput = z.input<typeof pinFunction>
export type PinKind = PinFunction['kind']
/** The function of one kind, with its own fields. */
export type FunctionOf<K extends PinKind> = Extract<PinFunction, { kind: K }>
