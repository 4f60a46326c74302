import { document } from '../../src/describe/document.ts'

/** What every program that reads a checked file does at the least: the yardstick of the check. */
export function parseAndValidate(text: string): boolean {
  return document.safeParse(JSON.parse(text)).success
}
