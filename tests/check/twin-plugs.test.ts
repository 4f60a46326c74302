import { describe, expect, it } from 'vitest'
import { jointsOf, rebuild } from '../../src/check/rebuild.ts'
import { plugsNotInterchangeable } from '../../src/check/rules/plugs-not-interchangeable.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { checkDocument, onlyLoom } from './check-document.ts'

/** The tripping example, placed in an installation, with its two sockets in the zones given. */
function placed(zoneA: string | undefined, zoneB: string | undefined): DocumentInput {
  const mic = { kind: 'audio-in', level: 'mic', leg: 'hot', port: 'MIC' } as const
  const feed = { kind: 'supply-out', volts: '24..30 V', maxAmps: '0.1 A', port: 'DROP' } as const
  const ground = (port: string) => ({ kind: 'return', port }) as const
  const jack = (one: typeof mic | typeof feed) => ({
    id: 'J1',
    family: 'xlr-3',
    half: 'socket' as const,
    view: 'mating' as const,
    pins: { '1': ground(one.port), '2': one },
  })
  const plug = (id: string, fits: string, zone?: string) => ({
    id,
    family: 'xlr-3',
    half: 'pin' as const,
    fits,
    ...(zone === undefined ? {} : { zone }),
  })
  return {
    loomwright: 1,
    equipment: [
      { id: 'desk', title: 'Desk', connectors: [jack(mic)] },
      { id: 'master', title: 'Master', connectors: [jack(feed)] },
      {
        id: 'microphone',
        title: 'Microphone',
        connectors: [
          {
            id: 'J9',
            family: 'rect-2',
            half: 'socket',
            pins: { '1': {}, '2': { kind: 'audio-out', level: 'mic', leg: 'hot' } },
          },
        ],
      },
    ],
    harnesses: [
      {
        id: 'line',
        title: 'Line',
        connectors: [
          plug('P1', 'desk.J1', zoneA),
          plug('P2', 'master.J1', zoneB),
          { id: 'P9', family: 'rect-2', half: 'pin', fits: 'microphone.J9' },
        ],
        wires: [
          { id: 'A01', from: 'P1.1', to: 'P9.1', size: '0.22 mm²' },
          { id: 'A02', from: 'P1.2', to: 'P9.2', size: '0.22 mm²' },
        ],
      },
    ],
  }
}

const twinsIn = (data: DocumentInput) => {
  const { findings, notChecked } = checkDocument(data, { rules: [plugsNotInterchangeable] })
  return { said: findings.map((finding) => finding.what), asked: notChecked.map((entry) => entry.needs) }
}

describe('plugs that go into each other', () => {
  it('within reach are a finding that says what happens', () => {
    expect(twinsIn(placed('pit', 'pit'))).toEqual({
      said: ['line.P1 and line.P2 can be swapped: 30.00 V on microphone.J9.2, a microphone'],
      asked: [],
    })
  })

  it('in different zones are none', () => {
    expect(twinsIn(placed('pit', 'flies'))).toEqual({ said: [], asked: [] })
  })

  it('in places that are not stated are asked about', () => {
    expect(twinsIn(placed('pit', undefined))).toEqual({
      said: [],
      asked: [
        "needs the zones of line.P1 and line.P2: they go into each other's place, and then: 30.00 V on microphone.J9.2, a microphone",
      ],
    })
  })
})

describe('a loom rebuilt', () => {
  it('without a change has the same metal', () => {
    const loom = onlyLoom(placed('pit', 'pit'))
    const again = rebuild(loom, {})
    const addresses = (terminals: typeof loom.terminals) => terminals.map(({ address }) => address).sort()
    expect(addresses(again.terminals)).toEqual(addresses(loom.terminals))
    const metal = (nets: typeof loom.nets) =>
      nets
        .map((net) =>
          net.terminals
            .map((terminal) => terminal.address)
            .sort()
            .join(' '),
        )
        .sort()
    expect(metal(again.nets)).toEqual(metal(loom.nets))
    expect(
      jointsOf(again)
        .map(({ one, two }) => `${one.address} ${two.address}`)
        .sort(),
    ).toEqual(
      jointsOf(loom)
        .map(({ one, two }) => `${one.address} ${two.address}`)
        .sort(),
    )
  })
})
