import type { ConnectorFamily } from '../../describe/part.ts'

/** Styles whose pins have a place on a face that can be looked at from the wrong side. */
const FACED: ReadonlySet<string> = new Set(['housing', 'circular', 'dsub', 'modular'])
/** How far, as a share of the smallest pitch, a mirrored pin may miss the pin it lands on. */
const MISS = 0.35

/**
 * Where each pin seems to be when the face is looked at from the other side: the left-right reflection of its true geometry,
 * or the reversed row where no geometry is known. Undefined for families in which that has no meaning.
 */
export function mirrorImage(family: ConnectorFamily): ReadonlyMap<string, string> | undefined {
  if (!FACED.has(family.style) || family.pins.length < 2) return undefined
  return family.face ? reflected(family.face.pins) : reversed(family)
}

/** Without a face only a single row is certain, and modular plugs are one. */
function reversed(family: ConnectorFamily): ReadonlyMap<string, string> | undefined {
  if (family.style !== 'modular' && family.style !== 'housing') return undefined
  const { pins } = family
  return new Map(pins.map((pin, index) => [pin, pins[pins.length - 1 - index] ?? pin]))
}

type Spots = Readonly<Record<string, { readonly xMm: number; readonly yMm: number }>>

function reflected(spots: Spots): ReadonlyMap<string, string> | undefined {
  const pins = Object.entries(spots)
  const xs = pins.map(([, spot]) => spot.xMm)
  const middle = (Math.min(...xs) + Math.max(...xs)) / 2
  const near = MISS * smallestPitch(pins.map(([, spot]) => spot))
  const image = new Map<string, string>()
  for (const [pin, spot] of pins) {
    const x = 2 * middle - spot.xMm
    const hit = pins.find(([, other]) => Math.hypot(other.xMm - x, other.yMm - spot.yMm) <= near)
    if (!hit) return undefined
    image.set(pin, hit[0])
  }
  return new Set(image.values()).size === image.size ? image : undefined
}

function smallestPitch(spots: readonly { readonly xMm: number; readonly yMm: number }[]): number {
  let smallest = Number.POSITIVE_INFINITY
  spots.forEach((one, index) => {
    for (const other of spots.slice(index + 1))
      smallest = Math.min(smallest, Math.hypot(one.xMm - other.xMm, one.yMm - other.yMm))
  })
  return smallest
}
