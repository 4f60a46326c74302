import { matchCode } from '../base/hash.ts'
import type { Equipment, EquipmentConnector } from '../describe/equipment.ts'
import type { ConnectorFamily } from '../describe/part.ts'
import { functionWords } from './function-words.ts'
import { BOTH_VIEWS } from './head.ts'
import { canonicalJson } from './match-code.ts'
import type { Column, Sheet } from './sheet.ts'

const COLUMNS: readonly Column[] = [
  { key: 'pin', heading: 'Pin', lead: true },
  { key: 'signal', heading: 'Signal' },
  { key: 'direction', heading: 'Way' },
  { key: 'type', heading: 'Type' },
  { key: 'volts', heading: 'Volts' },
  { key: 'amps', heading: 'Current' },
  { key: 'level', heading: 'Level' },
  { key: 'port', heading: 'Works with' },
  { key: 'connect', heading: 'Connect' },
  { key: 'note', heading: 'Note' },
]

const RECORDS = {
  measured: 'Measured on the unit',
  maker: 'From the maker’s manual',
  copied: 'Copied from an earlier job: prove it',
  guessed: 'Guessed: prove every pin before use',
} as const

/** The pinout of one connector of a type of equipment, as described: every pin of the family, described or not. */
export function equipmentPinout(
  equipment: Equipment,
  connector: EquipmentConnector,
  family: ConnectorFamily | undefined,
): Sheet {
  const names = [
    ...new Set([
      ...(family?.pins ?? []),
      ...(family?.shell ? ['shell'] : []),
      ...Object.keys(connector.pins),
    ]),
  ]
  const rows = names.map((pin) => {
    const does = connector.pins[pin]
    const words = does && functionWords(does)
    return {
      address: pin,
      cells: {
        pin,
        ...(words ?? { type: 'not described' }),
        port: portMates(connector, pin),
        connect:
          does?.connect === 'must'
            ? 'must'
            : does?.connect === 'never' || does?.kind === 'reserved'
              ? 'never'
              : '',
        note: does?.note ?? '',
      } as Record<string, string>,
    }
  })
  return {
    id: `pinout-${connector.id}`,
    title: `Pinout ${connector.id}`,
    use: 'One row a pin. Hold the connector as the picture shows before you count.',
    head: {
      title: `Pinout ${connector.id}`,
      subject: equipment.title,
      state: 'described',
      units: 'V, A, Ω',
      view: BOTH_VIEWS,
      colours: 'IEC 60757 letters and words',
      match: matchCode(canonicalJson(connector)),
    },
    columns: COLUMNS.filter(
      ({ key }) => ['pin', 'signal', 'type'].includes(key) || rows.some((row) => row.cells[key]),
    ),
    sections: [{ rows }],
    foot: [
      connector.record ? RECORDS[connector.record] : 'Where this pinout comes from is not stated',
      connector.view === undefined
        ? 'The source does not say from which side it shows the face: prove one pin before you trust the rest'
        : `The source shows the ${connector.view === 'mating' ? 'mating face' : 'wire-entry face'}`,
      ...(connector.hotPlug ? ['Joined or parted while live'] : []),
      ...(connector.note ? [connector.note] : []),
    ],
    fields: [],
  }
}

/** Other pins of the same port: the two legs of an output, a supply and its return. */
function portMates(connector: EquipmentConnector, pin: string): string {
  const port = connector.pins[pin]?.port
  if (port === undefined) return ''
  const mates = Object.keys(connector.pins).filter(
    (other) => other !== pin && connector.pins[other]?.port === port,
  )
  return mates.length === 0 ? port : `${port}: ${mates.join(', ')}`
}
