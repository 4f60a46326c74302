import { formatOhms } from '../../base/format-quantity.ts'
import { BUS_END_OHMS, canBuses } from '../../check/queries/can-buses.ts'
import type { RuleContext } from '../../check/rule.ts'
import type { Terminal } from '../../resolve/loom.ts'
import { pinName } from '../../sheets/names.ts'
import { parallelOhms } from '../../solve/formulas/impedance.ts'
import { figureLimit, lookLimit } from '../figure-limit.ts'
import type { Limit, Limits } from '../limit.ts'
import { OHMS } from '../measures.ts'

/** Room for terminators of 118 to 130 Ω, transceivers and the meter: 54 to 66 Ω where 60 Ω are expected. */
const TERMINATION_SHARE = 0.1

/** Termination of every bus, and what data has to arrive. */
export function dataLimits(context: RuleContext): Limits {
  const { loom } = context
  const buses = canBuses(context)
  const wanted = parallelOhms([BUS_END_OHMS, BUS_END_OHMS])
  const limits: Limit[] = buses.map(({ pins, low, ends }) => {
    const pin = pins[0] as Terminal
    const other = low.terminals.find((terminal) => terminal.half !== undefined && terminal.half === pin.half)
    const described =
      ends.length === 0
        ? 'no terminator is described'
        : `${ends.map(({ address, ohms }) => `${address} ${formatOhms(ohms)}`).join(' ∥ ')} = ${formatOhms(parallelOhms(ends.map(({ ohms }) => ohms)))}`
    return figureLimit({
      id: `${pin.address}/termination`,
      group: 'data',
      what: `Bus termination at ${pinName(pin)}`,
      how: `Everything off: ${pinName(pin)} to ${other ? pinName(other) : 'the other line'}.`,
      measure: OHMS,
      unit: 'Ω',
      least: wanted * (1 - TERMINATION_SHARE),
      most: wanted * (1 + TERMINATION_SHARE),
      expected: wanted,
      sum: `Two ends of ${BUS_END_OHMS} Ω side by side are ${formatOhms(wanted)}; as described: ${described}.`,
      source: 'ISO 11898-2, CiA 303-1',
      rule: 'bus-terminated',
      address: pin.address,
    })
  })
  const position = loom.terminals.filter(
    ({ on, does, half }) =>
      on === 'equipment' &&
      half?.mate !== undefined &&
      does.kind === 'data' &&
      does.standard === 'iec-61162-1' &&
      does.direction === 'in',
  )
  const units = new Set(position.map(({ half }) => half?.unit))
  return {
    limits: [
      ...limits,
      ...(buses.length > 0
        ? [
            lookLimit({
              id: 'check/bus-errors',
              group: 'data',
              what: 'No errors counted on the bus',
              how: 'Ten minutes with everything on, transmitting now and then; read the error counter of an instrument.',
              sum: 'A bus that is ended and wired right counts none.',
              source: 'common practice',
              level: 'warning',
            }),
          ]
        : []),
      ...[...units].flatMap((unit) =>
        unit
          ? [
              lookLimit({
                id: `${unit.id}/position`,
                group: 'data',
                what: `Position shown by ${unit.id}`,
                how: 'Under open sky: the position is there, and right.',
                sum: 'Talker, listener and their isolated common are joined.',
                source: 'IEC 61162-1',
                address: unit.id,
              }),
            ]
          : [],
      ),
    ],
    missing: [],
  }
}
