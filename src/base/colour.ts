import { quote } from './quote.ts'
import { bad, good, type Result } from './result.ts'
import { didYouMean } from './suggest.ts'

export type ColourFacts = {
  /** The English word. */
  readonly word: string
  /** How it is shown on a screen, chosen to be told apart on white paper and on a dark page alike. */
  readonly hex: string
  /** The ink that can be read on it. */
  readonly ink: 'black' | 'white'
}

/** Colour codes of IEC 60757 in the order of its table, which is also the order of the two codes of a bicolour. */
export const COLOURS = {
  BK: { word: 'black', hex: '#1a1a1a', ink: 'white' },
  BN: { word: 'brown', hex: '#8a4b1c', ink: 'white' },
  RD: { word: 'red', hex: '#d1232a', ink: 'white' },
  OG: { word: 'orange', hex: '#f28c1e', ink: 'black' },
  YE: { word: 'yellow', hex: '#f7d917', ink: 'black' },
  GN: { word: 'green', hex: '#2e9b3f', ink: 'black' },
  BU: { word: 'blue', hex: '#1f5fbf', ink: 'white' },
  VT: { word: 'violet', hex: '#7d3fa0', ink: 'white' },
  GY: { word: 'grey', hex: '#8c9196', ink: 'black' },
  WH: { word: 'white', hex: '#ffffff', ink: 'black' },
  PK: { word: 'pink', hex: '#f3a0bd', ink: 'black' },
  GD: { word: 'gold', hex: '#c9a13b', ink: 'black' },
  TQ: { word: 'turquoise', hex: '#30b7b4', ink: 'black' },
  SR: { word: 'silver', hex: '#c6c9cc', ink: 'black' },
} as const satisfies Record<string, ColourFacts>

export type ColourCode = keyof typeof COLOURS
type Bicolour = { [First in ColourCode]: `${First}${Exclude<ColourCode, First>}` }[ColourCode]
/** A conductor colour as written: one code, or two joined (the ground colour, then its tracer). Green with yellow is only `GNYE`. */
export type Colour = ColourCode | Exclude<Bicolour, 'YEGN'>

/** All codes in IEC 60757 order. */
export const COLOUR_CODES = Object.keys(COLOURS) as ColourCode[]

/** A colour understood. */
export type ColourReading = {
  /** As written, the ground colour first. Two wires of a cable may differ only in this order. */
  readonly codes: readonly [ColourCode] | readonly [ColourCode, ColourCode]
  /** `green and yellow`. */
  readonly words: string
  /** The spelling of IEC 60757: both codes in table order, except `GNYE`. */
  readonly canonical: Colour
}

const isCode = (text: string): text is ColourCode => Object.hasOwn(COLOURS, text)

/** Codes from other schemes that people bring along, each with what it may have meant. */
const FOREIGN: Readonly<Record<string, readonly ColourCode[]>> = {
  BL: ['BK', 'BU'],
  BR: ['BN'],
  GR: ['GN', 'GY'],
  OR: ['OG'],
  PU: ['VT'],
  VI: ['VT'],
  WT: ['WH'],
  SL: ['GY'],
  YL: ['YE'],
  GE: ['YE'],
  RT: ['RD'],
  SW: ['BK'],
  WS: ['WH'],
  BLK: ['BK'],
  BLU: ['BU'],
  BRN: ['BN'],
  RED: ['RD'],
  ORG: ['OG'],
  YEL: ['YE'],
  GRN: ['GN'],
  VIO: ['VT'],
  PUR: ['VT'],
  GRY: ['GY'],
  WHT: ['WH'],
  GRAY: ['GY'],
  PURPLE: ['VT'],
  SLATE: ['GY'],
}

/**
 * Reads a colour of IEC 60757, one code or two joined: `RD`, `WHBU`, `GNYE`. Never throws.
 * Words, other schemes' codes and separators are refused with the code to write instead, because a guess at “BL” wires
 * blue for black.
 */
export function parseColour(text: string): Result<ColourReading> {
  if (typeof text !== 'string' || text.length > 32)
    return bad(`${quote(String(text))} is not a colour; write a code of IEC 60757 such as “RD” or “GNYE”.`)
  const first = text.slice(0, 2)
  const second = text.slice(2)
  if (isCode(text)) return good({ codes: [text], words: COLOURS[text].word, canonical: text })
  if (text === 'YEGN')
    return bad('“YEGN” is always written “GNYE”, because it marks protective earth (IEC 60757).')
  if (isCode(first) && isCode(second) && first !== second) return good(bicolour(first, second))
  return bad(notAColour(text))
}

function bicolour(first: ColourCode, second: ColourCode): ColourReading {
  const inOrder =
    COLOUR_CODES.indexOf(first) <= COLOUR_CODES.indexOf(second) || (first === 'GN' && second === 'YE')
  return {
    codes: [first, second],
    words: `${COLOURS[first].word} and ${COLOURS[second].word}`,
    // The types cannot follow the sort; two different codes always make a member of Colour.
    canonical: (inOrder ? first + second : second + first) as Colour,
  }
}

function codesMeant(part: string): readonly ColourCode[] {
  const upper = part.toUpperCase()
  if (isCode(upper)) return [upper]
  const byWord = COLOUR_CODES.find((code) => COLOURS[code].word.toUpperCase() === upper)
  return byWord ? [byWord] : Object.hasOwn(FOREIGN, upper) ? (FOREIGN[upper] ?? []) : []
}

function notAColour(text: string): string {
  const opening = `${quote(text)} is not a colour code of IEC 60757`
  const parts = text
    .split(/[^A-Za-z]+/)
    .filter((part) => part !== '' && !/^(and|with|light|dark)$/i.test(part))
  const halves = parts.length === 1 && text.length === 4 ? [text.slice(0, 2), text.slice(2)] : parts
  const whole = codesMeant(text)
  const meant = whole.length > 0 ? [whole] : halves.map(codesMeant)
  if (meant.length >= 1 && meant.length <= 2 && meant.every((codes) => codes.length > 0)) {
    const spellings = (meant[0] ?? []).flatMap((one) =>
      (meant[1] ?? ['']).map((two) => (one === two ? one : one + two)),
    )
    const fixed = spellings.map((code) => (code === 'YEGN' ? 'GNYE' : code))
    return `${opening}: write ${fixed.map((code) => `${quote(code)} (${wordsOf(code)})`).join(' or ')}.`
  }
  const hint = didYouMean(text, COLOUR_CODES)
  return hint === ''
    ? `${opening}; write one such as “RD” (red) or “GNYE” (green and yellow).`
    : `${opening}.${hint}`
}

function wordsOf(code: string): string {
  const reading = parseColour(code)
  return reading.ok ? reading.value.words : code
}

/** The words for a colour, `white and blue`; an unknown code is given back as it is. */
export const colourWords = (colour: string): string => wordsOf(colour)

/** Code and words together, `GNYE green and yellow`, as every drawing and sheet prints a colour. */
export const colourLabel = (colour: string): string => `${colour} ${wordsOf(colour)}`

/** The cores of a cable joined as IEC 60757 writes them: `BK+BK+BN+BU+GNYE`. */
export function joinColours(colours: readonly Colour[]): string {
  return colours.map((colour) => canonicalColour(colour)).join('+')
}

/** The IEC 60757 spelling of a colour. */
export function canonicalColour(colour: Colour): Colour {
  const reading = parseColour(colour)
  return reading.ok ? reading.value.canonical : colour
}
