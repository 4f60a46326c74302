import type { ComponentUse } from '../resolve/loom.ts'

/** Rated current of a fuse, as written or as its part says. */
export function fuseRating(fuse: ComponentUse): number | undefined {
  const { source } = fuse
  return (source.kind === 'fuse' ? source.rating : undefined) ?? fuse.fusePart?.rating
}
