import type { Half } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { count, found, listOf } from '../outcome.ts'
import { landings } from '../queries/landings.ts'
import type { Rule } from '../rule.ts'

const example = (plugEmpty: boolean) =>
  exampleLead({
    parts: [rowHousing(3, { sealed: true })],
    equipment: [unitOf('sensor', socket('J1', 'row-3', { '1': { kind: 'signal-return' } }))],
    harness: {
      connectors: [{ id: 'P1', family: 'row-3', half: 'pin', fits: 'sensor.J1', plugEmpty }],
      splices: [{ id: 'SP1', kind: 'cap' }],
      wires: [{ id: 'A01', from: 'P1.1', to: 'SP1', size: '0.5 mm²' }],
    },
  })

function plugged(half: Half, pin: string): boolean {
  const { source } = half
  if ('plugEmpty' in source && source.plugEmpty) return true
  const pins = source.pins as Readonly<Record<string, { readonly plugged?: boolean | undefined }>> | undefined
  return pins !== undefined && Object.hasOwn(pins, pin) && pins[pin]?.plugged === true
}

export const emptyCavitiesPlugged: Rule = {
  id: 'empty-cavities-plugged',
  title: 'Empty cavities of a sealed connector are plugged',
  family: 'crimping',
  level: 'warning',
  covers: ['C4'],
  reason:
    'One open cavity floods a sealed connector. Water stands between its contacts and eats them, positive ones first.',
  remedy: 'Fit a cavity plug in each empty cavity and put the plugs on the pick list.',
  needs: 'that the family is sealed, and which cavities are plugged',
  sources: ['FAA AC 43.13-1B ¶11-234', 'sealed-connector guides, as reported'],
  examples: { trips: example(false), passes: example(true) },
  *check({ loom }) {
    const wired = landings(loom)
    for (const half of loom.halves) {
      if (half.side !== 'harness' || !half.family?.sealed) continue
      const pins = [...half.pins.values()].filter((pin) => pin.name !== 'shell')
      if (!pins.some((pin) => wired.has(pin))) continue
      const open = pins.filter((pin) => !wired.has(pin) && !plugged(half, pin.name))
      if (open.length === 0) continue
      const names = open.map((pin) => pin.name)
      yield found({
        subject: half.address,
        what: `${half.address} is sealed and has ${count(open.length, 'open cavity', 'open cavities')}: ${listOf(names)}`,
        why: `${pins.length} cavities, ${pins.length - open.length} with a wire or a plug: water gets in through the rest.`,
        fix: `Fit ${count(open.length, 'cavity plug')} and state plugEmpty, or plugged for each cavity.`,
        facts: { open: { value: names.join(' ') }, cavities: { value: pins.length } },
        at: half.at,
        marks: open.map((pin) => pin.address),
      })
    }
  },
}
