import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { WireSize } from '../../src/base/wire-size.ts'
import { vehicleExample } from '../../src/check/examples/vehicle.ts'
import { voltageAtLoad } from '../../src/check/rules/voltage-at-load.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { checkDocument } from './check-document.ts'

const size = fc.constantFrom<WireSize>('0.75 mm²', '1.5 mm²', '2.5 mm²', '4 mm²', '6 mm²', '14 AWG', '10 AWG')

const found = (data: DocumentInput) => checkDocument(data, { rules: [voltageAtLoad] }).findings

it('the cure of a drop, done as it says, gives the figure it promises and no finding', () => {
  let cured = 0
  fc.assert(
    fc.property(
      size,
      size,
      fc.integer({ min: 2, max: 12 }),
      fc.integer({ min: 4, max: 12 }),
      (feed, back, metres, amps) => {
        const load = { volts: '6..16 V', amps: { off: '0 A', transmit: `${amps} A` } } as const
        const data = vehicleExample({ feed, back, metres: `${metres} m`, load })
        const [finding] = found(data)
        const cure = /^((?:A\d+(?:, | and )?)+) to (\S+ (?:mm²|AWG)) \(.*?\): (\d+\.\d+) V/.exec(
          finding?.fix ?? '',
        )
        if (!cure) return
        cured++
        const ids = new Set(cure[1]?.match(/A\d+/g))
        for (const wire of data.harnesses?.[0]?.wires ?? [])
          if (ids.has(wire.id)) wire.size = cure[2] as WireSize
        expect(found(data)).toEqual([])
        // The limit is set just under the promised figure: the finding then states what the job really loses.
        const promised = Number(cure[3])
        const policy = {
          drop: { brief: `${promised - 0.006} V`, continuous: `${promised - 0.006} V` },
        } as const
        const [after] = found({ ...data, policy })
        expect(after?.facts.drop?.value).toBeCloseTo(promised, 2)
      },
    ),
    { numRuns: 60 },
  )
  expect(cured).toBeGreaterThan(5)
})
