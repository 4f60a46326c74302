import {
  formatAmps,
  formatDbu,
  formatOhms,
  formatRange,
  formatVolts,
  formatWatts,
} from '../base/format-quantity.ts'
import type { FunctionOf, PinFunction, PinKind } from '../describe/function.ts'

/** What a pin does, in the columns of a pinout table. Empty text where the description says nothing. */
export interface FunctionWords {
  readonly signal: string
  readonly direction: string
  readonly type: string
  readonly volts: string
  readonly amps: string
  readonly level: string
}

type Words = Partial<Omit<FunctionWords, 'signal' | 'type'>> & { readonly type: string }

const joined = (...parts: (string | false | undefined)[]): string =>
  parts.filter((part) => part !== undefined && part !== false && part !== '').join(', ')

/** A leg named in both spellings of the trade. */
const LEG = { hot: 'hot (+)', cold: 'cold (−)', single: 'single-ended' } as const

const WORDS: { readonly [K in PinKind]: (does: FunctionOf<K>) => Words } = {
  unstated: () => ({ type: 'not stated' }),
  'supply-out': (does) => ({
    type: joined(does.battery ? 'battery terminal' : 'supply', does.feed),
    direction: 'out',
    volts: does.volts && formatRange(does.volts, formatVolts),
    amps: does.maxAmps === undefined ? '' : `up to ${formatAmps(does.maxAmps)}`,
  }),
  'supply-in': (does) => ({
    type: joined('supply', does.motor && 'motor'),
    direction: 'in',
    volts: does.volts && formatRange(does.volts, formatVolts),
    amps: joined(
      loadText(does.amps, formatAmps),
      loadText(does.watts, formatWatts),
      does.inrush === undefined ? '' : `inrush ${formatAmps(does.inrush)}`,
    ),
  }),
  return: (does) => ({ type: joined('return', does.isolated && 'isolated'), direction: 'back' }),
  chassis: () => ({ type: 'chassis', direction: 'back' }),
  'signal-return': (does) => ({
    type: joined('signal return', does.isolated && 'isolated'),
    direction: 'back',
  }),
  shield: () => ({ type: 'shield', direction: 'screen' }),
  'audio-out': (does) => ({
    type: joined(
      `audio ${does.level}`,
      does.leg && LEG[does.leg],
      does.bridged && 'bridge-tied: never to ground',
    ),
    direction: 'out',
    volts: does.bias === undefined ? '' : `${formatVolts(does.bias)} bias`,
    level: joined(
      does.dbu === undefined ? '' : formatDbu(does.dbu),
      does.watts === undefined ? '' : formatWatts(does.watts),
      does.minLoad === undefined ? '' : `load ${formatOhms(does.minLoad)} or more`,
      does.ohms === undefined ? '' : `source ${formatOhms(does.ohms)}`,
    ),
  }),
  'audio-in': (does) => ({
    type: joined(`audio ${does.level}`, does.leg && LEG[does.leg], does.element),
    direction: 'in',
    volts: does.bias === undefined ? '' : `${formatVolts(does.bias)} bias`,
    level: joined(
      does.dbu === undefined ? '' : formatDbu(does.dbu),
      does.watts === undefined ? '' : formatWatts(does.watts),
      does.ohms === undefined ? '' : formatOhms(does.ohms),
    ),
  }),
  'switch-out': (does) => ({
    type: joined(does.form.replace('-', ' '), does.purpose),
    direction: 'out',
    volts: does.maxVolts === undefined ? '' : `up to ${formatVolts(does.maxVolts)}`,
    amps: does.maxAmps === undefined ? '' : `up to ${formatAmps(does.maxAmps)}`,
    level: does.active === undefined ? '' : `active ${does.active}`,
  }),
  'switch-in': (does) => ({
    type: joined('switch input', does.purpose, does.wants?.replace('-', ' ')),
    direction: 'in',
    volts: does.rail === undefined ? '' : formatVolts(does.rail),
    level: joined(
      does.active === undefined ? '' : `active ${does.active}`,
      does.pull === undefined ? '' : `pull ${does.pull}`,
      does.pullOhms === undefined ? '' : formatOhms(does.pullOhms),
    ),
  }),
  sense: (does) => ({
    type: joined('sense', does.wants && `${does.wants} feed`),
    direction: 'in',
    amps: does.amps === undefined ? '' : formatAmps(does.amps),
  }),
  contact: (does) => ({
    type: joined('volt-free contact', does.rest && `${does.rest} at rest`),
    direction: 'both',
    amps: does.maxAmps === undefined ? '' : `up to ${formatAmps(does.maxAmps)}`,
  }),
  coil: (does) => ({
    type: joined('coil', does.side),
    direction: 'in',
    level: joined(
      does.ohms === undefined ? '' : formatOhms(does.ohms),
      does.suppressed === undefined ? '' : `suppressor: ${does.suppressed}`,
    ),
  }),
  data: (does) => ({
    type: joined(`data ${does.standard}`, does.line),
    direction: does.direction ?? 'both',
    level: joined(
      does.idle === undefined ? '' : `idle ${does.idle}`,
      does.terminates === undefined ? '' : `terminated ${formatOhms(does.terminates)} inside`,
    ),
  }),
  rf: (does) => ({
    type: 'radio frequency',
    direction: 'both',
    level: joined(
      does.ohms === undefined ? '' : formatOhms(does.ohms),
      does.watts === undefined ? '' : formatWatts(does.watts),
    ),
  }),
  reserved: () => ({ type: 'reserved: do not connect' }),
  spare: () => ({ type: 'spare' }),
}

function loadText(
  load: number | Readonly<Record<string, number>> | undefined,
  format: (value: number) => string,
): string {
  if (load === undefined) return ''
  if (typeof load === 'number') return format(load)
  return Object.entries(load)
    .map(([state, value]) => `${state} ${format(value)}`)
    .join(', ')
}

/** The columns for one function. */
export function functionWords(does: PinFunction): FunctionWords {
  // The table is keyed by the same kind that discriminates the union, which the types cannot follow.
  const words = (WORDS[does.kind] as (does: PinFunction) => Words)(does)
  return { direction: '', volts: '', amps: '', level: '', ...words, signal: does.name ?? '' }
}

/** One line for a pin on a drawing or in a guide: its name, else its type. */
export const functionTitle = (does: PinFunction): string => does.name ?? functionWords(does).type
