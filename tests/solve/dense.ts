/** Solves A x = b by Gaussian elimination with row exchange: slow, plain, and sharing nothing with the code under test. */
export function gauss(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, index) => [...row, right[index] ?? 0])
  const size = rows.length
  for (let column = 0; column < size; column++) {
    let pivot = column
    for (let row = column + 1; row < size; row++)
      if (Math.abs(rows[row]?.[column] ?? 0) > Math.abs(rows[pivot]?.[column] ?? 0)) pivot = row
    const [upper, chosen] = [rows[column], rows[pivot]]
    if (!upper || !chosen) throw new Error('bad size')
    rows[column] = chosen
    rows[pivot] = upper
    const lead = chosen[column] ?? 0
    if (lead === 0) throw new Error('singular')
    for (let row = column + 1; row < size; row++) {
      const line = rows[row]
      if (!line) continue
      const factor = (line[column] ?? 0) / lead
      for (let at = column; at <= size; at++) line[at] = (line[at] ?? 0) - factor * (chosen[at] ?? 0)
    }
  }
  const x = new Array<number>(size).fill(0)
  for (let row = size - 1; row >= 0; row--) {
    const line = rows[row] ?? []
    let sum = line[size] ?? 0
    for (let at = row + 1; at < size; at++) sum -= (line[at] ?? 0) * (x[at] ?? 0)
    x[row] = sum / (line[row] ?? 1)
  }
  return x
}
