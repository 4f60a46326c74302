import { formatVolts } from '../../base/format-quantity.ts'
import type { Link, Loom, Terminal } from '../../resolve/loom.ts'
import { across } from '../../solve/reach.ts'
import { wired } from '../examples/wired.ts'
import { found, unknown } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (lowBelow: '0.8 V' | '1.5 V') =>
  wired({
    units: {
      controller: {
        pins: {
          '1': {
            kind: 'switch-out',
            form: 'open-collector',
            active: 'low',
            saturation: '0.4 V',
            maxAmps: '0.1 A',
            maxVolts: '30 V',
          },
          '2': { kind: 'signal-return' },
        },
      },
      radio: {
        pins: {
          '1': { kind: 'switch-in', active: 'low', pull: 'up', rail: '5 V', pullOhms: '10 kΩ', lowBelow },
          '2': { kind: 'signal-return' },
        },
      },
    },
    components: [{ id: 'D1', kind: 'diode', maxAmps: '1 A' }],
    runs: [
      ['radio.1', 'D1.a'],
      ['D1.k', 'controller.1'],
      ['radio.2', 'controller.2'],
    ],
  })

const DIODE_VOLTS = 0.7

interface Way {
  readonly output: Terminal
  /** A diode or resistor between; none for the same net. */
  readonly through?: Link
}

/** Switched outputs that pull an input low, straight or through one diode or resistor. */
function waysTo(loom: Loom, input: Terminal): readonly Way[] {
  const net = loom.nets[loom.netOf[input.index] ?? -1]
  const outputs = (terminals: readonly Terminal[]) =>
    terminals.filter((pin) => pin.on === 'equipment' && pin.does.kind === 'switch-out')
  const ways: Way[] = outputs(net?.terminals ?? []).map((output) => ({ output }))
  for (const terminal of net?.terminals ?? [])
    for (const link of loom.linksAt[terminal.index] ?? []) {
      if (link.kind !== 'resistor' && !(link.kind === 'diode' && link.a === terminal)) continue
      const far = loom.nets[loom.netOf[across(link, terminal).index] ?? -1]
      for (const output of outputs(far?.terminals ?? [])) ways.push({ output, through: link })
    }
  return ways
}

/** Volts at the input with the output on. */
function lowVolts({ output, through }: Way, input: Terminal): number | undefined {
  const [out, inn] = [output.does, input.does]
  if (out.kind !== 'switch-out' || inn.kind !== 'switch-in') return undefined
  const saturation = out.form === 'contact' ? 0 : out.saturation
  if (saturation === undefined || !through) return saturation
  if (through.kind === 'diode') return saturation + DIODE_VOLTS
  if (inn.pullOhms === undefined || inn.rail === undefined || through.ohms === undefined) return undefined
  return saturation + ((inn.rail - saturation) * through.ohms) / (through.ohms + inn.pullOhms)
}

export const logicLevels: Rule = {
  id: 'logic-levels',
  title: 'A low is low enough and a high is high enough',
  family: 'switching',
  level: 'warning',
  covers: ['L4'],
  reason:
    'A transistor leaves a few tenths of a volt and a diode adds more. The input that wants less than 0.8 V then sees its key line only on good days.',
  remedy: 'A transistor with less left over, no diode in the line, or an input with a higher threshold.',
  needs: '"saturation" of the output, "lowBelow" and "highAbove" of the input',
  sources: ['field notes: a "low" of 0.5 V to 0.6 V not seen', 'common practice'],
  examples: { trips: example('0.8 V'), passes: example('1.5 V') },
  *check({ loom }) {
    for (const input of loom.terminals) {
      const { does } = input
      if (input.on !== 'equipment' || does.kind !== 'switch-in') continue
      if (
        does.highAbove !== undefined &&
        does.pull === 'up' &&
        does.rail !== undefined &&
        does.rail < does.highAbove
      )
        yield found({
          subject: input.address,
          what: `${input.address} rests at ${formatVolts(does.rail)} and takes only ${formatVolts(does.highAbove)} as high`,
          why: 'Its pull-up does not reach its own threshold.',
          fix: 'Pull it to a higher rail within its limit.',
          facts: { rail: { value: does.rail, unit: 'V' }, threshold: { value: does.highAbove, unit: 'V' } },
          at: input.at,
          marks: [input.address],
        })
      if (does.lowBelow === undefined) continue
      for (const way of waysTo(loom, input)) {
        const volts = lowVolts(way, input)
        if (volts === undefined) {
          yield unknown(
            input.address,
            `needs the saturation of ${way.output.address} and the resistances between`,
            input.at,
          )
          continue
        }
        if (volts < does.lowBelow) continue
        yield found({
          subject: input.address,
          what: `${input.address} sees ${formatVolts(volts)} with ${way.output.address} on, and takes only less than ${formatVolts(does.lowBelow)} as low`,
          why: `The output leaves ${formatVolts(way.output.does.kind === 'switch-out' ? (way.output.does.saturation ?? 0) : 0)}${way.through ? `, and ${way.through.component?.id ?? way.through.kind} adds the rest` : ''}.`,
          fix: 'Use an output that pulls lower, leave the diode out, or change the threshold.',
          assumed: way.through?.kind === 'diode' ? [`${formatVolts(DIODE_VOLTS)} across a diode`] : [],
          facts: { volts: { value: volts, unit: 'V' }, threshold: { value: does.lowBelow, unit: 'V' } },
          at: input.at,
          marks: [input.address, way.output.address],
        })
      }
    }
  },
}
