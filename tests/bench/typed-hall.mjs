/**
 * A hall of lamps as a typed description: three wires a lamp, forty lamps a file's harness.
 * @param {number} wires
 */
export function typedHall(wires) {
  const lamps = Math.max(1, Math.floor(wires / 3))
  const lines = [
    `import { connector, harness, splice, wire } from 'loomwright'`,
    `const R1 = connector('R1', 'ring-m8', 'genderless')`,
    `const R2 = connector('R2', 'ring-m8', 'genderless')`,
  ]
  const made = []
  for (let n = 0; n < lamps; n++) {
    lines.push(`const S${n} = splice('S${n}')`, `const P${n} = connector('P${n}', 'rect-4', 'socket')`)
    const from = n % 50 === 0 ? 'R1.pin(1)' : `S${n - 1}`
    made.push(
      `  wire('F${n}', ${from}, S${n}, { size: '2.5 mm²', colour: 'RD', length: '1 m' }),`,
      `  wire('L${n}', S${n}, P${n}.pin(1), { size: '0.75 mm²', colour: 'RD', length: '0.5 m' }),`,
      `  wire('B${n}', P${n}.pin(2), R2.pin(1), { size: '1.5 mm²', colour: 'BK', length: '2 m' }),`,
    )
  }
  return [...lines, `export const hall = harness('hall', { title: 'Hall', wires: [`, ...made, ']})', ''].join(
    '\n',
  )
}
