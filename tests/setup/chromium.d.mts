/** Where a command lives on PATH, or undefined. */
export function which(name: string): string | undefined
/** The Chromium the page tests drive, or undefined when there is none. */
export function findChromium(env?: Record<string, string | undefined>): string | undefined
