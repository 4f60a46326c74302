import type { InstallationInput } from '../describe/installation.ts'
import type { Equipment, Held, Jack } from './equipment.ts'
import type { Harness } from './harness.ts'
import { hide, mark, tidy } from './site.ts'

type UnitInput = InstallationInput['units'][number]
type LoomInput = NonNullable<InstallationInput['looms']>[number]
type AnswerInput = NonNullable<InstallationInput['answers']>[number]
type MateInput = NonNullable<InstallationInput['mates']>[number]

/** One half in an installation: "radio.J1" or "main.P1". */
export interface Half {
  readonly address: string
}

/** A unit in its place. `at('J1')` is one of its connectors. */
export interface Unit<Id extends string = string, Jacks extends string = string> extends UnitInput {
  readonly id: Id
  readonly equipment: object
  at<const K extends Jacks | (string & {})>(name: Held<'unit', Id, 'connector', Jacks, K>): Half
}
/** A loom in its place. `at('P1')` is one of its connectors. */
export interface Loom<Id extends string = string, Plugs extends string = string> extends LoomInput {
  readonly id: Id
  readonly harness: object
  at<const K extends Plugs | (string & {})>(name: Held<'loom', Id, 'connector', Plugs, K>): Half
}

const withHalves = (data: { id: string }) =>
  hide(data, { at: (name: string): Half => ({ address: `${data.id}.${name}` }) })

/** A unit of a type of equipment, under its name in this installation. */
export function unit<const Id extends string, C extends readonly Jack[]>(
  id: Id,
  of: Equipment<string, C>,
  options: Omit<UnitInput, 'id' | 'of'> = {},
): Unit<Id, C[number]['id']> {
  const data = mark(tidy({ id, of: of.id, ...options }), unit, { args: ['id', 'of', ''], uses: [of] })
  return hide(withHalves(data), { equipment: of }) as never
}

/** A harness, under its name in this installation. */
export function loom<const Id extends string, Plugs extends string>(
  id: Id,
  of: Harness<Plugs>,
): Loom<Id, Plugs> {
  const data = mark({ id, of: of.id }, loom, { args: ['id', 'of'], uses: [of] })
  return hide(withHalves(data), { harness: of }) as never
}

/** Two halves that are mated: `mate(main.at('P1'), radio.at('J1'))`. */
export function mate(a: Half, b: Half): MateInput {
  return mark([a.address, b.address], mate, { args: ['0', '1'] })
}

/** What somebody saw who looked: `answer('clear-of-airbags', 'yes', { at: 'dash', by: 'M. Teal', date: '2026-03-09' })`. */
export function answer(
  question: string,
  answered: AnswerInput['answer'],
  given: Omit<AnswerInput, 'question' | 'answer'>,
): AnswerInput {
  return mark(tidy({ question, answer: answered, ...given }), answer, { args: ['question', 'answer', ''] })
}

type Options = Omit<InstallationInput, 'id' | 'units' | 'looms' | 'mates'> & {
  units: readonly Unit[]
  looms?: readonly Loom[]
  /** Halves that are mated, where their names alone do not tell. */
  mates?: readonly MateInput[]
}

/** A place with its equipment and looms mated together. */
export function installation(id: string, options: Options): InstallationInput {
  const uses = [
    ...options.units.map((one) => one.equipment),
    ...(options.looms ?? []).map((one) => one.harness),
  ]
  return mark(tidy({ id, ...options }) as unknown as InstallationInput, installation, {
    kind: 'installation',
    args: ['id', ''],
    uses,
  })
}
