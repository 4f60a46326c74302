import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

/** A file or folder of this package. Sources and bundles alike lie two folders below its top. */
export function packageFile(path: string): string {
  return fileURLToPath(new URL(`../../${path}`, import.meta.url))
}

/** The version of this package. */
export function packageVersion(): string {
  const manifest: unknown = JSON.parse(readFileSync(packageFile('package.json'), 'utf8'))
  return manifest !== null && typeof manifest === 'object' && 'version' in manifest
    ? String(manifest.version)
    : 'unknown'
}
