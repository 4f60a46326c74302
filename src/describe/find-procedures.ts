import type { Procedure } from './shop.ts'

/**
 * The procedures a description can mean by a name: the one of that very path, else all whose path ends so, since descriptions
 * name files relative to themselves.
 */
export function findProcedures(procedures: readonly Procedure[], name: string): readonly Procedure[] {
  const exact = procedures.find((procedure) => procedure.file === name)
  if (exact) return [exact]
  const plain = name.replace(/^(?:\.\.?\/)+/, '')
  return procedures.filter(({ file }) => file === plain || file.endsWith(`/${plain}`))
}
