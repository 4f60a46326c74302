/** A complex number; for impedances `re` is resistance and `im` reactance, both in Ω. */
export type Complex = { readonly re: number; readonly im: number }

export const complex = (re: number, im = 0): Complex => ({ re, im })
export const add = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im })
export const multiply = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
})
export const magnitude = (a: Complex): number => Math.hypot(a.re, a.im)

/** `1 / a`; the reciprocal of zero is infinite, that of an open circuit zero. */
export function reciprocal(a: Complex): Complex {
  const size = magnitude(a)
  if (size === 0) return { re: Number.POSITIVE_INFINITY, im: 0 }
  if (size === Number.POSITIVE_INFINITY) return { re: 0, im: 0 }
  // Dividing twice keeps the square of a very large or small impedance from leaving the range of a number.
  return { re: a.re / size / size, im: -(a.im / size / size) }
}
