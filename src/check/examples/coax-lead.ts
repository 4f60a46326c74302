import type { DocumentInput } from '../../describe/document.ts'
import type { InstallationInput } from '../../describe/installation.ts'
import type { PartInput } from '../../describe/part.ts'
import { wired } from './wired.ts'

export interface CoaxExample {
  readonly part?: string
  readonly parts?: readonly PartInput[]
  readonly length?: `${number} m`
  readonly portOhms?: '50 Ω' | '75 Ω'
  readonly place?: Partial<InstallationInput>
}

/** A radio and an antenna joined by one coaxial lead with BNC plugs. */
export function coaxLead({
  part = 'rg-58',
  parts = [],
  length = '4 m',
  portOhms,
  place,
}: CoaxExample): DocumentInput {
  const ohms = portOhms === undefined ? {} : { ohms: portOhms }
  return wired({
    parts,
    units: {
      radio: {
        family: 'bnc',
        pins: { centre: { kind: 'rf', to: '470 MHz', ...ohms }, shield: { kind: 'shield' } },
      },
      whip: {
        family: 'bnc',
        role: 'antenna',
        pins: { centre: { kind: 'rf', to: '470 MHz', ohms: '50 Ω' }, shield: { kind: 'shield' } },
      },
    },
    cables: [
      {
        id: 'W1',
        part,
        length,
        cores: [{ core: 'centre', from: 'radio.centre', to: 'whip.centre' }],
        shields: [{ shield: 'shield', from: 'P1.shield', to: 'P2.shield', bothEnds: 'coaxial cable' }],
      },
    ],
    ...(place ? { place } : {}),
  })
}
