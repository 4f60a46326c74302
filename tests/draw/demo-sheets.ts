import { fileURLToPath } from 'node:url'
import { describeShop } from '../../src/describe/validate.ts'
import { harnessSheet, loomSheet } from '../../src/draw/loom-sheet.ts'
import type { SheetModel } from '../../src/draw/sheet-model.ts'
import { readShop } from '../../src/read/read-shop.ts'
import type { Loom } from '../../src/resolve/loom.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'

/** The looms of the demo shop. */
export async function demoLooms(): Promise<readonly Loom[]> {
  const source = await readShop('harnesses', fileURLToPath(new URL('../..', import.meta.url)))
  if (source.troubles.length > 0) throw new Error('the demo shop cannot be read')
  return resolveShop(describeShop(source.documents, source.procedures).shop).looms
}

/** Every wiring drawing of some looms by name: each installation, and each harness by itself, once. */
export function wiringSheets(looms: readonly Loom[]): Map<string, SheetModel> {
  const sheets = new Map<string, SheetModel>()
  for (const loom of looms) {
    if (loom.kind === 'installation') sheets.set(loom.id, loomSheet(loom))
    for (const use of loom.looms)
      if (!sheets.has(`harness ${use.harness.id}`))
        sheets.set(`harness ${use.harness.id}`, harnessSheet(loom, use))
  }
  return sheets
}
