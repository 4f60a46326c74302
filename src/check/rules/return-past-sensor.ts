import type { ComponentUse, Conductor, Link, Loom, Terminal } from '../../resolve/loom.ts'
import { across } from '../../solve/reach.ts'
import { returnPin } from '../../solve/return-pin.ts'
import { isBattery } from '../../solve/supply-paths.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found } from '../outcome.ts'
import { conductorWords } from '../queries/conductor-words.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (pin: '2' | '3') => {
  const battery = unitOf(
    'battery',
    socket('J1', 'row-3', {
      '1': { kind: 'supply-out', port: 'b', volts: '12..14.4 V', battery: true, feed: 'permanent' },
      '2': { kind: 'return', port: 'b', name: 'POST' },
      '3': { kind: 'chassis', name: 'BODY' },
    }),
  )
  return exampleLead({
    parts: [rowHousing(2), rowHousing(3)],
    equipment: [
      {
        ...battery,
        inside: [
          {
            kind: 'link',
            id: 'SENSOR',
            senses: 'battery',
            resistance: '0.1 mΩ',
            between: { 1: 'J1.2', 2: 'J1.3' },
          },
        ],
      },
      unitOf(
        'radio',
        socket('J2', 'row-2', {
          '1': { kind: 'supply-in', port: 'dc', volts: '10..16 V', amps: '5 A' },
          '2': { kind: 'return', port: 'dc' },
        }),
      ),
    ],
    harness: {
      bundled: 2,
      connectors: [
        { id: 'P1', family: 'row-3', half: 'pin', fits: 'battery.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'radio.J2' },
      ],
      components: [{ id: 'F1', kind: 'fuse', rating: '10 A' }],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'F1.in', size: '2.5 mm²', length: '0.1 m' },
        { id: 'A02', from: 'F1.out', to: 'P2.1', size: '2.5 mm²', length: '2 m' },
        { id: 'A03', from: 'P2.2', to: `P1.${pin}`, size: '2.5 mm²', length: '2 m' },
      ],
    },
  })
}

/** A battery sensor with its two sides. */
interface Sensor {
  readonly link: Link
  readonly component: ComponentUse
  readonly post: Terminal
  readonly body: Terminal
}

/** Terminals joined to one by bonds inside equipment, up to the sensor. */
function insideOf(loom: Loom, start: Terminal, sensor: Link): ReadonlySet<Terminal> {
  const met = new Set([start])
  for (const from of met)
    for (const link of loom.linksAt[from.index] ?? [])
      if (link !== sensor && (link.kind === 'join' || link.kind === 'bond' || link.kind === 'mate'))
        met.add(across(link, from))
  return met
}

function sensorsIn(loom: Loom): readonly Sensor[] {
  const posts = new Set(
    loom.terminals
      .filter((pin) => pin.on === 'equipment' && isBattery(pin))
      .flatMap((pin) => returnPin(pin) ?? []),
  )
  return loom.links.flatMap((link) => {
    const { component } = link
    if (link.kind !== 'bond' || component?.source.kind !== 'link' || component.source.senses !== 'battery')
      return []
    for (const [post, body] of [
      [link.a, link.b],
      [link.b, link.a],
    ] as const)
      if ([...insideOf(loom, post, link)].some((terminal) => posts.has(terminal)))
        return [{ link, component, post, body }]
    return []
  })
}

/** Equipment pin that a side of the sensor is joined to, as people name it. */
function pinOn(loom: Loom, side: Terminal, sensor: Link): string {
  const pins = [...insideOf(loom, side, sensor)].filter((terminal) => terminal.on === 'equipment')
  return (pins.find((pin) => pin.does.kind === 'chassis') ?? pins[0] ?? side).address
}

function bypasses(loom: Loom, sensor: Sensor): readonly Conductor[] {
  const side = insideOf(loom, sensor.post, sensor.link)
  return loom.conductors.filter(({ from, to }) => (from && side.has(from)) || (to && side.has(to)))
}

function report(loom: Loom, sensor: Sensor, conductor: Conductor): Outcome {
  const right = pinOn(loom, sensor.body, sensor.link)
  const near = [...insideOf(loom, sensor.post, sensor.link)].find((pin) => pin.on === 'equipment')
  return found({
    subject: conductor.address,
    what: `${conductor.id} goes to the battery post ${near?.address ?? sensor.post.address} and bypasses the battery sensor`,
    why: `${conductorWords(conductor)}: the sensor ${sensor.component.address} counts only what comes from its body side, so the charge it reports is wrong by all that this conductor carries, and the engine control charges and stops by it.`,
    fix: `Move ${conductor.id} to the body side of the sensor, ${right}.`,
    facts: { sensor: { value: sensor.component.address }, to: { value: right } },
    at: conductor.at,
    marks: [conductor.address, ...(near ? [near.address] : [])],
  })
}

export const returnPastSensor: Rule = {
  id: 'return-past-sensor',
  title: 'Returns go to the body side of a battery sensor',
  family: 'power',
  level: 'warning',
  covers: ['W19'],
  reason:
    'Newer vehicles count the charge of the battery with a sensor on its negative post. A return that goes to the post itself is not counted. Older advice for radios said the post; where there is a sensor it no longer holds.',
  remedy: 'Bring the return to the body stud on the far side of the sensor.',
  needs: 'a link with senses "battery" between post and body in the battery',
  sources: ['vehicle-maker bulletins on battery sensors, as reported'],
  examples: { trips: example('2'), passes: example('3') },
  *check({ loom }) {
    if (loom.settings.batteryNegative === 'post') return
    for (const sensor of sensorsIn(loom))
      for (const conductor of bypasses(loom, sensor)) yield report(loom, sensor, conductor)
  },
}
