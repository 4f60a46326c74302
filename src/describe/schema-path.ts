import type * as z from 'zod'

/** The parts of a zod schema's definition that lead downwards. */
interface Definition {
  readonly type: string
  readonly shape?: Readonly<Record<string, Schema>>
  readonly element?: Schema
  readonly valueType?: Schema
  readonly items?: readonly Schema[]
  readonly options?: readonly Schema[]
  readonly discriminator?: string
  readonly innerType?: Schema
  readonly in?: Schema
  readonly values?: readonly unknown[]
}
export interface Schema {
  readonly def: Definition
}

// zod's own types are narrower per kind of schema than a walk over all kinds can use.
export const schemaOf = (schema: z.ZodType): Schema => schema as unknown as Schema

/** The schema within wrappers that change neither keys nor elements: optional, default, transform. */
export function bare(schema: Schema): Schema {
  const inner = schema.def.innerType ?? schema.def.in
  return inner ? bare(inner) : schema
}

const isObject = (data: unknown): data is Record<string, unknown> => typeof data === 'object' && data !== null

/** The value that tells the members of a discriminated union apart, such as "fuse". */
export function tagOf(option: Schema, discriminator: string): string | undefined {
  const tag = bare(option).def.shape?.[discriminator]
  const value = tag && bare(tag).def.values?.[0]
  return typeof value === 'string' ? value : undefined
}

/** The member of a union that the data means, as far as its discriminator or its type tells. */
function optionFor(union: Schema, data: unknown): Schema | undefined {
  const options = union.def.options ?? []
  const { discriminator } = union.def
  if (discriminator === undefined)
    return options.find((option) => (bare(option).def.type === 'string') === (typeof data === 'string'))
  const tag = isObject(data) ? data[discriminator] : undefined
  return options.find((option) =>
    tag === undefined ? isDefaulted(option, discriminator) : tagOf(option, discriminator) === tag,
  )
}

/** A member whose discriminator may be left out. */
const isDefaulted = (option: Schema, discriminator: string): boolean =>
  bare(option).def.shape?.[discriminator]?.def.type === 'default'

/** The object schema the data at hand is judged by, or undefined where there is none. */
export function objectFor(schema: Schema, data: unknown): Schema | undefined {
  const found = bare(schema)
  if (found.def.type !== 'union') return found
  const option = optionFor(found, data)
  return option && objectFor(option, data)
}

function step(schema: Schema, key: PropertyKey): Schema | undefined {
  const { shape, element, items, valueType } = schema.def
  if (items) return items[Number(key)]
  return (shape && Object.hasOwn(shape, key) ? shape[String(key)] : undefined) ?? element ?? valueType
}

/** The schema that judges the value at a path, and the value itself. */
export function schemaAt(
  root: Schema,
  data: unknown,
  path: readonly PropertyKey[],
): { schema: Schema | undefined; value: unknown } {
  let schema: Schema | undefined = root
  let value = data
  for (const key of path) {
    const here: Schema | undefined = schema && objectFor(schema, value)
    schema = here && step(here, key)
    value = isObject(value) && Object.hasOwn(value, key) ? value[key as string] : undefined
  }
  return { schema, value }
}

/** The keys an object schema knows. */
export const keysOf = (schema: Schema | undefined): string[] => Object.keys(schema?.def.shape ?? {})

/** Tags of those members of a union that know a key, though the member at hand does not. */
export function tagsKnowing(union: Schema, key: string): string[] {
  const { discriminator, options = [] } = bare(union).def
  if (discriminator === undefined) return []
  return options
    .filter((option) => keysOf(bare(option)).includes(key))
    .flatMap((option) => tagOf(option, discriminator) ?? [])
}
