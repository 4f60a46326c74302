import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { showPlace } from '../../src/base/place.ts'
import { readShop } from '../../src/read/read-shop.ts'
import type { ShopSource } from '../../src/read/shop-source.ts'

/** Writes files into a new folder, hands it to `use` and removes it, whatever happens. */
export async function inFolder<T>(
  files: Readonly<Record<string, string | Uint8Array>>,
  use: (folder: string) => Promise<T>,
): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'shop-'))
  try {
    for (const [name, content] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, name)), { recursive: true })
      writeFileSync(join(folder, name), content)
    }
    return await use(folder)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Reads a shop made of these files. */
export const readFiles = (files: Readonly<Record<string, string | Uint8Array>>): Promise<ShopSource> =>
  inFolder(files, (folder) => readShop('.', folder))

/** Troubles as `file:line:column what`. */
export const told = (source: ShopSource): string[] =>
  source.troubles.map(({ what, place }) => `${place ? showPlace(place) : '-'} ${what}`)

/** A place that a mark in the text shows: `«` is taken out, and where it stood is line and column. */
export function marked(text: string): { text: string; line: number; column: number } {
  const at = text.indexOf('«')
  const before = text.slice(0, at)
  return {
    text: text.replace('«', ''),
    line: before.split('\n').length,
    column: at - before.lastIndexOf('\n'),
  }
}
