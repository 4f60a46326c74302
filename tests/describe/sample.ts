/** A sound document that touches every list, as JSON holds it. */
export const sample = () => ({
  loomwright: 1,
  parts: [
    { kind: 'connector', id: 'block-4', title: 'Block', pins: ['A', 'B'], style: 'terminal', amps: '10 A' },
    { kind: 'cable', id: 'duo', title: 'Duo', cores: [{ name: '1', size: '0.22 mm²', colour: 'WH' }] },
    { kind: 'fuse', id: 'blade-x', title: 'Fuse', style: 'blade', rating: '20 A' },
  ],
  equipment: [
    {
      id: 'radio',
      title: 'Radio',
      connectors: [
        {
          id: 'J1',
          family: 'dsub-9',
          half: 'socket',
          pins: {
            1: { kind: 'supply-in', amps: { standby: '0.35 A', transmit: '12 A' }, volts: '10.8..15.6 V' },
            2: { kind: 'audio-out', level: 'speaker', leg: 'hot' },
            3: { name: 'SPARE' },
            4: { kind: 'supply-in', amps: '2 A' },
          },
        },
      ],
      inside: [{ kind: 'fuse', id: 'F1', rating: '20 A' }],
    },
  ],
  harnesses: [
    {
      id: 'head',
      title: 'Head',
      date: '2024-02-29',
      connectors: [{ id: 'P1', family: 'dsub-9', half: 'pin', fits: 'radio.J1' }],
      splices: [{ id: 'SP1' }],
      wires: [
        { id: 'A1', from: 'P1.1', to: 'SP1', size: '1.5 mm²', colour: 'RD', length: '5.2 m' },
        { id: 'A2', from: 'P1.2', to: 'SP1', size: '18 AWG', colour: 'WHBU' },
        { id: 'A3', from: 'P1.3', to: 'SP1' },
      ],
      cables: [{ id: 'W1', part: 'duo', cores: [{ core: '1', from: 'P1.4', to: 'SP1' }] }],
    },
  ],
  installations: [
    {
      id: 'pickup',
      title: 'Pickup',
      units: [{ id: 'rad', of: 'radio' }],
      looms: [{ id: 'main', of: 'head' }],
      mates: [['main.P1', 'rad.J1']],
    },
  ],
  policy: { shop: 'Hollin', drop: { continuous: '0.5 V', critical: '3 %' } },
})

type Path = readonly (string | number)[]

/** The sample with another value at a path; `undefined` takes the value away. */
export function sampleWith(path: Path, value: unknown): Record<string, unknown> {
  const data: Record<string, unknown> = sample()
  let at = data as Record<string | number, unknown>
  for (const key of path.slice(0, -1)) at = at[key] as Record<string | number, unknown>
  const last = path.at(-1) ?? ''
  if (value === undefined) delete at[last]
  else at[last] = value
  return data
}

/** Every path of a value, containers first. */
export function pathsOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path]
  return [
    path,
    ...Object.entries(value).flatMap(([key, inner]) =>
      pathsOf(inner, [...path, Array.isArray(value) ? Number(key) : key]),
    ),
  ]
}
