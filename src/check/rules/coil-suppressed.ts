import { formatAmps, formatOhms, formatVolts } from '../../base/format-quantity.ts'
import { coilAmps } from '../../solve/formulas/relay-coil.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, unknown } from '../outcome.ts'
import { acrossCoil, type DrivenCoil, drivenCoils } from '../queries/driven-coils.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (suppressed: 'none' | 'diode') =>
  exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf(
        'cue',
        socket('J1', 'row-2', {
          '1': { kind: 'supply-out', volts: '24 V', feed: 'switched', maxAmps: '0.1 A' },
          '2': {
            kind: 'switch-out',
            name: 'CUE',
            form: 'open-collector',
            active: 'low',
            maxAmps: '100 mA',
            maxVolts: '40 V',
          },
        }),
      ),
    ],
    harness: {
      connectors: [{ id: 'P1', family: 'row-2', half: 'pin', fits: 'cue.J1' }],
      components: [
        { id: 'F1', kind: 'fuse', rating: '0.5 A' },
        { id: 'K1', kind: 'relay', coil: '600 Ω', coilVolts: '24 V', suppressed },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'F1.in', size: '0.5 mm²', length: '0.1 m' },
        { id: 'A02', from: 'F1.out', to: 'K1.86', size: '0.5 mm²', length: '1 m' },
        { id: 'A03', from: 'K1.85', to: 'P1.2', size: '0.5 mm²', length: '1 m' },
      ],
    },
  })

/** Current of the coil in A, where its resistance and its supply are known. */
function ampsOf({ paths }: RuleContext, { plus, ohms }: DrivenCoil): number | undefined {
  const volts = paths.highestVolts(plus)?.volts
  return volts === undefined || !ohms ? undefined : coilAmps(volts, ohms)
}

function unsuppressed(context: RuleContext, coil: DrivenCoil): Outcome {
  const { address, driver, ohms, plus, minus } = coil
  const amps = ampsOf(context, coil)
  const { maxVolts } = driver.does
  const current =
    amps === undefined || ohms === undefined
      ? 'Its current'
      : `Its ${formatAmps(amps)} (${formatVolts(amps * ohms)} over ${formatOhms(ohms)})`
  return found({
    subject: address,
    what: `The coil ${address} has no suppressor, and ${pinWords(driver)} switches it`,
    why: `${current} cannot stop at once when the output opens: the coil drives the pin up until something breaks down${
      maxVolts === undefined ? '' : `, far beyond the ${formatVolts(maxVolts)} it may hold off`
    }.`,
    fix: `Fit a diode at the coil, cathode to ${plus.address}, anode to ${minus.address}; or a relay with one built in.`,
    facts: {
      coil: { value: address },
      output: { value: driver.address },
      ...(amps === undefined ? {} : { current: { value: amps, unit: 'A' } }),
      ...(maxVolts === undefined ? {} : { holdsOff: { value: maxVolts, unit: 'V' } }),
    },
    at: coil.at,
    marks: [address, plus.address, minus.address, driver.address],
  })
}

function backwards(coil: DrivenCoil, diode: string, isBuiltIn: boolean): Outcome {
  const { address, driver, plus, minus } = coil
  return found({
    subject: diode,
    what: `The suppressor diode ${isBuiltIn ? `in ${address}` : diode} is the wrong way round: its anode is on the plus, ${plus.address}`,
    why: `When ${pinWords(driver)} switches on, the diode conducts past the coil and shorts the supply through the output.`,
    fix: isBuiltIn
      ? `Swap the two wires on the coil of ${address}: 86, where the cathode is, belongs on the plus.`
      : `Turn it: cathode to ${plus.address}, anode to ${minus.address}.`,
    facts: { coil: { value: address }, output: { value: driver.address }, plus: { value: plus.address } },
    at: coil.at,
    marks: [address, plus.address, minus.address, driver.address],
  })
}

function judge(context: RuleContext, coil: DrivenCoil): Outcome | undefined {
  const { address, suppressed, cathode, plus, driver } = coil
  const { right, wrong, damped } = acrossCoil(context, coil)
  const turned = wrong[0]?.component?.address
  if (turned) return backwards(coil, turned, false)
  if (suppressed === 'diode' && cathode && cathode !== plus) return backwards(coil, address, true)
  if (right.length > 0 || damped.length > 0) return undefined
  if (suppressed === 'none') return unsuppressed(context, coil)
  if (suppressed) return undefined
  return unknown(
    address,
    `needs what suppresses the coil that ${driver.address} switches: "none", "diode", "resistor" or "tvs"`,
    coil.at,
  )
}

export const coilSuppressed: Rule = {
  id: 'coil-suppressed',
  title: 'A coil that electronics switch has a suppressor, the right way round',
  family: 'switching',
  level: 'stop',
  covers: ['L1'],
  reason:
    'A coil keeps its current flowing when it is switched off and makes whatever voltage that takes: hundreds of volts, on an output made for thirty. A diode at the coil takes it; one the wrong way round is a short.',
  remedy: 'Fit a diode across the coil with its cathode on the plus (terminal 86), or a suppressed relay.',
  needs: 'which outputs switch the coil, and what suppressor is built into it',
  sources: ['DIN 72552', 'common practice'],
  examples: { trips: example('none'), passes: example('diode') },
  *check(context) {
    for (const coil of drivenCoils(context)) {
      if (coil.driver.does.form === 'contact') continue
      const outcome = judge(context, coil)
      if (outcome) yield outcome
    }
  },
}
