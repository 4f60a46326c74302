/** Names of numbered pins and cores, in order. */
const NUMBERS = [
  '1',
  '2',
  '3',
  '4',
  '5',
  '6',
  '7',
  '8',
  '9',
  '10',
  '11',
  '12',
  '13',
  '14',
  '15',
  '16',
  '17',
  '18',
  '19',
  '20',
  '21',
  '22',
  '23',
  '24',
  '25',
  '26',
  '27',
  '28',
  '29',
  '30',
  '31',
  '32',
  '33',
  '34',
  '35',
  '36',
  '37',
] as const

type Upto<N extends number, T extends readonly string[], Names extends string> = T['length'] extends N
  ? Names
  : Upto<N, [...T, ''], Names | Extract<(typeof NUMBERS)[T['length']], string>>

/** The literal names '1' to N, for N up to 37. */
export type FirstNumbers<N extends number> = N extends number ? Upto<N, [], never> : never

/** The names '1' to `count`, typed as exactly those literals. */
export function numbers<const N extends number>(count: N): readonly FirstNumbers<N>[] {
  // slice() cannot carry the literal count into its type.
  return NUMBERS.slice(0, count) as unknown as readonly FirstNumbers<N>[]
}

/** A record with one entry per count, `dsub-9: ['1' … '9']`, whose type knows each key and each name. */
export function numberedSets<const P extends string, const N extends number>(
  prefix: P,
  counts: readonly N[],
): { readonly [K in N as `${P}-${K}`]: readonly FirstNumbers<K>[] } {
  const entries = counts.map((count) => [`${prefix}-${count}`, numbers(count)])
  return Object.fromEntries(entries) as { readonly [K in N as `${P}-${K}`]: readonly FirstNumbers<K>[] }
}
