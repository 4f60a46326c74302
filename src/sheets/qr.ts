import qrcode from 'qrcode-generator'
import { type Markup, markup } from './templates.ts'

/** Quiet zone around the code in modules, as ISO/IEC 18004 asks. */
const QUIET = 4

/** A QR code as one SVG path, black on white; empty when the text is too long for a code. */
export function qrMarkup(text: string): Markup {
  const code = qrcode(0, 'M')
  // The library counts UTF-16 units as bytes, so the text is handed over as UTF-8 already.
  code.addData(utf8(text), 'Byte')
  try {
    code.make()
  } catch {
    return markup('')
  }
  const size = code.getModuleCount()
  let path = ''
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      if (code.isDark(row, column)) path += `M${column + QUIET} ${row + QUIET}h1v1h-1z`
    }
  }
  const side = size + 2 * QUIET
  return markup(
    `<svg class="qr" viewBox="0 0 ${side} ${side}" role="img" aria-label="QR code of this paper’s issue" focusable="false"><path fill="#fff" d="M0 0h${side}v${side}H0z"/><path fill="#000" d="${path}"/></svg>`,
  )
}

/** UTF-8 bytes as one character each. */
function utf8(text: string): string {
  return encodeURIComponent(text).replace(/%([0-9A-F]{2})/g, (_, hex: string) =>
    String.fromCharCode(Number.parseInt(hex, 16)),
  )
}
