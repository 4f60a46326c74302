/** Characters Windows refuses in a name; they also cover what a shell or a URL would take for something else. */
const REFUSED = /[\u0000-\u001f\u007f-\u009f<>:"|?*\\]/
const DEVICE = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i
/** In UTF-8 bytes; file systems allow 255, and a name of ours may yet get an ending. */
const LONGEST_SEGMENT = 200
const LONGEST_NAME = 400

const bytes = (text: string): number => Buffer.byteLength(text, 'utf8')

function segmentProblem(segment: string): string | undefined {
  if (segment === '') return 'it has an empty part'
  if (segment === '.' || segment === '..') return 'it steps out of its folder'
  if (REFUSED.test(segment)) return 'it holds a character that not every system allows'
  if (/[. ]$/.test(segment)) return 'a part ends in a dot or a space, which Windows drops'
  if (DEVICE.test(segment)) return 'Windows keeps a part of it for a device'
  if (bytes(segment) > LONGEST_SEGMENT) return `a part is longer than ${LONGEST_SEGMENT} bytes`
  return undefined
}

/**
 * What is wrong with a name as that of an output file, or undefined. Names are relative, with forward slashes, and must be
 * good on Linux, macOS and Windows alike, since a shop's pages are copied between them.
 */
export function outputNameProblem(name: string): string | undefined {
  if (bytes(name) > LONGEST_NAME) return `it is longer than ${LONGEST_NAME} bytes`
  if (name.startsWith('/')) return 'it is not relative'
  for (const segment of name.split('/')) {
    const problem = segmentProblem(segment)
    if (problem) return problem
  }
  return undefined
}

/** The first clash or bad name in a set of output files, as a sentence, or undefined. Case is folded, as Windows and macOS do. */
export function outputNamesProblem(names: Iterable<string>): string | undefined {
  const files = new Map<string, string>()
  const folders = new Map<string, string>()
  for (const name of names) {
    const problem = outputNameProblem(name)
    if (problem) return `the output name ${JSON.stringify(name)} cannot be used: ${problem}`
    const folded = name.normalize('NFC').toLowerCase()
    const twin = files.get(folded)
    if (twin !== undefined) return `the output names ${twin} and ${name} are one file on some systems`
    files.set(folded, name)
    const parts = folded.split('/')
    for (let depth = 1; depth < parts.length; depth++) folders.set(parts.slice(0, depth).join('/'), name)
  }
  for (const [folded, name] of files) {
    const inside = folders.get(folded)
    if (inside !== undefined) return `the output ${name} is a file, and ${inside} needs a folder of that name`
  }
  return undefined
}
