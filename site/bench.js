/** Walks through the steps of a harness one at a time, and keeps what was done on the device. Runs from disk, without a network. */
;(() => {
  const {
    UNITS,
    readFigure,
    limitWords,
    judge,
    showFaces,
    readSteps,
    factRow,
    session: keep,
  } = window.loomBench ?? {}
  const $ = (id) => document.getElementById(`bench-${id}`)
  const root = document.getElementById('bench')
  const list = $('list')
  const store = $('store')
  if (!keep || !root || !list || !store) return

  const steps = readSteps(list)
  if (steps.length === 0) return

  const facts = JSON.parse(root.dataset.facts)
  const key = keep.keyOf(facts)
  const [before] = keep.others(facts)
  let session = keep.read(key) ?? keep.fresh(facts, steps.length, before)
  /** Where we are: the index of a step, or the end. */
  let at = Math.max(
    0,
    steps.findIndex(({ id }) => id === session.place),
  )
  if (session.place === 'end') at = steps.length
  /** Unit chosen for the reading in hand. */
  let unit = 'Ω'
  /** The first pass goes straight on, a fail stays to be read. */
  let judged = false

  const save = () => {
    if (!keep.save(session)) $('unkept').hidden = false
  }
  const say = (text) => {
    $('said').textContent = text
  }
  const show = (id, on) => {
    $(id).hidden = !on
  }
  const listOpen = () => $('all').getAttribute('aria-expanded') === 'true'
  const resultOf = (step) => session.results[step.id]
  const countOf = (verdict) => steps.filter((step) => resultOf(step)?.verdict === verdict).length
  const doneCount = () => steps.filter((step) => resultOf(step)).length

  /* The view: people first, then steps; people and meter again before the first measurement; the record at the end. */
  let asking = ''
  const viewNow = () => {
    if (asking !== '') return asking
    if (!session.begun) return 'start'
    if (at >= steps.length) return 'end'
    return steps[at].proof && !session.testing ? 'test' : 'step'
  }

  const TITLES = { start: 'Begin', test: 'Now prove it: ring-out', end: 'The record' }
  const render = (focus = true) => {
    const view = viewNow()
    for (const one of ['start', 'test', 'step', 'end']) show(one, one === view)
    show('nav', !listOpen() && (view === 'step' || view === 'end'))
    show('finish', session.begun && view !== 'end')
    document.body.classList.toggle('benching', view === 'step')
    const step = view === 'step' ? steps[at] : undefined
    $('title').textContent = step ? step.what : TITLES[view]
    $('bar').value = doneCount()
    $('place').textContent = step
      ? `Step ${step.number} of ${steps.length}`
      : `${doneCount()} of ${steps.length} steps have a result`
    $('section').textContent = step ? step.section : ''
    if (view === 'start') fillStart()
    if (view === 'test') fillTest()
    if (view === 'end') fillEnd()
    if (step) fillStep(step)
    fillNav(view, step)
    if (focus) $('title').focus()
  }

  const fillStart = () => {
    $('serial').value = session.serial
    $('maker').value = session.madeBy
    $('keys').checked = session.keys
  }

  const fillTest = () => {
    $('tester').value = session.testedBy
    $('meter-serial').value = session.meter.serial
    $('meter').value = session.meter.kind
    $('leads').value = String(session.meter.leadOhms)
    meterWords()
    samePerson()
  }
  const meterWords = () => {
    $('meter-words').textContent =
      $('meter').value === 'hand'
        ? 'Below 0.5 Ω a hand meter tells closed from not closed, and no more: a limit below that is judged as closed. Zero the leads, or enter what they read.'
        : 'Reads milliohms: every limit is judged as worked out. Its leads do not count.'
  }
  const folded = (text) => text.trim().toLowerCase()
  const samePerson = () =>
    show('same', folded($('tester').value) !== '' && folded($('tester').value) === folded(session.madeBy))

  /** Contacts go in from the wires' side, probes touch the other one; each is remembered. */
  const sideOf = (step) => (step.proof ? 'proofSide' : 'side')

  const drawFaces = (step) => {
    // A picture has to be on the page before its marks can be placed.
    show('pictures', true)
    $('faces').classList.toggle('bench-both', step.proof)
    const { turns, shown } = showFaces($('faces'), store, step, session[sideOf(step)])
    show('pictures', shown > 0)
    show('turn', turns)
  }

  const fillStep = (step) => {
    judged = false
    const facts = step.facts
    $('facts').replaceChildren(...facts.filter(({ big }) => big).map(factRow))
    $('more').replaceChildren(...facts.filter(({ big }) => !big).map(factRow))
    $('note').value = session.notes[step.id] ?? ''
    show('read', step.unit !== undefined)
    show('limit', step.unit !== undefined)
    $('how').textContent = step.item.closest('section').querySelector('p.quiet')?.textContent ?? ''
    if (step.unit) fillReading(step)
    showVerdict(resultOf(step))
    drawFaces(step)
    show('help', session.keys)
    show('undo', resultOf(step) !== undefined && !step.unit)
  }

  const fillReading = (step) => {
    const known = resultOf(step)
    $('reading').value = ''
    $('read-label').textContent = known
      ? 'Measured again'
      : step.ask === 'force'
        ? 'Pull gauge shows'
        : 'Meter shows'
    $('reading').placeholder = step.ask === 'force' ? 'gauge' : 'meter'
    const several = step.stage === 'open' && step.b.flatMap(([, pins]) => pins).length > 1
    $('limit').textContent =
      `${limitWords(step, session.meter)}${several ? ' Touch each in turn and enter the lowest.' : ''}`
    // Between kΩ and MΩ lies the difference between a short and a good loom, so nobody chooses for the person there.
    if (step.stage === 'open') unit = ''
    else if (!Object.hasOwn(UNITS[step.ask], unit)) unit = step.unit
    $('unit').replaceChildren(
      ...(step.stage === 'open' ? [new Option('unit?', '')] : []),
      ...Object.keys(UNITS[step.ask]).map((name) => new Option(name, name)),
    )
    $('unit').value = unit
  }

  const MARKS = { done: '✓ Done', pass: '✓ PASS', fail: '✗ FAIL', skipped: '– Skipped' }
  const showVerdict = (result, words) => {
    const box = $('verdict')
    box.hidden = !result
    if (!result) return
    box.className = `bench-verdict bench-${result.verdict}`
    const shown = result.overRange ? 'OL' : (result.typed ?? '')
    const repaired = result.earlier?.length ? `, measured ${result.earlier.length + 1} times` : ''
    box.textContent = `${MARKS[result.verdict]}${words ? `: ${words}` : shown ? `: ${shown}` : ''}${repaired}${result.verdict === 'fail' ? '. Mend it and measure again; the record keeps both.' : ''}`
  }

  const fillNav = (view, step) => {
    show('back', at > 0)
    show('next', view === 'step')
    show('done', view === 'step')
    show('bad', view === 'step' && step.ask === 'look')
    show('open', view === 'step' && step.ask === 'ohms')
    if (view !== 'step') {
      show('read', false)
      show('verdict', false)
    }
    $('done').textContent = !step ? '' : step.unit ? 'Judge' : step.ask === 'look' ? 'Pass' : 'Done'
  }

  const put = (step, more) => {
    const { id, number, stage, section, what, expect, ask, min, max } = step
    const old = session.results[id]
    // What failed and was mended stays in the record; what was only ticked twice does not.
    const measured = old && old.ask !== 'done' && (old.verdict === 'pass' || old.verdict === 'fail')
    const earlier = [
      ...(old?.earlier ?? []),
      ...(measured
        ? [
            {
              reading: old.reading,
              overRange: old.overRange,
              typed: old.typed,
              verdict: old.verdict,
              at: old.at,
            },
          ]
        : []),
    ]
    session.results[id] = {
      ...{ id, number, stage, section, what, expect, ask, unit: step.unit, min, max },
      ...more,
      by: (step.proof ? session.testedBy : session.madeBy) || undefined,
      at: new Date().toISOString(),
      ...(earlier.length > 0 ? { earlier: earlier.slice(-50) } : {}),
    }
    save()
  }

  const go = (index) => {
    at = Math.min(Math.max(index, 0), steps.length)
    session.place = at >= steps.length ? 'end' : steps[at].id
    save()
    render()
    window.scrollTo(0, 0)
    if (viewNow() === 'step')
      say(`Step ${steps[at].number} of ${steps.length}. ${doneCount()} have a result.`)
  }

  const judgeNow = (step, overRange) => {
    const figure = overRange
      ? { overRange: true, typed: 'OL' }
      : readFigure($('reading').value, unit, step.ask)
    if (figure.problem) {
      $('verdict').hidden = false
      $('verdict').className = 'bench-verdict'
      $('verdict').textContent = figure.problem
      say(figure.problem)
      $('reading').focus()
      return
    }
    const { verdict, value, words } = judge(step, figure, session.meter)
    put(step, {
      verdict,
      typed: figure.typed,
      ...(figure.overRange ? { overRange: true } : { reading: value }),
    })
    judged = true
    $('bar').value = doneCount()
    showVerdict(resultOf(step), words)
    say(`${verdict === 'pass' ? 'Pass' : 'Fail'}. ${words}`)
    $('reading').value = ''
    $('reading').blur()
    $('done').textContent = verdict === 'pass' ? 'Next' : 'Judge'
  }

  /** The one big button: done, pass, judge, or go on after a pass. */
  const main = () => {
    const step = steps[at]
    if (viewNow() !== 'step') return
    if (step.unit) {
      if (judged && resultOf(step)?.verdict === 'pass' && $('reading').value === '') go(at + 1)
      else judgeNow(step, false)
      return
    }
    put(step, { verdict: step.ask === 'look' ? 'pass' : 'done' })
    go(at + 1)
  }
  const fail = () => {
    const step = steps[at]
    put(step, { verdict: 'fail' })
    render(false)
    say('Fail. It stays in the record as failed until it is looked at again.')
  }
  const turn = () => {
    const kind = sideOf(steps[at])
    session[kind] = session[kind] === 'mating' ? 'wire-entry' : 'mating'
    save()
    drawFaces(steps[at])
    say(
      session[kind] === 'mating'
        ? 'Turned over: mating face, the end that plugs in.'
        : 'Turned over: wire-entry face, the side your hands see.',
    )
  }
  const meterOpen = () => judgeNow(steps[at], true)

  $('done').addEventListener('click', main)
  $('bad').addEventListener('click', fail)
  $('turn').addEventListener('click', turn)
  $('open').addEventListener('click', meterOpen)
  $('back').addEventListener('click', () => go(at - 1))
  $('next').addEventListener('click', () => go(at + 1))
  $('reading').addEventListener('keydown', (event) => {
    if (event.key === 'Enter') main()
  })
  $('start').addEventListener('submit', (event) => {
    event.preventDefault()
    Object.assign(session, {
      serial: $('serial').value.trim(),
      madeBy: $('maker').value.trim(),
      keys: $('keys').checked,
      begun: true,
    })
    asking = ''
    go(at)
  })
  $('test').addEventListener('submit', (event) => {
    event.preventDefault()
    const kind = $('meter').value
    const leads = Number(
      $('leads')
        .value.trim()
        .replace(',', '.')
        .replace(/\s*(Ω|ohm)s?$/i, ''),
    )
    const wrong = kind === 'hand' && !(leads >= 0 && leads < 10)
    show('leads-wrong', wrong)
    if (wrong) {
      $('leads').focus()
      return
    }
    session.testedBy = $('tester').value.trim()
    session.meter = { kind, serial: $('meter-serial').value.trim(), leadOhms: kind === 'hand' ? leads : 0 }
    session.testing = true
    asking = ''
    go(at)
  })
  $('unit').addEventListener('change', () => {
    unit = $('unit').value
  })
  $('meter').addEventListener('change', meterWords)
  $('tester').addEventListener('input', samePerson)
  $('note').addEventListener('change', () => {
    const { id } = steps[at]
    session.notes[id] = $('note').value.trim()
    save()
  })
  $('extra').addEventListener('submit', (event) => {
    event.preventDefault()
    const step = steps[at]
    const note = $('note').value.trim()
    if (note === '') {
      say('Write why it is skipped.')
      $('verdict').hidden = false
      $('verdict').className = 'bench-verdict'
      $('verdict').textContent = 'Write why it is skipped, then press Skip.'
      $('note').focus()
      return
    }
    session.notes[step.id] = note
    put(step, { verdict: 'skipped' })
    go(at + 1)
  })
  $('undo').addEventListener('click', () => {
    delete session.results[steps[at].id]
    save()
    render()
    say('The mark is off.')
  })
  $('who').addEventListener('click', () => {
    asking = steps[at].proof ? 'test' : 'start'
    render()
  })

  const fillEnd = () => {
    const open = steps.length - doneCount()
    const lines = [
      `${countOf('done') + countOf('pass')} of ${steps.length} steps done or passed.`,
      open > 0 ? `${open} without a result.` : '',
      countOf('fail') > 0 ? `${countOf('fail')} FAILED.` : '',
      countOf('skipped') > 0 ? `${countOf('skipped')} skipped.` : '',
      session.serial === '' ? 'No serial number.' : `Serial number ${session.serial}.`,
      session.madeBy === '' ? 'It is not said who made it.' : `Made by ${session.madeBy}.`,
      session.testedBy === '' ? 'It is not said who tested it.' : `Tested by ${session.testedBy}.`,
      session.testedBy !== '' && folded(session.madeBy) === folded(session.testedBy)
        ? 'Made and tested by the same person.'
        : '',
      session.testing && session.meter.serial === '' ? 'It is not said with which meter.' : '',
    ]
    $('sum').replaceChildren(
      ...lines.filter(Boolean).map((line) => {
        const item = document.createElement('li')
        item.textContent = line
        return item
      }),
    )
    show('again-ask', false)
    show('first', open + countOf('fail') > 0)
  }

  const download = (text, type, name) => {
    const link = document.createElement('a')
    link.href = URL.createObjectURL(new Blob([text], { type }))
    link.download = name
    link.click()
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000)
  }
  const fileOf = (one, ending) => {
    const serial = one.serial.replace(/[^A-Za-z0-9._-]+/g, '-').slice(0, 40)
    return ['as-built', facts.file, one.facts.match, serial].filter(Boolean).join('-') + ending
  }
  const saveJson = (one, own) =>
    download(`${JSON.stringify(keep.record(one, own), null, 2)}\n`, 'application/json', fileOf(one, '.json'))
  $('json').addEventListener('click', () => {
    saveJson(session, steps)
    say('Record handed to the browser as JSON.')
  })
  $('csv').addEventListener('click', () => {
    // A mark of order at the start, so that spreadsheets read Ω and accents as they are.
    download(`\ufeff${keep.csv(keep.record(session, steps))}`, 'text/csv', fileOf(session, '.csv'))
    say('Record handed to the browser as CSV.')
  })
  $('first').addEventListener('click', () => {
    const first = steps.findIndex((step) => !resultOf(step) || resultOf(step).verdict === 'fail')
    go(Math.max(first, 0))
  })
  $('again').addEventListener('click', () => {
    if ($('again-ask').hidden && doneCount() > 0) {
      show('again-ask', true)
      say($('again-ask').textContent)
      return
    }
    session = keep.fresh(facts, steps.length, session)
    at = 0
    save()
    render()
  })

  const showOld = () => {
    const [old] = keep.others(facts)
    show('old', old !== undefined)
    if (!old) return
    const done = Object.keys(old.results).length
    const was = old.facts.revision ? `rev ${old.facts.revision}, ` : ''
    $('old-words').textContent =
      `The description has changed since work began on this device (${was}match ${old.facts.match}; now match ${facts.match}). This is a new session: nothing is carried over. The old one has ${done} of ${old.count} steps.`
    $('old-save').onclick = () => saveJson(old)
    $('old-drop').onclick = () => {
      keep.drop(old)
      showOld()
      $('title').focus()
    }
  }

  const KEYS = {
    Enter: main,
    d: main,
    n: () => go(at + 1),
    ArrowRight: () => go(at + 1),
    b: () => go(at - 1),
    ArrowLeft: () => go(at - 1),
    t: () => !$('turn').hidden && turn(),
    f: () => !$('bad').hidden && fail(),
    o: () => !$('open').hidden && meterOpen(),
  }
  document.addEventListener('keydown', (event) => {
    if (
      !session.keys ||
      event.ctrlKey ||
      event.metaKey ||
      event.altKey ||
      !['step', 'end'].includes(viewNow())
    )
      return
    const target = event.target
    if (target instanceof HTMLElement && target.closest('input, select, textarea, .bench-list, header'))
      return
    const pressed = event.key.length === 1 ? event.key.toLowerCase() : event.key
    // A button or link under the focus answers Enter itself.
    if (pressed === 'Enter' && target instanceof HTMLElement && target.closest('button, a')) return
    if (/^[0-9.,]$/.test(pressed) && steps[at]?.unit) {
      $('reading').focus()
      return
    }
    const act = Object.hasOwn(KEYS, pressed) ? KEYS[pressed] : undefined
    if (!act || (viewNow() === 'end' && !['b', 'ArrowLeft'].includes(pressed))) return
    event.preventDefault()
    act()
  })

  /** Results and buttons on the list, made when it is asked for. */
  const fillList = () => {
    for (const [index, step] of steps.entries()) {
      let line = step.item.querySelector('.bench-result')
      if (!line) {
        line = document.createElement('p')
        line.className = 'bench-result'
        const jump = document.createElement('button')
        jump.type = 'button'
        jump.textContent = `Go to step ${step.number}`
        jump.addEventListener('click', () => {
          openList(false)
          session.begun = true
          go(index)
        })
        step.item.append(line, jump)
      }
      const result = resultOf(step)
      line.textContent = result ? `${MARKS[result.verdict]}${result.typed ? `: ${result.typed}` : ''}` : ''
    }
  }
  const openList = (open) => {
    if (open) fillList()
    list.classList.toggle('bench-list-open', open)
    $('all').setAttribute('aria-expanded', String(open))
    $('all').textContent = open ? 'Hide all steps' : 'Show all steps'
    render(false)
    if (open) list.querySelector('h2').focus()
  }
  $('all').addEventListener('click', () => openList(!listOpen()))
  $('finish').addEventListener('click', () => {
    asking = ''
    if (listOpen()) openList(false)
    go(steps.length)
  })
  // What has the focus is never behind the bar at the foot, however tall the verdict makes it.
  new ResizeObserver(() => {
    const height = $('nav').offsetHeight
    document.documentElement.style.scrollPaddingBottom = `${height + 8}px`
    root.style.paddingBottom = `${height + 24}px`
  }).observe($('nav'))
  window.addEventListener('beforeprint', fillList)
  window.addEventListener('resize', () => viewNow() === 'step' && drawFaces(steps[at]))
  // The same loom open in two windows: the other one wrote, so this one reads.
  window.addEventListener('storage', (event) => {
    const found = event.key === key ? keep.read(key) : undefined
    if (!found) return
    session = found
    render(false)
  })

  // At arm's length nobody taps the screen awake between two crimps. Where the browser refuses, it sleeps as it is set to.
  const stayAwake = () => {
    if (document.visibilityState === 'visible') navigator.wakeLock?.request('screen').catch(() => {})
  }
  document.addEventListener('visibilitychange', stayAwake)
  stayAwake()

  root.hidden = false
  show('off', false)
  list.classList.add('bench-list-folded')
  showOld()
  save()
  render(false)
  if (session.begun) say(`Continued on this device. ${doneCount()} of ${steps.length} steps have a result.`)
})()
