import qrcode from 'qrcode-generator'
import { type Markup, markup } from './templates.ts'

/** Quiet zone around the code in modules, as ISO/IEC 18004 asks. */
export const QR_QUIET = 4

/** The dark modules of a QR code (ISO/IEC 18004, level M), row by row. */
export type QrModules = readonly (readonly boolean[])[]

/** The code of a text; undefined when the text is too long for one. */
export function qrModules(text: string): QrModules | undefined {
  const code = qrcode(0, 'M')
  // The library counts UTF-16 units as bytes, so the text is handed over as UTF-8 already.
  code.addData(utf8(text), 'Byte')
  try {
    code.make()
  } catch {
    return undefined
  }
  const size = code.getModuleCount()
  return Array.from({ length: size }, (_, row) =>
    Array.from({ length: size }, (_, column) => code.isDark(row, column)),
  )
}

/** The dark modules as one SVG path, runs joined, with the quiet zone before the first. */
export function qrPath(modules: QrModules): string {
  let path = ''
  modules.forEach((row, y) => {
    for (let x = 0; x < row.length; x++) {
      if (!row[x]) continue
      const start = x
      while (row[x + 1]) x++
      const run = x - start + 1
      path += `M${start + QR_QUIET} ${y + QR_QUIET}h${run}v1h-${run}z`
    }
  })
  return path
}

/** Modules along one side, quiet zone included. */
export const qrSide = (modules: QrModules): number => modules.length + 2 * QR_QUIET

/** A QR code as one SVG path, black on white; empty when the text is too long for a code. */
export function qrMarkup(text: string): Markup {
  const modules = qrModules(text)
  if (!modules) return markup('')
  const side = qrSide(modules)
  return markup(
    `<svg class="qr" viewBox="0 0 ${side} ${side}" role="img" aria-label="QR code of this paper’s issue" focusable="false"><path fill="#fff" d="M0 0h${side}v${side}H0z"/><path fill="#000" d="${qrPath(modules)}"/></svg>`,
  )
}

/** Half a surrogate pair is no character, and has no UTF-8. */
const HALF_PAIR = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g

/** UTF-8 bytes as one character each. */
function utf8(text: string): string {
  return encodeURIComponent(text.replace(HALF_PAIR, '\ufffd')).replace(/%([0-9A-F]{2})/g, (_, hex: string) =>
    String.fromCharCode(Number.parseInt(hex, 16)),
  )
}
