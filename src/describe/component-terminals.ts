/** Terminals of each kind of component, as wires address them: "F1.in", "K1.86". */
export const terminalsOf = {
  fuse: ['in', 'out'],
  switch: ['1', '2'],
  relay: ['85', '86', '30', '87', '87a'],
  diode: ['a', 'k'],
  resistor: ['1', '2'],
  capacitor: ['1', '2'],
  coil: ['1', '2'],
  transformer: ['p1', 'p2', 's1', 's2'],
  link: ['1', '2'],
} as const
