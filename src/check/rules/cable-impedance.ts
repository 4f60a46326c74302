import { formatDecibels, formatOhms, formatTimes } from '../../base/format-quantity.ts'
import type { Conductor, Terminal } from '../../resolve/loom.ts'
import { reflection } from '../../solve/formulas/reflection.ts'
import { wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule, RuleContext } from '../rule.ts'

const port = {
  pins: {
    '1': { kind: 'data' as const, standard: 'audio-aes3' as const, line: 'AES+', direction: 'both' as const },
    '2': { kind: 'data' as const, standard: 'audio-aes3' as const, line: 'AES-', direction: 'both' as const },
  },
}

const example = (ohms: '50 Ω' | '110 Ω') =>
  wired({
    parts: [
      {
        kind: 'cable',
        id: 'pair-cable',
        title: 'One twisted pair',
        ohms,
        cores: [
          { name: '1a', size: '0.22 mm²', pair: 'pair1' },
          { name: '1b', size: '0.22 mm²', pair: 'pair1' },
        ],
      },
    ],
    units: { desk: port, stage: port },
    cables: [
      {
        id: 'W1',
        part: 'pair-cable',
        length: '5 m',
        cores: [
          { core: '1a', from: 'desk.1', to: 'stage.1' },
          { core: '1b', from: 'desk.2', to: 'stage.2' },
        ],
      },
    ],
  })

/** Characteristic impedance each standard is made for, Ω. */
const WANTED: Readonly<Record<string, number>> = {
  can: 120,
  'tia-485': 120,
  'tia-422': 120,
  'audio-aes3': 110,
  ethernet: 100,
  'usb-2.0': 90,
}
/** Cables are made within a fifth; below this the echo is harmless. */
const WORST_RETURN_LOSS_DB = 20

function standardOn({ paths }: RuleContext, { from, to }: Conductor): string | undefined {
  const end = from ?? to
  const pin =
    end && paths.nets.pins(paths.nets.net(end), 'data').find((one: Terminal) => one.does.kind === 'data')
  return pin?.does.kind === 'data' ? pin.does.standard : undefined
}

export const cableImpedance: Rule = {
  id: 'cable-impedance',
  title: 'A data cable has the impedance its signal is made for',
  family: 'data',
  level: 'warning',
  covers: ['D10'],
  reason:
    'Where the impedance changes part of every edge goes back. On a long run of microphone cable digital audio drops out, and nothing in a ring-out shows it.',
  remedy: 'Cable of the right impedance.',
  needs: '"ohms" of the cable, and the standard of the ports',
  sources: ['ISO 11898-2, TIA-485-A: 120 Ω; AES3: 110 Ω; TIA-568: 100 Ω; USB 2.0: 90 Ω'],
  examples: { trips: example('50 Ω'), passes: example('110 Ω') },
  *check(context) {
    for (const use of context.loom.looms)
      for (const cable of use.cables) {
        const ohms = cable.part?.ohms
        if (ohms === undefined || cable.part?.use === 'coax') continue
        const standards = cable.conductors.flatMap((core) =>
          core.kind === 'shield' ? [] : (standardOn(context, core) ?? []),
        )
        const standard = standards.find((name) => WANTED[name] !== undefined)
        const wanted = standard === undefined ? undefined : WANTED[standard]
        if (standard === undefined || wanted === undefined) continue
        const { returnLossDb, vswr } = reflection(wanted, ohms)
        if (returnLossDb >= WORST_RETURN_LOSS_DB) continue
        yield found({
          subject: cable.address,
          what: `${cable.id} of ${formatOhms(ohms)} carries ${standard}, made for ${formatOhms(wanted)}: return loss ${formatDecibels(returnLossDb)}`,
          why: `Standing wave ratio ${formatTimes(vswr, 2)} at each end; ${formatDecibels(WORST_RETURN_LOSS_DB)} or more is wanted.`,
          fix: `Use cable of ${formatOhms(wanted)}.`,
          facts: {
            cable: { value: ohms, unit: 'Ω' },
            wanted: { value: wanted, unit: 'Ω' },
            returnLoss: { value: returnLossDb, unit: 'dB' },
          },
          at: cable.at,
          marks: cable.conductors.map((core) => core.address),
        })
      }
  },
}
