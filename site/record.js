/**
 * The commissioning record: judges what is typed by the limits the page carries, keeps it in this browser, and saves it as a file
 * that the build reads. Runs from disk. Everything typed is shown as text; nothing is read as markup.
 */
;(() => {
  /** @typedef {{ factor: number, offset?: number, curve?: 'level' | 'return-loss' }} Unit */
  /**
   * @typedef {{ kind: 'figure' | 'look', least?: number, most?: number, floor: number, ceiling: number, open?: boolean,
   *   powers?: Record<string, Unit>, units: Record<string, Unit>, words: string, example: string, unit: string, difference?: string }} Limit
   */
  /** @typedef {{ verdict: 'pass' | 'fail' | 'not measured', margin?: number, problem?: string }} Verdict */

  const form = document.getElementById('record')
  const said = document.getElementById('record-said')
  const deviations = document.getElementById('record-deviations')
  const questions = document.getElementById('record-open')
  const text = document.getElementById('record-data')?.dataset.record
  if (!form || !said || !deviations || !(questions instanceof HTMLTextAreaElement) || !text) return
  /** @type {{ version: number, installation: string, revision?: string, match: string, limits: Record<string, Limit> }} */
  const data = JSON.parse(text)

  const READING = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)$/
  const OPEN = /^(?:o\.?l\.?|open|∞|over ?range)$/i
  const YES = /^(?:yes|y|pass|ok)$/i
  const NO = /^(?:no|n|fail)$/i
  const SLACK = 1e-9
  const LONGEST = 64

  /** @param {string} written */
  const tidy = (written) =>
    written
      .replaceAll('\u2126', 'Ω')
      .replaceAll('\u03bc', 'µ')
      .replaceAll('\u2212', '-')
      .replace(/\s+/g, ' ')
      .trim()

  /** @param {number} number @param {Unit} unit */
  const inBase = (number, { factor, offset = 0, curve }) => {
    if (curve === 'level') return number > 0 ? factor * 20 * Math.log10(number) + offset : Number.NaN
    if (curve === 'return-loss') {
      const back = 10 ** (-number / 20)
      return number > 0 ? (1 + back) / (1 - back) : Number.NaN
    }
    return number * factor + offset
  }

  /** Milli and mega differ only by the case of their first letter. @param {string} written @param {Record<string, Unit>} units */
  const unitNamed = (written, units) => {
    const names = Object.keys(units)
    const near = names.find(
      (unit) =>
        unit.toLowerCase() === written.toLowerCase() && (!/^m/i.test(written) || written[0] === unit[0]),
    )
    return names.find((unit) => unit === written) ?? near
  }

  /** Forward and reflected power, `38 W / 0.4 W`, as a standing wave ratio; NaN when it is neither. @param {string} written @param {Record<string, Unit>} powers */
  const powersRead = (written, powers) => {
    const [forward, reflected, ...more] = written.split('/').map((part) => READING.exec(part.trim()))
    if (!forward || !reflected || more.length > 0) return Number.NaN
    const back = reflected[2] ?? ''
    const [one, two] = [forward[2] === '' ? back : (forward[2] ?? ''), back].map((name) => {
      const unit = unitNamed(name, powers)
      return unit === undefined ? Number.NaN : (powers[unit]?.factor ?? Number.NaN)
    })
    const [to, from] = [Number(forward[1]) * (one ?? Number.NaN), Number(reflected[1]) * (two ?? Number.NaN)]
    const gamma = to > 0 && from >= 0 ? Math.sqrt(from / to) : Number.NaN
    return gamma < 1 ? (1 + gamma) / (1 - gamma) : Number.NaN
  }

  /** @param {string} typed @param {Limit} limit @returns {Verdict} */
  const judge = (typed, limit) => {
    const written = tidy(typed)
    if (written === '') return { verdict: 'not measured' }
    if (limit.kind === 'look') {
      if (YES.test(written)) return { verdict: 'pass' }
      if (NO.test(written)) return { verdict: 'fail' }
      return { verdict: 'not measured', problem: 'Write “yes” or “no”.' }
    }
    let value = Number.NaN
    if (limit.open && OPEN.test(written)) value = Number.POSITIVE_INFINITY
    else if (limit.powers && written.includes('/') && typed.length <= LONGEST) {
      value = powersRead(written, limit.powers)
      if (!(value <= limit.ceiling))
        return {
          verdict: 'not measured',
          problem: 'Write forward and reflected power, such as 38 W / 0.4 W.',
        }
    } else {
      const match = typed.length > LONGEST ? null : READING.exec(written)
      const name = match ? unitNamed(match[2] ?? '', limit.units) : undefined
      const unit = name === undefined ? undefined : limit.units[name]
      const like = `Write ${limit.words} with its unit, such as ${limit.example}.`
      if (!match || !unit) return { verdict: 'not measured', problem: like }
      value = inBase(Number(match[1]), unit)
      if (!(value >= limit.floor && value <= limit.ceiling))
        return { verdict: 'not measured', problem: `No meter can show that here. ${like}` }
    }
    const least = limit.least ?? Number.NEGATIVE_INFINITY
    const most = limit.most ?? Number.POSITIVE_INFINITY
    const margin = Math.min(value - least, most - value)
    const inside = value >= least - SLACK * Math.abs(least) && value <= most + SLACK * Math.abs(most)
    const good = inside || (value === most && most === Number.POSITIVE_INFINITY)
    return { verdict: good ? 'pass' : 'fail', ...(Number.isFinite(margin) ? { margin } : {}) }
  }

  /** Two significant figures without an exponent. @param {number} value */
  const short = (value) => {
    if (value === 0) return '0'
    const digits = Number(value.toPrecision(2))
    const decimals = Math.min(20, Math.max(0, 1 - Math.floor(Math.log10(Math.abs(digits)))))
    const fixed = digits.toFixed(decimals)
    return fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed
  }

  /** @param {Verdict} verdict @param {Limit} limit */
  const marginText = ({ verdict, margin }, limit) => {
    if (margin === undefined || (limit.least === limit.most && verdict === 'pass')) return ''
    const unit = limit.difference ?? limit.unit
    const factor = limit.difference === undefined ? (limit.units[limit.unit]?.factor ?? 1) : 1
    const size = short(Math.abs(margin) / factor)
    return `, ${unit.startsWith(':') ? size : `${size} ${unit}`} ${verdict === 'fail' ? 'outside' : 'inside'}`
  }

  /** @param {ParentNode} within @param {string} part */
  const field = (within, part) => {
    const found = within.querySelector(`[data-part="${part}"]`)
    return found instanceof HTMLInputElement || found instanceof HTMLSelectElement ? found : undefined
  }
  /** @param {ParentNode} within @param {string} part */
  const textOf = (within, part) => field(within, part)?.value.trim() ?? ''
  /** @param {string} selector @returns {HTMLElement[]} */
  const all = (selector) => [...form.querySelectorAll(selector)].filter((one) => one instanceof HTMLElement)
  /** @returns {HTMLInputElement[]} */
  const heads = () =>
    [...form.querySelectorAll('[data-field]')].filter((one) => one instanceof HTMLInputElement)
  /** Leaves out what is empty. @param {Record<string, string>} entries */
  const filled = (entries) => Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== ''))

  /** @param {HTMLElement} line */
  const show = (line) => {
    const limit = data.limits[line.dataset.limit ?? '']
    const out = line.querySelector('[data-part="verdict"]')
    if (!limit || !out) return 'not measured'
    const result = judge(textOf(line, 'reading'), limit)
    line.classList.toggle('is-pass', result.verdict === 'pass')
    line.classList.toggle('is-fail', result.verdict === 'fail')
    line.classList.toggle('is-unread', result.problem !== undefined)
    const words = { pass: '✓ Pass', fail: '■ Fails', 'not measured': '' }
    const message = result.problem
      ? `○ ${result.problem}`
      : `${words[result.verdict]}${marginText(result, limit)}`
    if (out.textContent !== message) out.textContent = message
    return result.verdict
  }

  let notice = ''
  const count = () => {
    const verdicts = all('[data-limit]').map(show)
    /** @param {string} wanted */
    const of = (wanted) => verdicts.filter((one) => one === wanted).length
    const message = `✓ ${of('pass')} pass, ■ ${of('fail')} outside, ○ ${of('not measured')} not measured. ${notice}`
    if (said.textContent !== message) said.textContent = message
  }

  /** What has been filled in, in the form that the build reads. */
  const record = () => {
    const fields = Object.fromEntries(heads().map((one) => [one.dataset.field ?? '', one.value.trim()]))
    const { asset = '', date = '', ...others } = fields
    const looms = all('[data-loom]').map((one) => ({
      loom: one.dataset.loom ?? '',
      ...filled({
        revision: textOf(one, 'revision'),
        match: textOf(one, 'match'),
        serial: textOf(one, 'serial'),
      }),
    }))
    const equipment = all('[data-unit]')
      .map((one) => ({
        unit: one.dataset.unit ?? '',
        ...filled({
          serial: textOf(one, 'serial'),
          firmware: textOf(one, 'firmware'),
          settings: textOf(one, 'settings'),
        }),
      }))
      .filter((one) => Object.keys(one).length > 1)
    const values = all('[data-limit]')
      .map((one) => ({
        limit: one.dataset.limit ?? '',
        reading: textOf(one, 'reading'),
        ...filled({ note: textOf(one, 'note') }),
      }))
      .filter(({ reading }) => reading !== '')
    const differ = all('[data-deviation]')
      .map((one) =>
        filled({
          at: textOf(one, 'at'),
          what: textOf(one, 'what'),
          why: textOf(one, 'why'),
          by: textOf(one, 'by'),
        }),
      )
      .filter((one) => Object.keys(one).length > 0)
      .map((one) => ({ what: '(not said)', ...one }))
    const open = questions.value
      .split('\n')
      .map((line) => line.trim().slice(0, 400))
      .filter((line) => line !== '')
    return {
      readings: data.version,
      installation: data.installation,
      asset,
      date,
      ...filled(others),
      ...(data.revision === undefined ? {} : { revision: data.revision }),
      match: data.match,
      looms,
      ...(equipment.length > 0 ? { equipment } : {}),
      values,
      ...(differ.length > 0 ? { deviations: differ } : {}),
      ...(open.length > 0 ? { open } : {}),
    }
  }

  /** @param {unknown} value @returns {any[]} */
  const list = (value) =>
    Array.isArray(value) ? value.filter((one) => typeof one === 'object' && one !== null) : []
  /** @param {ParentNode} within @param {string} part @param {unknown} value */
  const put = (within, part, value) => {
    const to = field(within, part)
    if (to) to.value = typeof value === 'string' ? value : ''
  }
  const first = all('[data-deviation]')[0]
  const addDeviation = () => {
    if (!first) return undefined
    const more = first.cloneNode(true)
    if (!(more instanceof HTMLElement)) return undefined
    for (const input of more.querySelectorAll('input')) input.value = ''
    deviations.append(more)
    return more
  }

  /** Fills the page in from a record; what the record does not tell of is emptied. @param {any} from */
  const fill = (from) => {
    for (const one of heads()) {
      const value = from[one.dataset.field ?? '']
      one.value = typeof value === 'string' ? value : ''
    }
    const looms = new Map(list(from.looms).map((one) => [one.loom, one]))
    for (const one of all('[data-loom]')) {
      const told = looms.get(one.dataset.loom)
      if (!told) put(one, 'serial', '')
      else for (const part of ['serial', 'revision', 'match']) put(one, part, told[part])
    }
    const units = new Map(list(from.equipment).map((one) => [one.unit, one]))
    for (const one of all('[data-unit]'))
      for (const part of ['serial', 'firmware', 'settings'])
        put(one, part, units.get(one.dataset.unit)?.[part])
    const values = new Map(list(from.values).map((one) => [one.limit, one]))
    for (const one of all('[data-limit]'))
      for (const part of ['reading', 'note']) put(one, part, values.get(one.dataset.limit)?.[part])
    for (const extra of all('[data-deviation]').slice(1)) extra.remove()
    for (const [index, one] of [...list(from.deviations), {}].entries()) {
      const into = index === 0 ? first : Object.keys(one).length > 0 ? addDeviation() : undefined
      if (into && (index === 0 || Object.keys(one).length > 0))
        for (const part of ['what', 'at', 'why', 'by']) put(into, part, one[part])
    }
    questions.value = Array.isArray(from.open)
      ? from.open.filter((/** @type {unknown} */ one) => typeof one === 'string').join('\n')
      : ''
  }

  const KEY = `record ${data.installation}`
  const keep = () => {
    try {
      localStorage.setItem(KEY, JSON.stringify(record()))
    } catch {
      notice = 'This browser does not keep what you type: save the file before you leave.'
    }
  }
  const today = () => {
    const now = new Date()
    const two = (/** @type {number} */ number) => String(number).padStart(2, '0')
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
  }
  const fresh = () => {
    const date = heads().find((one) => one.dataset.field === 'date')
    if (date && date.value === '') date.value = today()
  }
  /** @param {any} from */
  const issueNotice = (from) =>
    typeof from.match === 'string' && from.match !== data.match
      ? `Begun with papers of match code ${from.match}; these are ${data.match}.`
      : ''
  const recall = () => {
    try {
      const kept = localStorage.getItem(KEY)
      if (kept === null) return
      const from = JSON.parse(kept)
      fill(from)
      notice = issueNotice(from)
    } catch {
      notice = ''
    }
  }

  const save = () => {
    const missing = heads().find((one) => one.required && one.value.trim() === '')
    if (missing) {
      notice = 'Write the asset and the date first.'
      count()
      missing.focus()
      return
    }
    const made = record()
    const name = `${made.installation} ${made.asset} ${made.date}`
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
    const link = document.createElement('a')
    link.href = URL.createObjectURL(
      new Blob([`${JSON.stringify(made, undefined, 2)}\n`], { type: 'application/json' }),
    )
    link.download = `${name}.readings.json`
    link.click()
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000)
    notice = `Saved as ${link.download}: put it into the shop’s folder.`
    count()
  }

  /** @param {File} file */
  const take = async (file) => {
    try {
      const from = JSON.parse(await file.text())
      if (typeof from !== 'object' || from === null || from.readings !== data.version)
        notice = 'That file holds no readings.'
      else if (from.installation !== data.installation)
        notice = `That file is of another installation: ${String(from.installation).slice(0, 64)}.`
      else {
        fill(from)
        notice = issueNotice(from)
        keep()
      }
    } catch {
      notice = 'That file could not be read.'
    }
    count()
  }

  const clear = () => {
    if (!window.confirm('Empty every field? What was not saved is gone.')) return
    for (const input of form.querySelectorAll('input, textarea'))
      if (input instanceof HTMLInputElement || input instanceof HTMLTextAreaElement)
        input.value = input.defaultValue
    for (const one of all('[data-limit]')) put(one, 'reading', '')
    for (const extra of all('[data-deviation]').slice(1)) extra.remove()
    notice = ''
    fresh()
    keep()
    count()
  }

  for (const button of all('[data-save]')) button.addEventListener('click', save)
  document.getElementById('record-clear')?.addEventListener('click', clear)
  document
    .getElementById('record-more')
    ?.addEventListener('click', () => addDeviation()?.querySelector('input')?.focus())
  document.getElementById('record-file')?.addEventListener('change', (event) => {
    const { files } = /** @type {HTMLInputElement} */ (event.target)
    if (files?.[0]) void take(files[0])
  })
  form.addEventListener('input', (event) => {
    if (event.target instanceof HTMLInputElement && event.target.type === 'file') return
    keep()
    count()
  })
  recall()
  fresh()
  count()
  /** For tests that hold this judge against the build's. */
  Object.assign(window, {
    judgeReading: (/** @type {string} */ id, /** @type {string} */ typed) =>
      judge(typed, data.limits[id] ?? { kind: 'look' }),
  })
})()
