import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { type LayoutEngine, layOutAnew } from '../draw/layout-engine.ts'
import { hashOf } from './content-hash.ts'
import type { ContentStore } from './content-store.ts'

/** Another version of the library may place things otherwise. */
function libraryVersion(): string {
  return readFileSync(createRequire(import.meta.url).resolve('elkjs/package.json'), 'utf8')
}

/** Layouts by the content of the graph: one that was laid out before, by whatever build, is not laid out again. */
export function keptLayouts(store: ContentStore): LayoutEngine {
  const version = libraryVersion()
  return async (root) => {
    const key = hashOf(version, process.version, JSON.stringify(root))
    const kept = store.get('layout', key)
    if (kept !== undefined) return JSON.parse(kept)
    const placed = await layOutAnew(root)
    store.put('layout', key, JSON.stringify(placed))
    return placed
  }
}
