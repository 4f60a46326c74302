import { readFile, stat } from 'node:fs/promises'
import { LIMITS } from '../describe/limits.ts'
import { LineIndex } from './line-index.ts'
import { startOf, TroubleError } from './trouble-error.ts'

const megabytes = (bytes: number): string => `${Math.ceil(bytes / 1024 / 1024)} MB`

/** Why the system refused, in words. */
function refusal(error: unknown): { what: string; fix: string } {
  const code = typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : 'unknown'
  if (code === 'ENOENT') return { what: 'the file is not there', fix: 'Check the name.' }
  if (code === 'EACCES' || code === 'EPERM')
    return { what: 'the file may not be read', fix: 'Allow reading it, or move it out of the shop.' }
  if (code === 'EISDIR')
    return { what: 'this is a folder, not a file', fix: 'Rename it, or move it out of the shop.' }
  return { what: `the system cannot read the file (${code})`, fix: 'Check the disk and the name.' }
}

async function bytesOf(path: string, file: string): Promise<Buffer> {
  try {
    const facts = await stat(path)
    if (facts.isDirectory()) throw Object.assign(new Error(), { code: 'EISDIR' })
    // A pipe or a device would wait for ever.
    if (!facts.isFile())
      throw new TroubleError('this is not an ordinary file', 'Put a file in its place.', startOf(file))
    if (facts.size > LIMITS.fileBytes)
      throw new TroubleError(
        `the file has ${megabytes(facts.size)}, more than the ${megabytes(LIMITS.fileBytes)} a description may have`,
        'Split it into one file for each harness, or take out what is not a description.',
        startOf(file),
      )
    return await readFile(path)
  } catch (error) {
    if (error instanceof TroubleError) throw error
    const { what, fix } = refusal(error)
    throw new TroubleError(what, fix, startOf(file))
  }
}

function decode(bytes: Buffer, file: string): string {
  const utf16 = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)
  if (utf16) throw new TroubleError('the text is written in UTF-16', 'Save the file as UTF-8.', startOf(file))
  if (bytes.subarray(0, 65_536).includes(0))
    throw new TroubleError('this is a binary file, not text', 'Put a text file in its place.', startOf(file))
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    const loose = new TextDecoder('utf-8').decode(bytes)
    const place = new LineIndex(loose).at(Math.max(0, loose.indexOf('\ufffd')))
    throw new TroubleError(
      'the text is not UTF-8 from here on',
      'Save the file as UTF-8; older editors write accents and “²” in another code.',
      { file, ...place },
    )
  }
}

/**
 * Reads a file as UTF-8 text, without a byte order mark.
 * @param path where it is
 * @param file how people call it, for messages
 * @throws TroubleError if it is missing, unreadable, no ordinary file, too large, binary or in another code
 */
export async function readText(path: string, file: string): Promise<string> {
  return decode(await bytesOf(path, file), file)
}
