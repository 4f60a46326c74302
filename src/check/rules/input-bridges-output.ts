import { formatDecibels, formatOhms } from '../../base/format-quantity.ts'
import { audioLine } from '../../solve/audio-line.ts'
import { bridgingLossDb } from '../../solve/formulas/bridging-loss.ts'
import { parallelOhms } from '../../solve/formulas/impedance.ts'
import { wired } from '../examples/wired.ts'
import { count, found } from '../outcome.ts'
import { audioLinks } from '../queries/audio-links.ts'
import type { Rule } from '../rule.ts'

const example = (ohms: '1.2 kΩ' | '10 kΩ') =>
  wired({
    units: {
      desk: {
        pins: {
          '1': { kind: 'audio-out', level: 'line', leg: 'single', port: 'out', ohms: '600 Ω' },
          '2': { kind: 'signal-return', port: 'out' },
        },
      },
      radio: {
        pins: {
          '1': { kind: 'audio-in', level: 'line', leg: 'single', port: 'in', ohms },
          '2': { kind: 'signal-return', port: 'in' },
        },
      },
    },
    runs: [
      ['desk.1', 'radio.1'],
      ['desk.2', 'radio.2'],
    ],
  })

const LEAST_RATIO = { line: 10, mic: 5 } as const

export const inputBridgesOutput: Rule = {
  id: 'input-bridges-output',
  title: 'The inputs on a line do not load its output',
  family: 'audio',
  level: 'warning',
  covers: ['A10'],
  reason:
    'Inputs in parallel pull the level of an output down and its distortion up; by the third recorder the line is too low for all of them.',
  remedy:
    'Fewer inputs, a distribution amplifier, or a higher input impedance. A 600 Ω line matched on purpose is left alone.',
  needs: '"ohms" of outputs and inputs',
  sources: ['line inputs of 10 kΩ and more against outputs of 100 Ω to 600 Ω: common practice'],
  examples: { trips: example('1.2 kΩ'), passes: example('10 kΩ') },
  *check({ loom, paths, solution }) {
    for (const net of loom.nets)
      for (const { output, inputs } of audioLinks(net)) {
        const { level, ohms: source } = output.does
        if ((level !== 'line' && level !== 'mic') || source === undefined) continue
        const known = inputs.flatMap(({ does }) =>
          does.ohms === undefined || does.level === 'speaker' ? [] : [does.ohms],
        )
        if (known.length === 0) continue
        const load = parallelOhms(known)
        const matched = load > source * 0.8 && load < source * 1.25
        if (load >= source * LEAST_RATIO[level] * 0.999 || matched) continue
        const line = audioLine(loom, paths.nets, solution.linkOhms, output)
        const ratios = line?.inputs.map(({ ratio }) => ratio).filter((ratio) => ratio > 0) ?? []
        const loss = ratios.length > 0 ? 20 * Math.log10(Math.min(...ratios)) : bridgingLossDb(source, load)
        yield found({
          subject: output.address,
          what: `${count(known.length, 'input')} of ${formatOhms(load)} together load ${output.address} of ${formatOhms(source)}: ${formatDecibels(loss)}`,
          why: `${formatOhms(load)} is ${(load / source).toFixed(1)} times ${formatOhms(source)}; ${LEAST_RATIO[level]} times is wanted.`,
          fix: `Bring the inputs to ${formatOhms(source * LEAST_RATIO[level])} together, or put a distribution amplifier between.`,
          facts: {
            load: { value: load, unit: 'Ω' },
            source: { value: source, unit: 'Ω' },
            loss: { value: loss, unit: 'dB' },
          },
          at: net.conductors[0]?.at ?? output.at,
          marks: [output.address, ...inputs.map((input) => input.address)],
        })
      }
  },
}
