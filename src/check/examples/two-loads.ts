import type { WireSize } from '../../base/wire-size.ts'
import type { DocumentInput } from '../../describe/document.ts'
import { exampleLead, rowHousing, socket, unitOf } from './parts.ts'

/** Two loads of 15 A on a boat, with one feeder of the size given and short branches; on request one more wire on the return. */
export function twoLoads(size: WireSize, more?: WireSize): DocumentInput {
  const load = (id: string) =>
    unitOf(
      id,
      socket('J2', 'row-2', {
        '1': { kind: 'supply-in', port: 'dc', volts: '9..16 V', amps: '15 A' },
        '2': { kind: 'return', port: 'dc' },
      }),
    )
  const branch = '6 mm²'
  return exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf(
        'battery',
        socket('J1', 'row-2', {
          '1': { kind: 'supply-out', port: 'b', volts: '12..14.4 V', battery: true, feed: 'switched' },
          '2': { kind: 'return', port: 'b' },
        }),
      ),
      load('heater'),
      load('winch'),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'battery.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'heater.J2' },
        { id: 'P3', family: 'row-2', half: 'pin', fits: 'winch.J2' },
      ],
      bundled: 2,
      components: [{ id: 'F1', kind: 'fuse', rating: '40 A' }],
      splices: [{ id: 'SP1' }, { id: 'SP2' }, ...(more ? [{ id: 'SP3', kind: 'cap' as const }] : [])],
      wires: [
        { id: 'B01', from: 'P1.1', to: 'F1.in', size, length: '0.15 m' },
        { id: 'B02', from: 'F1.out', to: 'SP1', size, length: '5 m' },
        { id: 'B03', from: 'SP2', to: 'P1.2', size, length: '5 m' },
        { id: 'B04', from: 'SP1', to: 'P2.1', size: branch, length: '0.5 m' },
        { id: 'B05', from: 'SP1', to: 'P3.1', size: branch, length: '0.5 m' },
        { id: 'B06', from: 'P2.2', to: 'SP2', size: branch, length: '0.5 m' },
        { id: 'B07', from: 'P3.2', to: 'SP2', size: branch, length: '0.5 m' },
        ...(more ? [{ id: 'B08', from: 'SP2', to: 'SP3', size: more, length: '0.5 m' } as const] : []),
      ],
    },
    more: {
      installations: [
        {
          id: 'boat',
          title: 'Example boat',
          setting: 'boat',
          supply: '12 V',
          units: ['battery', 'heater', 'winch'].map((id) => ({ id, of: id, zone: 'bilge' })),
          looms: [{ id: 'main', of: 'lead' }],
          states: [{ id: 'standby' }],
        },
      ],
    },
  })
}
