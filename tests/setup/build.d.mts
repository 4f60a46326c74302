/** Bundles the library and the command into a folder. */
export function bundle(dist: string): Promise<void>
