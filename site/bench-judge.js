/**
 * Reads what a meter or a pull gauge shows and holds it against the bounds of a step. The same sums judge a record again when
 * it is read back.
 */
;(() => {
  /** Below this many ohms a two-wire hand meter tells closed from not closed, and no more. */
  const HAND_METER_OHMS = 0.5
  const UNITS = {
    ohms: { mΩ: 1e-3, Ω: 1, kΩ: 1e3, MΩ: 1e6 },
    force: { N: 1, kgf: 9.80665, lbf: 4.4482216 },
  }
  /** Spellings people type behind a figure; m and M are told apart. */
  const TYPED = {
    m: 'mΩ',
    mohm: 'mΩ',
    k: 'kΩ',
    kohm: 'kΩ',
    K: 'kΩ',
    M: 'MΩ',
    Mohm: 'MΩ',
    R: 'Ω',
    ohm: 'Ω',
    ohms: 'Ω',
    n: 'N',
    kg: 'kgf',
    lb: 'lbf',
  }
  const OPEN = /^(ol|o\.l\.?|0l|0\.l|inf|∞|open)$/i
  const FIGURE = /^(\d+(?:[.,]\d*)?|[.,]\d+)\s*([A-Za-zµμΩ\u2126]*)$/

  /** Three figures and the prefix that suits. */
  const inOhms = (ohms) => {
    if (!Number.isFinite(ohms)) return 'open'
    if (ohms === 0 || ohms === HAND_METER_OHMS) return `${ohms} Ω`
    const rounded = Number(ohms.toPrecision(3))
    const [unit, factor] =
      rounded >= 1e6 ? ['MΩ', 1e6] : rounded >= 1e3 ? ['kΩ', 1e3] : rounded >= 1 ? ['Ω', 1] : ['mΩ', 1e-3]
    return `${Number((ohms / factor).toPrecision(3))} ${unit}`
  }
  const inUnit = (ask, value) => (ask === 'force' ? `${Number(value.toPrecision(3))} N` : inOhms(value))

  /**
   * A reading as typed, with the unit chosen beside it; a unit typed behind the figure counts before that one.
   * Gives `{ value, typed }` in Ω or N, `{ overRange, typed }`, or `{ problem }`.
   */
  const readFigure = (text, chosen, ask) => {
    const tidy = text.trim().replace('\u2126', 'Ω').replace('\u03bc', 'µ')
    if (tidy === '') return { problem: 'Type what the meter shows.' }
    if (ask === 'ohms' && OPEN.test(tidy)) return { overRange: true, typed: 'OL' }
    const match = FIGURE.exec(tidy)
    if (!match)
      return { problem: `“${tidy}” is not a reading: type a figure such as 0.3, and choose its unit.` }
    const units = UNITS[ask]
    const behind = match[2] ?? ''
    const unit =
      behind === ''
        ? chosen
        : Object.hasOwn(units, behind)
          ? behind
          : Object.hasOwn(TYPED, behind)
            ? TYPED[behind]
            : behind
    if (unit === '')
      return { problem: 'Choose the unit the meter shows: 2 kΩ and 2 MΩ are not the same loom.' }
    if (!Object.hasOwn(units, unit))
      return { problem: `“${unit}” is not one of ${Object.keys(units).join(', ')}.` }
    const figure = Number((match[1] ?? '').replace(',', '.'))
    const value = figure * units[unit]
    if (!Number.isFinite(value) || value > 1e12) return { problem: 'No meter shows that much.' }
    return { value, typed: `${figure} ${unit}` }
  }

  /** The most a step allows on this meter, and whether that is only the meter's word for closed. */
  const mostAllowed = (step, meter) => {
    const closed = step.ask === 'ohms' && step.min === undefined && step.max !== undefined
    return closed && meter.kind === 'hand' && step.max < HAND_METER_OHMS
      ? { most: HAND_METER_OHMS, widened: true }
      : { most: step.max, widened: false }
  }

  /** The bounds in words, before anything is read. */
  const limitWords = (step, meter) => {
    if (step.ask === 'force') return `Good from ${inUnit('force', step.min ?? 0)}.`
    const { most, widened } = mostAllowed(step, meter)
    if (widened)
      return `Hand meter: closed is enough, up to ${inOhms(most)} less the leads. The ${inOhms(step.max)} itself needs a four-wire meter.`
    if (most === undefined) return `Good above ${inOhms(step.min ?? 0)}, or OL.`
    return step.min === undefined
      ? `Good up to ${inOhms(most)}, leads taken off.`
      : `Good from ${inOhms(step.min)} to ${inOhms(most)}, leads taken off.`
  }

  /** The verdict on a reading and the sum behind it. */
  const judge = (step, figure, meter) => {
    const leads = step.ask === 'ohms' ? meter.leadOhms : 0
    const value = figure.overRange ? Number.POSITIVE_INFINITY : Math.max(0, figure.value - leads)
    const { most, widened } = mostAllowed(step, meter)
    const pass = value >= (step.min ?? 0) && (most === undefined || value <= most)
    const shown = figure.overRange
      ? 'open'
      : leads > 0
        ? `${figure.typed} less ${inOhms(leads)} of leads is ${inOhms(value)}`
        : figure.typed
    const bound =
      !figure.overRange && value < (step.min ?? 0)
        ? `less than ${inUnit(step.ask, step.min)}`
        : most !== undefined && value > most
          ? `more than ${inUnit(step.ask, most)}`
          : ''
    const note =
      pass && widened ? `: closed; the ${inOhms(step.max)} is below what a hand meter can judge` : ''
    return { verdict: pass ? 'pass' : 'fail', value, words: `${shown}${bound === '' ? note : `: ${bound}`}` }
  }

  window.loomBench = { ...window.loomBench, UNITS, inUnit, readFigure, limitWords, judge }
})()
