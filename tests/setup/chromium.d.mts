export const HOW_TO_GET_CHROMIUM: string
/** Where a command lives on PATH, or undefined. */
export function which(name: string): string | undefined
/** The Chromium the page tests drive, or undefined when there is none. */
export function findChromium(env?: Record<string, string | undefined>): string | undefined
/** The same, for a test that cannot do without: throws what to do about it. */
export function needChromium(env?: Record<string, string | undefined>): string
