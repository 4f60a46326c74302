/** The outcome of reading something a person typed: a value, or one sentence saying what is wrong and what to write. */
export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: string }

/** Wraps a good value. */
export const good = <T>(value: T): Result<T> => ({ ok: true, value })

/** Wraps a problem: a whole sentence without a place, since only the caller knows the place. */
export const bad = (problem: string): { readonly ok: false; readonly problem: string } => ({
  ok: false,
  problem,
})
