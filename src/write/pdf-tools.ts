import { brotliDecompressSync, deflateSync } from 'node:zlib'
import type { PdfTools } from '../draw/pdf/pdf-document.ts'

/** Packing and unpacking with what Node brings. */
export const pdfTools: PdfTools = {
  unpack: (packed) => new Uint8Array(brotliDecompressSync(packed)),
  deflate: (plain) => new Uint8Array(deflateSync(plain, { level: 9 })),
}
