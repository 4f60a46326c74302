import * as z from 'zod'
import { COLOUR_CODES, type Colour, parseColour } from '../base/colour.ts'
import { parseWireSize, type WireGauge, type WireSize } from '../base/wire-size.ts'

// For editors that know the JSON Schema only: looser than the parsers, which have the last word.
const SIZE_PATTERN =
  '^\\s*(\\d*\\.?\\d+\\s*([mM][mM](²|2|\\^2)|[sS][qQ][mM][mM])|\\d+(/0)?\\s*[aA][wW][gG]|[aA][wW][gG]\\s*\\d+(/0)?)\\s*$'
const ANY_COLOUR = COLOUR_CODES.join('|')
const COLOUR_PATTERN = `^(${ANY_COLOUR})(${ANY_COLOUR})?$`

/** A name people and addresses use: no blanks, no dots (dots separate the parts of an address), at most 64 characters. */
export const idText = (description: string, example: string) =>
  z
    .string({ error: () => `expected a name, such as "${example}"` })
    .min(1, 'a name cannot be empty')
    .max(64, 'a name has at most 64 characters; put longer text into the title')
    .regex(
      /^[^\s.#:"'<>\u0000-\u001f\u007f\u202a-\u202e\u2066-\u2069]+$/u,
      'a name has no blanks, dots, colons, #, quotes or angle brackets',
    )
    .meta({ description, examples: [example] })

/** A name of a catalogue part. As `idText`, but dots are allowed: trade names carry sizes ("jack-6.35-trs"), and no address holds one. */
export const partIdText = (description: string, example: string) =>
  z
    .string({ error: () => `expected the name of a part, such as "${example}"` })
    .min(1, 'a name cannot be empty')
    .max(64, 'a name has at most 64 characters; put longer text into the title')
    .regex(
      /^[^\s#:"'<>\u0000-\u001f\u007f\u202a-\u202e\u2066-\u2069]+$/u,
      'the name of a part has no blanks, colons, #, quotes or angle brackets',
    )
    .meta({ description, examples: [example] })

/** Free text for people: any language, no control characters, bounded so that a page stays a page. */
export const proseText = (description: string, max = 2000) =>
  z
    .string()
    .max(max, `at most ${max} characters`)
    .regex(/^[^\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]*$/u, 'control characters are not allowed')
    .meta({ description })

/** As `proseText`, and not blank: a name or a reason that somebody answers for. */
export const statedText = (description: string, max = 2000) =>
  proseText(description, max).regex(/\S/u, 'this cannot be left blank')

/** `P1.2`: a pin of a connector, a terminal of an inline part, or the bare name of a splice or one-pin connector. */
export const endText = (description: string, example = 'P1.2') =>
  z
    .string({ error: () => `expected where the conductor lands, such as "${example}"` })
    .min(1)
    .max(130)
    .meta({ description, examples: [example] })

/** A size from the trade series, "1.5 mm²" or "18 AWG"; both spellings of mm² are read. */
export const sizeText = (description: string) =>
  z
    .string({
      error: (i) =>
        typeof i.input === 'number'
          ? `${i.input} has no unit; write "${i.input} mm²" or "${i.input} AWG"`
          : 'expected a size such as "1.5 mm²" or "18 AWG"',
    })
    .transform((text, ctx): WireGauge => {
      const read = parseWireSize(text)
      if (read.ok) return read.value
      ctx.addIssue({ code: 'custom', message: read.problem })
      return z.NEVER
    })
    .meta({
      description: `${description} "1.5 mm²" or "18 AWG".`,
      examples: ['1.5 mm²', '18 AWG'],
      pattern: SIZE_PATTERN,
    }) as unknown as z.ZodType<WireGauge, WireSize>

/** Protection by enclosure, IEC 60529: "IP67"; an X where a digit is not stated. */
export const ipText = (description: string) =>
  z
    .string({ error: () => 'expected a degree of protection such as "IP67" (IEC 60529)' })
    .regex(/^IP[0-6X][0-9X]K?$/, 'expected a degree of protection such as "IP67" or "IPX4" (IEC 60529)')
    .meta({ description: `${description} IEC 60529 code: "IP67", or "IPX4".`, examples: ['IP67', 'IPX4'] })

/** A colour by IEC 60757 code: "RD", or two codes joined for a tracer, "WHBU". */
export const colourText = (description: string) =>
  z
    .string({ error: () => 'expected a colour code such as "RD" or "WHBU" (IEC 60757)' })
    .transform((text, ctx): Colour => {
      const read = parseColour(text)
      if (read.ok) return text as Colour
      ctx.addIssue({ code: 'custom', message: read.problem })
      return z.NEVER
    })
    .meta({
      description: `${description} IEC 60757 code: "RD", or "WHBU" for white with a blue tracer.`,
      examples: ['RD', 'WHBU'],
      pattern: COLOUR_PATTERN,
    }) as unknown as z.ZodType<Colour, Colour>
