import type { Loom, Terminal } from '../../resolve/loom.ts'
import { type Crosses, throughFuses, walk } from '../../solve/reach.ts'
import { wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Rule } from '../rule.ts'

const example = (wants: 'dry-contact' | 'any') =>
  wired({
    units: {
      alarm: {
        pins: {
          '1': { kind: 'switch-out', form: 'push-pull', active: 'high' },
          '2': { kind: 'signal-return' },
        },
      },
      radio: {
        pins: {
          '1': { kind: 'switch-in', wants, active: 'high', pull: 'down' },
          '2': { kind: 'signal-return' },
        },
      },
    },
    runs: [
      ['alarm.1', 'radio.1'],
      ['alarm.2', 'radio.2'],
    ],
  })

/** Through metal, fuses and everything that can close. */
const throughContacts: Crosses = (link, from) =>
  throughFuses(link, from) ||
  link.kind === 'switch' ||
  link.kind === 'relay-contact' ||
  (link.kind === 'diode' && link.b === from)

const givesVolts = ({ on, does }: Terminal): boolean =>
  on === 'equipment' &&
  (does.kind === 'supply-out' || (does.kind === 'switch-out' && does.form === 'push-pull'))

const reachesVolts = (loom: Loom, input: Terminal): Terminal | undefined =>
  walk(loom, input, throughContacts).order.find((pin) => pin !== input && givesVolts(pin))

export const inputKindFits: Rule = {
  id: 'input-kind-fits',
  title: 'Dry inputs get contacts, wet inputs get a voltage',
  family: 'switching',
  level: 'stop',
  covers: ['L7'],
  reason:
    'An input made for a contact feeds the contact itself, and a voltage from outside drives into its pull-up or breaks it. An input that wants a voltage never notices a contact to ground.',
  remedy: 'An optocoupler or a relay between the two.',
  needs: '"wants" of the input',
  sources: ['common practice'],
  examples: { trips: example('dry-contact'), passes: example('any') },
  *check({ loom, paths }) {
    for (const input of loom.terminals) {
      const { does } = input
      if (input.on !== 'equipment' || does.kind !== 'switch-in') continue
      if (does.wants !== 'dry-contact' && does.wants !== 'voltage') continue
      const net = paths.nets.net(input)
      if (net.terminals.length < 2 || net.conductors.length === 0) continue
      const volts = reachesVolts(loom, input)
      if (does.wants === 'dry-contact' ? !volts : volts !== undefined) continue
      yield found({
        subject: input.address,
        what: volts
          ? `${input.address} wants a contact and gets a voltage from ${pinWords(volts)}`
          : `${input.address} wants a voltage, and nothing on its line gives one`,
        why: volts
          ? 'Its own pull-up feeds the contact; what comes from outside works against that.'
          : 'A contact to ground moves no current into an input without a pull-up.',
        fix: volts
          ? 'Put a relay or an optocoupler between.'
          : 'Bring a voltage to the far side of the contact.',
        facts: { wants: { value: does.wants } },
        at: input.at,
        marks: [
          input.address,
          ...(volts ? [volts.address] : []),
          ...net.conductors.map((wire) => wire.address),
        ],
      })
    }
  },
}
