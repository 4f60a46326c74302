import type { Half, Loom, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf } from '../outcome.ts'
import { landings } from '../queries/landings.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (to: string) =>
  exampleLead({
    parts: [rowHousing(4)],
    equipment: [
      unitOf(
        'box',
        socket('J1', 'row-4', {
          '1': { kind: 'data', standard: 'proprietary', line: 'DATA' },
          '2': { kind: 'signal-return', name: '0V', connect: 'must' },
        }),
      ),
      unitOf('panel', socket('J2', 'row-4', { '1': {}, '2': {} })),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'box.J1' },
        { id: 'P2', family: 'row-4', half: 'pin', fits: 'panel.J2' },
      ],
      wires: [{ id: 'A01', from: to, to: 'P2.1', size: '0.22 mm²' }],
    },
  })

const musts = (half: Half): Terminal[] => [...half.pins.values()].filter((pin) => pin.does.connect === 'must')

/** A must-connect pin is served by a conductor that lands on its mate, or by metal inside its own equipment or plug. */
function served(loom: Loom, pin: Terminal, wired: ReadonlySet<Terminal>): boolean {
  const near = (terminal: Terminal) =>
    (loom.linksAt[terminal.index] ?? []).map((link) => (link.a === terminal ? link.b : link.a))
  return wired.has(pin) || near(pin).some((mate) => wired.has(mate) || mate.half?.side === 'equipment')
}

function unmated(half: Half, pins: readonly Terminal[]): Outcome {
  return found({
    subject: half.address,
    what: `${half.address} is not plugged in, and has pins that must be connected`,
    why: `${listOf(pins.map(pinWords), 4)} must be connected, says its pinout.`,
    fix: `Add the plug of ${half.address} to a loom, or list its mate.`,
    facts: { pins: { value: pins.map((pin) => pin.name).join(' ') }, mated: { value: false } },
    at: half.at,
    marks: [half.address],
  })
}

function unwired(half: Half, pin: Terminal): Outcome {
  const plug = half.mate
  return found({
    subject: pin.address,
    what: `${pinWords(pin)} must be connected, and no wire reaches it`,
    why: `${plug?.address ?? half.address} has no conductor in cavity ${pin.name}.`,
    fix: `Add a wire to ${plug?.address ?? half.address}.${pin.name}.`,
    facts: { pin: { value: pin.name }, mated: { value: true } },
    at: plug?.at ?? pin.at,
    marks: [pin.address, ...(plug ? [`${plug.address}.${pin.name}`] : [])],
  })
}

export const mustConnect: Rule = {
  id: 'must-connect',
  title: 'Pins that must be connected are',
  family: 'pins',
  level: 'stop',
  covers: ['P5'],
  reason:
    'A return, an interlock or a bias that is left open makes equipment dead, noisy or unsafe, and nothing in the loom looks wrong.',
  remedy: 'Wire the pin as its pinout asks.',
  needs: 'connect "must" on the pins that ask for it',
  sources: ['common practice'],
  examples: { trips: example('P1.1'), passes: example('P1.2') },
  *check({ loom }) {
    if (loom.looms.length === 0) return
    const wired = new Set(landings(loom).keys())
    for (const half of loom.halves) {
      if (half.side !== 'equipment') continue
      const pins = musts(half)
      if (pins.length === 0) continue
      if (half.mates.length > 0) {
        for (const pin of pins) if (!served(loom, pin, wired)) yield unwired(half, pin)
      } else if (loom.kind === 'installation') {
        const open = pins.filter((pin) => !served(loom, pin, wired))
        if (open.length > 0) yield unmated(half, open)
      }
    }
  },
}
