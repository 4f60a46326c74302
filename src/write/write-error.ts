/** Output could not be written. The message is one sentence for a person; what was there before is untouched. */
export class WriteError extends Error {
  readonly fix: string

  constructor(what: string, fix: string) {
    super(what)
    this.name = 'WriteError'
    this.fix = fix
  }
}

/** The code of a file system error, such as `ENOSPC`. */
export function codeOf(error: unknown): string | undefined {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined
}

const CURES: Readonly<Record<string, readonly [what: string, fix: string]>> = {
  ENOSPC: ['the disk is full', 'free some space and run it again'],
  EDQUOT: ['your share of the disk is full', 'free some space and run it again'],
  EROFS: ['the disk is read-only', 'choose a folder on another disk'],
  EACCES: ['you may not write there', 'choose another folder, or ask for the right to write'],
  EPERM: ['you may not write there', 'choose another folder, or ask for the right to write'],
  EBUSY: ['another program holds it open', 'close it and run it again'],
  ENAMETOOLONG: ['the path is too long', 'choose a folder nearer the top'],
  EEXIST: ['a part of the path is a file', 'choose another folder'],
  ENOTDIR: ['a part of the path is a file', 'choose another folder'],
  ENOENT: ['the folder above it does not exist', 'make that folder first, or choose another'],
  EISDIR: ['it is a folder', 'give the name of a file'],
}

/** Turns whatever the file system threw into a sentence about `path`. */
export function writeError(path: string, error: unknown): WriteError {
  if (error instanceof WriteError) return error
  const [what, fix] = CURES[codeOf(error) ?? ''] ?? [
    error instanceof Error ? error.message : String(error),
    'choose another place',
  ]
  return new WriteError(`cannot write ${path}: ${what}`, fix)
}
