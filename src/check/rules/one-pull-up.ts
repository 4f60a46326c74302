import { formatVolts } from '../../base/format-quantity.ts'
import type { Loom, Net, Terminal } from '../../resolve/loom.ts'
import { across } from '../../solve/reach.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf, unknown } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (pull: 'none' | 'up') =>
  wired({
    units: {
      controller: {
        pins: {
          '1': {
            kind: 'switch-out',
            form: 'open-collector',
            active: 'low',
            maxAmps: '0.1 A',
            maxVolts: '30 V',
          },
          '2': { kind: 'signal-return' },
        },
      },
      logger: {
        pins: {
          '1': {
            kind: 'switch-in',
            active: 'low',
            pull,
            ...(pull === 'up' ? { rail: '5 V' as const, pullOhms: '10 kΩ' as const } : {}),
          },
          '2': { kind: 'signal-return' },
        },
      },
    },
    runs: [
      ['controller.1', 'logger.1'],
      ['controller.2', 'logger.2'],
    ],
  })

interface Pull {
  readonly address: string
  readonly rail: number | undefined
}

/** Pull-ups on a net: those inside inputs, and resistors to a supply. */
function pullsOn(loom: Loom, net: Net): readonly Pull[] {
  const pulls: Pull[] = []
  for (const terminal of net.terminals) {
    const { does } = terminal
    if (terminal.on === 'equipment' && does.kind === 'switch-in' && does.pull === 'up')
      pulls.push({ address: terminal.address, rail: does.rail })
    for (const link of loom.linksAt[terminal.index] ?? []) {
      if (link.kind !== 'resistor') continue
      const far = loom.circuits[loom.circuitOf[loom.netOf[across(link, terminal).index] ?? -1] ?? -1]
      const supply = far?.terminals.find((pin) => pin.on === 'equipment' && pin.does.kind === 'supply-out')
      if (supply?.does.kind === 'supply-out')
        pulls.push({ address: link.component?.address ?? terminal.address, rail: supply.does.volts?.max })
    }
  }
  return pulls
}

const SAME_RAIL = 0.15

export const onePullUp: Rule = {
  id: 'one-pull-up',
  title: 'An open-collector line has a pull-up, to one rail',
  family: 'switching',
  level: 'warning',
  covers: ['L5'],
  reason:
    'An open collector only pulls down. With nothing to pull the line up the input floats and sees whatever it likes; with two rails the higher one feeds into the lower input.',
  remedy: 'One pull-up of 1 kΩ to 10 kΩ to the rail of the input.',
  needs: '"pull" and "rail" of the inputs',
  sources: ['common practice'],
  examples: { trips: example('none'), passes: example('up') },
  *check({ loom }) {
    for (const net of loom.nets) {
      const equipment = net.terminals.filter((pin) => pin.on === 'equipment')
      const output = equipment.find(
        (pin) => pin.does.kind === 'switch-out' && pin.does.form === 'open-collector',
      )
      const inputs = equipment.filter((pin): pin is Terminal => pin.does.kind === 'switch-in')
      const first = inputs[0]
      if (!output || !first) continue
      const pulls = pullsOn(loom, net)
      if (pulls.length === 0) {
        const silent = inputs.find((pin) => pin.does.kind === 'switch-in' && pin.does.pull === undefined)
        if (silent) {
          yield unknown(silent.address, `needs whether ${silent.address} has a pull-up inside`, silent.at)
          continue
        }
        yield found({
          subject: first.address,
          what: `Nothing pulls ${first.address} up, and ${output.address} only pulls down`,
          why: 'With the output off the line floats, and noise decides what the input sees.',
          fix: 'Add a resistor of 1 kΩ to 10 kΩ from the line to the rail of the input.',
          facts: { output: { value: output.address }, pullUps: { value: 0 } },
          at: first.at,
          marks: [first.address, output.address],
        })
        continue
      }
      const rails = pulls.flatMap((pull) => (pull.rail === undefined ? [] : [pull.rail]))
      const [low, high] = [Math.min(...rails), Math.max(...rails)]
      if (rails.length < 2 || high - low <= SAME_RAIL * high) continue
      yield found({
        subject: first.address,
        what: `The line of ${first.address} is pulled to ${formatVolts(low)} and to ${formatVolts(high)}`,
        why: `${listOf(pulls.map((pull) => pull.address))} fight; the higher rail feeds into the input of the lower.`,
        fix: 'Keep one pull-up, or part the inputs with a diode each.',
        facts: { low: { value: low, unit: 'V' }, high: { value: high, unit: 'V' } },
        at: first.at,
        marks: [output.address, ...pulls.map((pull) => pull.address)],
      })
    }
  },
}
