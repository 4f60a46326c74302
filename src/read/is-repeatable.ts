/**
 * What could make code give something else the next time, or on another machine: other packages, the clock, chance, the process, and
 * ways around their names.
 */
const OUTSIDE =
  /\brequire\((?!"loomwright"\))|\bimport\s*\(|\bnew\s+Date\b|\bDate\s*[.(]|\bMath\s*\.\s*random\b|\b(?:process|globalThis|global|performance|crypto|Intl|navigator)\s*[.[]|\bfetch\s*\(|\beval\s*\(|\bFunction\s*\(|\btoLocale\w*\s*\(|\blocaleCompare\s*\(/

/**
 * Whether bundled description code can only give the same again as long as its files stay the same. Errs towards no: a word of
 * these in a text counts too, and costs no more than doing the work again.
 */
export const isRepeatable = (code: string): boolean => !OUTSIDE.test(code)
