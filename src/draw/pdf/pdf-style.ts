import { drawingCss } from '../svg-text.ts'

/** How an outline is painted. Colours are `#rgb` or `#rrggbb`. */
export interface Paint {
  readonly fill?: string
  readonly stroke?: string
  readonly width?: number
  readonly dash?: readonly number[]
  readonly round?: boolean
}

const RULE = /([^{}]+)\{([^{}]*)\}/g
const LAST_CLASS = /\.([\w-]+)$/

function paintOf(declarations: string): Paint {
  const all = new Map(
    declarations.split(';').map((one) => {
      const [name = '', value = ''] = one.split(':')
      return [name.trim(), value.trim()] as const
    }),
  )
  const width = all.get('stroke-width')
  const dash = all.get('stroke-dasharray')
  return {
    ...(all.has('fill') ? { fill: all.get('fill') ?? 'none' } : {}),
    ...(all.has('stroke') ? { stroke: all.get('stroke') ?? 'none' } : {}),
    ...(width ? { width: Number.parseFloat(width) } : {}),
    ...(dash ? { dash: dash.split(/[ ,]+/).map(Number) } : {}),
    ...(all.get('stroke-linecap') === 'round' ? { round: true } : {}),
  }
}

/** Paint by class, read from the style sheet of the drawings, so that paper and screen cannot part. */
export function classPaints(): ReadonlyMap<string, Paint> {
  const paints = new Map<string, Paint>()
  for (const [, selectors = '', declarations = ''] of drawingCss().matchAll(RULE))
    for (const selector of selectors.split(',')) {
      const name = LAST_CLASS.exec(selector.trim())?.[1]
      if (name) paints.set(name, { ...paints.get(name), ...paintOf(declarations) })
    }
  return paints
}

/** Paint of an element with these classes; black without any, as in SVG. */
export function paintFor(paints: ReadonlyMap<string, Paint>, classes: string, over: Paint = {}): Paint {
  const found = classes.split(' ').map((name) => paints.get(name) ?? {})
  return Object.assign({ fill: '#000', stroke: 'none', width: 1 }, ...found, over)
}

/** Three shares of a colour, or undefined for none. */
export function colourShares(colour: string | undefined): readonly [number, number, number] | undefined {
  const hex = colour?.startsWith('#') ? colour.slice(1) : undefined
  if (hex === undefined) return undefined
  const full = hex.length === 3 ? [...hex].map((digit) => digit + digit).join('') : hex
  const share = (at: number) => Math.round((Number.parseInt(full.slice(at, at + 2), 16) / 255) * 1000) / 1000
  return [share(0), share(2), share(4)]
}
