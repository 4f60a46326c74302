import type { WireSize } from '../../base/wire-size.ts'
import type { DocumentInput } from '../../describe/document.ts'
import type { PinFunctionInput } from '../../describe/function.ts'
import type { InstallationInput } from '../../describe/installation.ts'
import { exampleLead, rowHousing, socket, unitOf } from './parts.ts'

export interface VehicleExample {
  readonly feed?: WireSize
  readonly back?: WireSize | 'none'
  readonly metres?: `${number} m`
  readonly fuse?: `${number} A`
  /** Length of the wire before the fuse. */
  readonly toFuse?: `${number} m`
  readonly load?: Partial<Extract<PinFunctionInput, { kind: 'supply-in' }>>
  readonly battery?: Partial<Extract<PinFunctionInput, { kind: 'supply-out' }>>
  /** Rated current of the contacts in both plugs. */
  readonly contactAmps?: `${number} A`
  readonly place?: Partial<InstallationInput>
}

/** A radio on a battery, fused near it, in a vehicle. Tidy unless told otherwise. */
export function vehicleExample(change: VehicleExample = {}): DocumentInput {
  const { feed = '6 mm²', back = feed, metres = '5 m', fuse = '20 A', toFuse = '0.2 m' } = change
  const size = feed
  return exampleLead({
    parts: [rowHousing(2, change.contactAmps ? { amps: change.contactAmps } : {})],
    equipment: [
      unitOf(
        'battery',
        socket('J1', 'row-2', {
          '1': {
            kind: 'supply-out',
            port: 'battery',
            volts: '12..14.4 V',
            feed: 'permanent',
            battery: true,
            capacity: '60 Ah',
            ...change.battery,
          },
          '2': { kind: 'return', port: 'battery' },
        }),
      ),
      unitOf(
        'radio',
        socket('J2', 'row-2', {
          '1': {
            kind: 'supply-in',
            port: 'dc',
            volts: '10.8..15.6 V',
            amps: { off: '0 A', standby: '0.3 A', transmit: '10 A' },
            ...change.load,
          },
          '2': { kind: 'return', port: 'dc' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'battery.J1', zone: 'bonnet' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'radio.J2', zone: 'dash' },
      ],
      components: [{ id: 'F1', kind: 'fuse', rating: fuse }],
      bundled: 2,
      wires: [
        { id: 'A01', from: 'P1.1', to: 'F1.in', size, length: toFuse },
        { id: 'A02', from: 'F1.out', to: 'P2.1', size, length: metres },
        ...(back === 'none'
          ? []
          : [{ id: 'A03', from: 'P2.2', to: 'P1.2', size: back, length: metres } as const]),
      ],
    },
    more: {
      installations: [
        {
          id: 'van',
          title: 'Example van',
          setting: 'vehicle',
          supply: '13.8 V',
          units: [
            { id: 'battery', of: 'battery', zone: 'bonnet' },
            { id: 'radio', of: 'radio', zone: 'dash' },
          ],
          looms: [{ id: 'main', of: 'lead' }],
          ...change.place,
        },
      ],
    },
  })
}
