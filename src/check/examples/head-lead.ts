import type { DocumentInput } from '../../describe/document.ts'
import type { PinFunctionInput } from '../../describe/function.ts'
import { exampleLead, rowHousing, socket, unitOf } from './parts.ts'

const signals: Readonly<Record<string, PinFunctionInput>> = {
  '1': { kind: 'data', standard: 'proprietary', line: 'CLK', name: 'CLK' },
  '2': { kind: 'data', standard: 'proprietary', line: 'DATA', name: 'DATA' },
  '3': { kind: 'data', standard: 'proprietary', line: 'LATCH', name: 'LATCH' },
  '4': { kind: 'signal-return', name: '0V' },
}

/** A lead from a body to its head; `to` lists the pin of the head for each of the body's pins 1 to 4. */
export function headLead(to: readonly string[]): DocumentInput {
  return exampleLead({
    parts: [rowHousing(8)],
    equipment: [
      unitOf('body', socket('J1', 'row-8', signals)),
      unitOf('head', socket('J2', 'row-8', signals)),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-8', half: 'pin', fits: 'body.J1' },
        { id: 'P2', family: 'row-8', half: 'pin', fits: 'head.J2' },
      ],
      wires: to.map((pin, index) => ({
        id: `A0${index + 1}`,
        from: `P1.${index + 1}`,
        to: `P2.${pin}`,
        size: '0.22 mm²',
      })),
    },
  })
}
