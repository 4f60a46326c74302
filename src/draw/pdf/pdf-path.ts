type Ops = string[]

const n = (value: number): string => String(Math.round(value * 1000) / 1000 + 0)

interface Pen {
  x: number
  y: number
  startX: number
  startY: number
  /** Last control point, for the smooth forms. */
  cx: number
  cy: number
}

const curve = (
  out: Ops,
  pen: Pen,
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  x: number,
  y: number,
): void => {
  out.push(`${n(x1)} ${n(y1)} ${n(x2)} ${n(y2)} ${n(x)} ${n(y)} c`)
  Object.assign(pen, { cx: x2, cy: y2, x, y })
}

function quadratic(out: Ops, pen: Pen, qx: number, qy: number, x: number, y: number): void {
  const { x: x0, y: y0 } = pen
  const third = 2 / 3
  curve(
    out,
    pen,
    x0 + third * (qx - x0),
    y0 + third * (qy - y0),
    x + third * (qx - x),
    y + third * (qy - y),
    x,
    y,
  )
  Object.assign(pen, { cx: qx, cy: qy })
}

/** Centre form of an elliptical arc (SVG 1.1 appendix F.6.5), then one Bézier for each quarter turn at most. */
function arc(out: Ops, pen: Pen, args: readonly number[], x: number, y: number): void {
  const [rx0 = 0, ry0 = 0, turn = 0, large = 0, sweep = 0] = args
  if (rx0 === 0 || ry0 === 0) {
    out.push(`${n(x)} ${n(y)} l`)
    Object.assign(pen, { x, y })
    return
  }
  const phi = (turn * Math.PI) / 180
  const [cos, sin] = [Math.cos(phi), Math.sin(phi)]
  const [dx, dy] = [(pen.x - x) / 2, (pen.y - y) / 2]
  const [px, py] = [cos * dx + sin * dy, -sin * dx + cos * dy]
  const grow = Math.sqrt(Math.max(1, (px / rx0) ** 2 + (py / ry0) ** 2))
  const [rx, ry] = [Math.abs(rx0) * grow, Math.abs(ry0) * grow]
  const below = (rx * py) ** 2 + (ry * px) ** 2
  const factor =
    below === 0 ? 0 : Math.sqrt(Math.max(0, (rx * ry) ** 2 / below - 1)) * (large === sweep ? -1 : 1)
  const [ux, uy] = [(factor * rx * py) / ry, (-factor * ry * px) / rx]
  const [cx, cy] = [cos * ux - sin * uy + (pen.x + x) / 2, sin * ux + cos * uy + (pen.y + y) / 2]
  const start = Math.atan2((py - uy) / ry, (px - ux) / rx)
  let sweepBy = Math.atan2((-py - uy) / ry, (-px - ux) / rx) - start
  if (sweep === 1 && sweepBy < 0) sweepBy += 2 * Math.PI
  if (sweep === 0 && sweepBy > 0) sweepBy -= 2 * Math.PI
  const pieces = Math.max(1, Math.ceil(Math.abs(sweepBy) / (Math.PI / 2) - 1e-9))
  const step = sweepBy / pieces
  const k = (4 / 3) * Math.tan(step / 4)
  const at = (a: number, b: number): readonly [number, number] => [
    cx + cos * rx * a - sin * ry * b,
    cy + sin * rx * a + cos * ry * b,
  ]
  for (let i = 0; i < pieces; i += 1) {
    const [t, u] = [start + i * step, start + (i + 1) * step]
    const [x1, y1] = at(Math.cos(t) - k * Math.sin(t), Math.sin(t) + k * Math.cos(t))
    const [x2, y2] = at(Math.cos(u) + k * Math.sin(u), Math.sin(u) - k * Math.cos(u))
    const [ex, ey] = i === pieces - 1 ? [x, y] : at(Math.cos(u), Math.sin(u))
    curve(out, pen, x1, y1, x2, y2, ex, ey)
  }
}

const ARGUMENTS: Readonly<Record<string, number>> = {
  M: 2,
  L: 2,
  H: 1,
  V: 1,
  C: 6,
  S: 4,
  Q: 4,
  T: 2,
  A: 7,
  Z: 0,
}
const TOKENS = /([a-zA-Z])|(-?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)/g

function draw(
  out: Ops,
  pen: Pen,
  command: string,
  args: readonly number[],
  relative: boolean,
  smooth: boolean,
): void {
  const [ox, oy] = relative ? [pen.x, pen.y] : [0, 0]
  const X = (i: number) => ox + (args[i] ?? 0)
  const Y = (i: number) => oy + (args[i] ?? 0)
  const mirrored = (): readonly [number, number] =>
    smooth ? [2 * pen.x - pen.cx, 2 * pen.y - pen.cy] : [pen.x, pen.y]
  const go = (operator: 'm' | 'l', x: number, y: number) => {
    out.push(`${n(x)} ${n(y)} ${operator}`)
    Object.assign(pen, { x, y, ...(operator === 'm' ? { startX: x, startY: y } : {}) })
  }
  switch (command) {
    case 'M':
      go('m', X(0), Y(1))
      break
    case 'L':
      go('l', X(0), Y(1))
      break
    case 'H':
      go('l', X(0), pen.y)
      break
    case 'V':
      go('l', pen.x, Y(0))
      break
    case 'C':
      curve(out, pen, X(0), Y(1), X(2), Y(3), X(4), Y(5))
      break
    case 'S':
      curve(out, pen, ...mirrored(), X(0), Y(1), X(2), Y(3))
      break
    case 'Q':
      quadratic(out, pen, X(0), Y(1), X(2), Y(3))
      break
    case 'T':
      quadratic(out, pen, ...mirrored(), X(0), Y(1))
      break
    case 'A':
      arc(out, pen, args, X(5), Y(6))
      break
    case 'Z':
      out.push('h')
      Object.assign(pen, { x: pen.startX, y: pen.startY })
  }
}

/** An SVG outline as PDF path operators. What cannot be read ends the outline there, as a browser ends it. */
export function pdfPath(d: string): string[] {
  const out: Ops = []
  const pen: Pen = { x: 0, y: 0, startX: 0, startY: 0, cx: 0, cy: 0 }
  const tokens = [...d.matchAll(TOKENS)].map(([token]) => token)
  let letter = ''
  let before = ''
  for (let i = 0; i < tokens.length; ) {
    const token = tokens[i] ?? ''
    if (/[a-z]/i.test(token)) {
      letter = token
      i += 1
    }
    const command = letter.toUpperCase()
    const count = ARGUMENTS[command]
    if (count === undefined || (count === 0 && !/[a-z]/i.test(token))) break
    const args = tokens.slice(i, i + count).map(Number)
    if (args.length < count || args.some(Number.isNaN)) break
    const smooth = command === 'S' ? 'CS'.includes(before) : command === 'T' ? 'QT'.includes(before) : false
    draw(out, pen, command, args, letter !== command, smooth && before !== '')
    before = command
    i += count
    // More pairs after a move are lines.
    if (letter === 'M') letter = 'L'
    if (letter === 'm') letter = 'l'
  }
  return out
}
