import type { Conductor, Half, Terminal } from '../../resolve/loom.ts'
import { exampleLead, socket, unitOf } from '../examples/parts.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (tied: boolean) =>
  exampleLead({
    parts: [],
    equipment: [
      unitOf(
        'station',
        socket('J1', 'xlr-3', { '1': { kind: 'signal-return' }, '2': { kind: 'signal-return' } }),
      ),
      unitOf('panel', socket('J2', 'xlr-3', { '1': { kind: 'signal-return' } })),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'xlr-3', half: 'pin', fits: 'station.J1' },
        { id: 'P2', family: 'xlr-3', half: 'pin', fits: 'panel.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.22 mm²' },
        ...(tied ? [{ id: 'A02', from: 'P1.shell', to: 'P1.1', size: '0.22 mm²' as const }] : []),
      ],
    },
  })

/** Round audio connectors by the name of their family in the catalogue. */
const isRoundAudio = (half: Half): boolean => half.familyId.startsWith('xlr-')

/** The plug whose shell a conductor ties to its own pin 1. */
function tied({ from, to }: Conductor): Terminal | undefined {
  if (!from?.half || from.half !== to?.half || !isRoundAudio(from.half)) return undefined
  const names = [from.name, to.name]
  if (!names.includes('shell') || !names.includes('1')) return undefined
  return from.name === 'shell' ? from : to
}

export const shellOffPin1: Rule = {
  id: 'shell-off-pin-1',
  title: 'The shell of an audio cable plug is not tied to pin 1',
  family: 'grounding',
  level: 'warning',
  covers: ['G4'],
  reason:
    'A shell tied to pin 1 grounds the screen wherever the plug touches metal, such as a truss or another plug. That makes loops that come and go, and on a party line it puts the common on the building.',
  remedy: 'Take the link out; let the fixed connector bond its own shell to the chassis.',
  needs: 'which conductors land on the shell',
  sources: ['AES54, as reported', 'common practice'],
  examples: { trips: example(true), passes: example(false) },
  *check({ loom }) {
    for (const wire of loom.conductors) {
      const shell = tied(wire)
      if (!shell?.half) continue
      yield found({
        subject: wire.address,
        what: `${wire.id} ties the shell of ${shell.half.address} to pin 1`,
        why: 'The shell then carries the screen to whatever it touches.',
        fix: `Take ${wire.id} out.`,
        facts: { plug: { value: shell.half.address } },
        at: wire.at,
        marks: [wire.address, shell.address],
      })
    }
  },
}
