import type { PinFunction } from '../../describe/function.ts'
import type { Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, unknown } from '../outcome.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule } from '../rule.ts'

type Level = 'low' | 'high'

const example = (active: Level) =>
  exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf(
        'receiver',
        socket('J1', 'row-2', {
          '1': { kind: 'switch-out', form: 'open-collector', active: 'low', purpose: 'squelch', name: 'COR' },
          '2': { kind: 'signal-return' },
        }),
      ),
      unitOf(
        'controller',
        socket('J2', 'row-2', {
          '1': { kind: 'switch-in', active, pull: 'up', rail: '5 V', purpose: 'squelch', name: 'COR' },
          '2': { kind: 'signal-return' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'receiver.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'controller.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.22 mm²' },
        { id: 'A02', from: 'P1.2', to: 'P2.2', size: '0.22 mm²' },
      ],
    },
  })

/** An open collector can only pull down; of other outputs the description has to say. */
function activeOf(does: PinFunction): Level | undefined {
  if (does.kind === 'switch-in') return does.active
  if (does.kind !== 'switch-out') return undefined
  return does.active ?? (does.form === 'open-collector' ? 'low' : undefined)
}

/** Lines that put a transmitter on the air or sound an alarm; the others only do not work. */
const DANGEROUS = ['key', 'alarm'] as const

function judge(output: Terminal, input: Terminal): Outcome | undefined {
  const [out, in_] = [activeOf(output.does), activeOf(input.does)]
  for (const [pin, level] of [
    [output, out],
    [input, in_],
  ] as const)
    if (level === undefined)
      return unknown(pin.address, `needs whether ${pin.address} is active low or high`, pin.at)
  if (out === in_) return undefined
  const purposes = [output, input].map(({ does }) => ('purpose' in does ? does.purpose : undefined))
  const [wire] = [output, input].map((pin) => pin.half?.mate?.at)
  return found({
    subject: input.address,
    level: DANGEROUS.some((purpose) => purposes.includes(purpose)) ? 'stop' : 'warning',
    what: `${pinWords(output)} is active ${out} and ${pinWords(input)} is active ${in_}`,
    why: `What the output means as on the input takes for off: it works the wrong way round, and is on whenever ${output.half?.unit?.id ?? 'the other end'} is at rest.`,
    fix: 'Turn the sense in the settings of either unit; where there is none, put an inverter or an optocoupler between.',
    facts: { output: { value: `active ${out}` }, input: { value: `active ${in_}` } },
    at: wire ?? input.at,
    marks: [output.address, input.address],
  })
}

export const activeLevel: Rule = {
  id: 'active-level',
  title: 'Both ends agree on which level is active',
  family: 'switching',
  level: 'stop',
  covers: ['L3'],
  reason:
    'A key line that is active low at one end and high at the other holds the transmitter on whenever nobody speaks.',
  remedy: 'Change the setting at one end, or invert the line.',
  needs: 'the active level of outputs and inputs',
  sources: ['repeater-controller manuals: carrier-operated outputs come active high and active low'],
  examples: { trips: example('high'), passes: example('low') },
  *check({ loom, paths }) {
    for (const net of loom.nets) {
      const outputs = paths.nets.pins(net, 'switch-out')
      if (outputs.length === 0) continue
      for (const input of paths.nets.pins(net, 'switch-in'))
        for (const output of outputs) {
          if (output.half?.unit === input.half?.unit) continue
          const outcome = judge(output, input)
          if (outcome) yield outcome
        }
    }
  },
}
