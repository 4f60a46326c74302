/**
 * How large a description may be. Beyond these limits reading stops with a message instead of a machine without memory;
 * each is far above what a shop writes by hand. Lists within a document are bounded beside their shape.
 */
export const LIMITS = {
  /** Bytes of one description or procedure file. */
  fileBytes: 20 * 1024 * 1024,
  /** Description and procedure files of one shop. */
  files: 5000,
  /** Folders below the shop's own, counted downwards. */
  folderDepth: 16,
  /** Lists and objects within each other in one document; the shape itself needs ten. */
  depth: 64,
  /** Seconds that description code may run before it is taken for a loop without end. */
  seconds: 10,
  /** Faults of one document that are told apart; more of them say nothing new. */
  faults: 500,
  /** Pins of one connector; the largest circular and modular families have a few hundred. */
  pins: 1000,
  /** Wrong names of one loom that are answered with what might be meant; comparing each of thousands with each takes long. */
  hints: 500,
} as const
