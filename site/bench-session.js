/** What was done to one loom, kept on the device after each step, and the record made from it. Throws nothing: storage may be barred. */
;(() => {
  const FAMILY = 'loomwright-bench'
  const nameOf = (...parts) => [FAMILY, ...parts].map(encodeURIComponent).join('/')

  /** The place of a session. A changed description has another match code, so it starts another session. */
  const keyOf = ({ shop, harness, match, steps }) => nameOf(shop, harness, match, steps)

  const read = (key) => {
    try {
      const found = JSON.parse(localStorage.getItem(key) ?? 'null')
      return found && found.form === 1 && typeof found.results === 'object' && found.facts ? found : undefined
    } catch {
      return undefined
    }
  }

  const fresh = (facts, count, before) => ({
    form: 1,
    facts,
    count,
    serial: '',
    madeBy: before?.madeBy ?? '',
    testedBy: '',
    meter: { kind: before?.meter?.kind ?? 'hand', serial: before?.meter?.serial ?? '', leadOhms: 0 },
    keys: before?.keys ?? true,
    begun: false,
    testing: false,
    side: 'wire-entry',
    proofSide: 'mating',
    place: '',
    started: new Date().toISOString(),
    notes: {},
    results: {},
  })

  /** Returns whether it was kept. */
  const save = (session) => {
    try {
      localStorage.setItem(keyOf(session.facts), JSON.stringify(session))
      return true
    } catch {
      return false
    }
  }

  const drop = (session) => {
    try {
      localStorage.removeItem(keyOf(session.facts))
    } catch {
      // Nothing was kept, so nothing has to go.
    }
  }

  /** Sessions of the same harness that were made from another description, the newest first. */
  const others = (facts) => {
    try {
      const own = keyOf(facts)
      const family = `${nameOf(facts.shop, facts.harness)}/`
      return Object.keys(localStorage)
        .filter((key) => key.startsWith(family) && key !== own)
        .map(read)
        .filter((one) => one && Object.keys(one.results).length > 0)
        .sort((a, b) => (a.started < b.started ? 1 : -1))
    } catch {
      return []
    }
  }

  /** The record of a session. `steps` are those of the page; an old session has only what it kept. */
  const record = (session, steps) => {
    const { facts, results, notes, meter } = session
    const left = (step) => {
      const { id, number, stage, section, what, expect, ask, unit, min, max } = step
      return { id, number, stage, section, what, expect, ask, unit, min, max, verdict: 'not-done' }
    }
    const rows = steps ? steps.map((step) => results[step.id] ?? left(step)) : Object.values(results)
    return {
      asBuilt: 1,
      shop: facts.shop,
      harness: facts.harness,
      title: facts.title,
      document: facts.document,
      revision: facts.revision,
      match: facts.match,
      serial: session.serial,
      madeBy: session.madeBy,
      testedBy: session.testedBy,
      meter,
      started: session.started,
      finished: new Date().toISOString(),
      stepCount: session.count,
      steps: [...rows]
        .sort((a, b) => a.number - b.number)
        .map((row) => ({ ...row, note: notes[row.id] || undefined })),
    }
  }

  /** A spreadsheet takes a cell that starts so for a formula; a plain signed number is none. */
  const guarded = (text) =>
    /^[\s\u0000]*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r\n]/.test(text) && !/^[+-]?\d+(\.\d+)?$/.test(text)
      ? `'${text}`
      : text
  const field = (value) => {
    const text = guarded(value === undefined ? '' : String(value))
    return /[",\r\n;\t]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
  }

  /** The record as RFC 4180, one line a step; who, what and which issue stand on every line. */
  const csv = (made) => {
    const heads = [
      'Step',
      'Stage',
      'Section',
      'What',
      'Expect',
      'Least',
      'Most',
      'Reading',
      'Unit',
      'As typed',
      'Verdict',
      'By',
      'At',
      'Measured before',
      'Note',
      'Harness',
      'Revision',
      'Match code',
      'Serial',
    ]
    const lines = made.steps.map((step) => [
      step.number,
      step.stage,
      step.section,
      step.what,
      step.expect,
      step.min,
      step.max,
      step.overRange ? 'OL' : step.reading,
      step.unit,
      step.typed,
      step.verdict,
      step.by,
      step.at,
      step.earlier?.map(({ typed, verdict }) => [typed, verdict].filter(Boolean).join(' ')).join('; '),
      step.note,
      made.harness,
      made.revision,
      made.match,
      made.serial,
    ])
    return [heads, ...lines].map((line) => `${line.map(field).join(',')}\r\n`).join('')
  }

  window.loomBench = { ...window.loomBench, session: { keyOf, read, fresh, save, drop, others, record, csv } }
})()
