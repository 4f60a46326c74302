/** What a description that runs apart may use up; a shop of five hundred files stays far below all of it. */
export const APART = {
  /** Seconds to bundle. */
  bundleSeconds: 20,
  /** Seconds the code may run. */
  seconds: 10,
  /** Bytes the interpreter may take for the code and all it makes. */
  memoryBytes: 256 * 1024 * 1024,
  /** Bytes of the interpreter's stack, which bounds how deep functions may call each other. */
  stackBytes: 256 * 1024,
  /** Bytes of TypeScript and imported JSON, all files together. */
  sourceBytes: 32 * 1024 * 1024,
  /** Lists, objects and entries that may come back. */
  values: 2_000_000,
  /** Characters that may come back. */
  answerLength: 64 * 1024 * 1024,
} as const

/** The name under which the code of all files runs; stack texts carry it. */
export const SCRIPT_NAME = 'descriptions-apart.js'
