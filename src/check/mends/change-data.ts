import type { EditValue, ValueChange } from '../../base/finding.ts'

type Path = readonly (string | number)[]
type Container = Readonly<Record<string | number, unknown>>

const isContainer = (value: unknown): value is Container => typeof value === 'object' && value !== null

/** What stands at a path of plain data; undefined where nothing does. */
export function valueAt(data: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (at, key) => (isContainer(at) && Object.hasOwn(at, key) ? at[key] : undefined),
    data,
  )
}

/** A copy of plain data with one value put in. What is not on the path is shared with the original. Undefined where the path leads nowhere. */
export function withValue(data: unknown, path: Path, value: EditValue): unknown {
  const [key, ...rest] = path
  if (key === undefined) return value
  if (!isContainer(data)) return undefined
  const known = Object.hasOwn(data, key)
  if (Array.isArray(data) && !(typeof key === 'number' && key <= data.length)) return undefined
  if (!known && rest.length > 0) return undefined
  const inner = withValue(known ? data[key] : undefined, rest, value)
  if (inner === undefined) return undefined
  if (Array.isArray(data)) return [...data.slice(0, Number(key)), inner, ...data.slice(Number(key) + 1)]
  return { ...data, [key]: inner }
}

/** The least changes that turn one document into another that has nothing less: values that differ, and members that are new. */
export function changesBetween(doc: string, before: unknown, after: unknown, path: Path = []): ValueChange[] {
  if (before === after) return []
  const both = isContainer(before) && isContainer(after) && Array.isArray(before) === Array.isArray(after)
  if (!both) return [{ at: { doc, path }, value: after as EditValue }]
  return Object.keys(after).flatMap((name) => {
    const key = Array.isArray(after) ? Number(name) : name
    if (Object.hasOwn(before, key)) return changesBetween(doc, before[key], after[key], [...path, key])
    return [{ at: { doc, path: [...path, key] }, value: after[key] as EditValue }]
  })
}
