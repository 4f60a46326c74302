/**
 * Lights the whole way of a conductor, pin or net: on drawings, faces and tables of the page, with a line that says it in
 * words. Point or focus to look, tap or Enter to keep, Escape to clear. `#pin=P1.3`, `#wire=A02` and `#net=SPK+` open the
 * page with the way lit. Everything shown is set as text; nothing is read as markup.
 */
;(() => {
  /** @typedef {[parent: number, kind: number, words: string, net: number, addresses: string[], href: string]} Step */
  /** @typedef {{ steps: Step[], index: number }} Spot */

  const MOST_ENDS = 6
  const source = document.getElementById('path-data')
  const main = document.getElementById('content')
  if (!source || !main) return
  /** @type {{ own: string, nets: string[], circuits: Step[][], whole: [string, string] | null }} */
  const data = JSON.parse(source.textContent ?? '')

  /** What can be chosen. A relay stands for several nets: it is lit with each of them and chosen with none. @type {Map<string, Spot>} */
  const spots = new Map()
  /** @type {Map<string, number>} */
  const netAt = new Map()
  for (const steps of data.circuits)
    for (const [index, step] of steps.entries())
      for (const address of step[4]) {
        const net = netAt.get(address)
        if (net === undefined || step[1] === 2) spots.set(address, { steps, index })
        else if (net !== step[3] && spots.get(address)?.steps[spots.get(address)?.index ?? 0]?.[1] !== 2)
          spots.delete(address)
        netAt.set(address, step[3])
      }

  // What on the page stands for which address.

  /** @param {Element} one */
  const addressOf = (one) => {
    const { id, at, block, pin } = /** @type {SVGElement} */ (one).dataset
    if (one.classList.contains('lw-facepin')) {
      const half = /** @type {HTMLElement | null} */ (one.closest('[data-half]'))?.dataset.half
      return half ? `${half}.${pin}` : ''
    }
    return at ?? id ?? block ?? ''
  }
  const THINGS = '.lw-cond,.lw-label,.lw-pin,.lw-facepin,.lw-block,tr[data-at]'
  /** @type {Map<string, Element[]>} */
  const shown = new Map()
  for (const one of main.querySelectorAll(THINGS)) {
    const address = addressOf(one)
    if (netAt.has(address)) shown.set(address, [...(shown.get(address) ?? []), one])
  }
  const drawings = [...new Set([...shown.values()].flat().map((one) => one.closest('svg')))].filter(
    (one) => one !== null,
  )

  // The line that says it in words.

  const bar = document.createElement('div')
  bar.className = 'trail'
  bar.hidden = true
  const said = document.createElement('p')
  said.setAttribute('aria-live', 'polite')
  const clear = document.createElement('button')
  clear.type = 'button'
  clear.textContent = 'Clear'
  bar.append(said, clear)
  main.append(bar)

  // The way through a step.

  /** @param {Step[]} steps @param {number} index */
  const above = (steps, index) => {
    const way = []
    for (let at = index; at >= 0; at = steps[at]?.[0] ?? -1) way.unshift(at)
    return way
  }
  /** @param {Step[]} steps @param {number} index */
  const below = (steps, index) => {
    const found = new Set([index])
    steps.forEach((step, at) => {
      if (found.has(step[0])) found.add(at)
    })
    return found
  }
  /** @param {Step[]} steps @param {number} index */
  const children = (steps, index) => steps.flatMap((step, at) => (step[0] === index ? [at] : []))

  /** Goes on to the end, or to where it parts. @param {Step[]} steps @param {number} index */
  const straightOn = (steps, index) => {
    const way = []
    let next = children(steps, index)
    while (next.length === 1 && next[0] !== undefined) {
      way.push(next[0])
      next = children(steps, next[0])
    }
    return { way, parts: next }
  }

  /** @param {Step} step @param {boolean} strong */
  const wordsOf = (step, strong) => {
    const [, , words, , , href] = step
    const one = document.createElement(href ? 'a' : strong ? 'strong' : 'span')
    if (href) one.setAttribute('href', href)
    if (href && strong) one.append(Object.assign(document.createElement('strong'), { textContent: words }))
    else one.textContent = words
    return one
  }

  /** @param {Spot} spot */
  const say = ({ steps, index }) => {
    const { way, parts } = straightOn(steps, index)
    const step = steps[index]
    if (!step) return
    /** @type {(Node | string)[]} */
    const line = []
    let last = ''
    for (const at of [...above(steps, index), ...way]) {
      const one = steps[at]
      if (!one || (at !== index && (one[2] === '' || one[2] === last))) continue
      line.push(line.length > 0 ? ' → ' : '', wordsOf(one, at === index))
      last = one[2]
    }
    if (parts.length > 0) {
      const fork = way.at(-1) ?? index
      const ends = [...below(steps, fork)].filter((at) => at !== fork && children(steps, at).length === 0)
      line.push(` → parts to ${ends.length} ends: `)
      ends.slice(0, MOST_ENDS).forEach((at, i) => {
        const one = steps[at]
        if (one) line.push(i > 0 ? '; ' : '', wordsOf(one, false))
      })
      if (ends.length > MOST_ENDS) line.push(` and ${ends.length - MOST_ENDS} more`)
    }
    const net = document.createElement('span')
    net.className = 'quiet'
    net.textContent = `Net ${data.nets[step[3]] ?? ''}. `
    said.replaceChildren(net, ...line)
    if (data.whole && step[4][0] !== undefined) {
      const link = document.createElement('a')
      link.href = `${data.whole[0]}#wire=${encodeURIComponent(step[4][0])}`
      link.textContent = `Whole way in ${data.whole[1]}`
      said.append('. ', link)
    }
  }

  // Lighting. Width, frames and dimming say it; colour only helps.

  const SVG = 'http://www.w3.org/2000/svg'
  /** Puts a frame behind a pin. @param {Element} one */
  const frame = (one) => {
    if (!(one instanceof SVGGraphicsElement) || !one.matches('.lw-pin,.lw-facepin')) return
    const { x, y, width, height } = one.getBBox()
    const box = document.createElementNS(SVG, 'rect')
    box.setAttribute('class', 'lw-spot')
    const room = 4
    for (const [name, value] of Object.entries({ x: x - room, y, width: width + 2 * room, height }))
      box.setAttribute(name, String(value))
    one.prepend(box)
  }
  /** @type {string} */
  let lit = ''
  const dark = () => {
    lit = ''
    for (const svg of drawings) svg.classList.remove('lw-traced')
    for (const one of main.querySelectorAll('.lw-way,.lw-same,.lw-picked')) {
      one.classList.remove('lw-way', 'lw-same', 'lw-picked')
      if (one.hasAttribute('aria-pressed')) one.setAttribute('aria-pressed', 'false')
    }
    for (const box of main.querySelectorAll('.lw-spot')) box.remove()
    bar.hidden = true
    document.documentElement.classList.remove('has-trail')
  }
  /** @param {string} address */
  const light = (address) => {
    const spot = spots.get(address)
    if (!spot || lit === address) return spot !== undefined
    dark()
    lit = address
    const { steps, index } = spot
    const way = new Set([...above(steps, index), ...below(steps, index)])
    const net = steps[index]?.[3]
    steps.forEach((step, at) => {
      const name = way.has(at) ? 'lw-way' : step[3] === net ? 'lw-same' : ''
      if (name === '') return
      for (const one of new Set(step[4].flatMap((known) => shown.get(known) ?? []))) {
        one.classList.add(name)
        one.closest('svg')?.classList.add('lw-traced')
        frame(one)
        if (at !== index) continue
        one.classList.add('lw-picked')
        if (one.hasAttribute('aria-pressed')) one.setAttribute('aria-pressed', String(kept === address))
      }
    })
    for (const svg of drawings) if (svg.querySelector('.lw-cond')) svg.classList.add('lw-traced')
    say(spot)
    bar.hidden = false
    document.documentElement.classList.add('has-trail')
    return true
  }

  /** @type {string} */
  let kept = ''
  /** @param {string} address */
  const keep = (address) => {
    kept = address
    dark()
    if (address !== '') light(address)
  }
  const rest = () => (kept === '' ? dark() : light(kept))

  // Mouse, touch, keyboard.

  /** @param {EventTarget | null} target */
  const thingAt = (target) => {
    const one = target instanceof Element ? target.closest(THINGS) : null
    const address = one ? addressOf(one) : ''
    return spots.has(address) ? address : ''
  }
  /** A finger is wider than a line: looks round the place too. @param {MouseEvent} event */
  const nearest = (event) => {
    const found = thingAt(event.target)
    if (found || !(event.target instanceof Element) || !event.target.closest('.drawing svg')) return found
    for (const reach of [6, 12])
      for (let turn = 0; turn < 8; turn++) {
        const [dx, dy] = [Math.cos((turn * Math.PI) / 4), Math.sin((turn * Math.PI) / 4)]
        const near = thingAt(
          document.elementFromPoint(event.clientX + dx * reach, event.clientY + dy * reach),
        )
        if (near) return near
      }
    return ''
  }
  main.addEventListener('pointerover', (event) => {
    if (event.pointerType !== 'mouse' || kept !== '') return
    const address = thingAt(event.target)
    if (address) light(address)
    else if (!bar.contains(/** @type {Node} */ (event.target))) dark()
  })
  main.addEventListener('pointerleave', rest)
  main.addEventListener('click', (event) => {
    if (!(event.target instanceof Element) || event.target.closest('a,button,input,summary')) return
    const address = nearest(event)
    if (address) keep(address === kept ? '' : address)
    else if (event.target.closest('svg')) keep('')
  })
  /** Focus that the page gives back shows nothing anew. */
  let returning = false
  main.addEventListener('focusin', (event) => {
    const address = thingAt(event.target)
    if (address && kept === '' && !returning) light(address)
  })
  main.addEventListener('focusout', (event) => {
    if (!bar.contains(/** @type {Node | null} */ (event.relatedTarget))) rest()
  })
  clear.addEventListener('click', () => {
    const back =
      document.activeElement === clear
        ? shown.get(kept || lit)?.find((one) => one.matches('[tabindex]'))
        : undefined
    keep('')
    returning = true
    if (back instanceof SVGElement) back.focus()
    returning = false
  })
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape' && lit !== '') keep('')
  })

  const order = new Intl.Collator('en', { numeric: true })
  for (const svg of drawings) {
    /** One place to stop a conductor. @type {Map<string, SVGElement>} */
    const stops = new Map()
    for (const one of svg.querySelectorAll('.lw-cond')) {
      const address = addressOf(one)
      if (spots.has(address) && !stops.has(address)) stops.set(address, /** @type {SVGElement} */ (one))
    }
    if (stops.size === 0) continue
    // A picture has no parts to a screen reader; from here on this one has.
    svg.setAttribute('role', 'group')
    const names = [...stops.keys()].sort(order.compare)
    for (const [address, one] of stops) {
      one.setAttribute('role', 'button')
      one.setAttribute('aria-pressed', 'false')
      one.setAttribute('aria-label', one.querySelector('title')?.textContent ?? address)
      one.setAttribute('tabindex', address === names[0] ? '0' : '-1')
    }
    /** @param {string} address */
    const go = (address) => {
      const one = stops.get(address)
      if (!one) return
      for (const other of stops.values()) other.setAttribute('tabindex', '-1')
      one.setAttribute('tabindex', '0')
      one.focus()
    }
    /** The next conductor along the way that is on this drawing. @param {string} address @param {boolean} onward */
    const along = (address, onward) => {
      const spot = spots.get(address)
      if (!spot) return ''
      const { steps, index } = spot
      const way = onward ? [...below(steps, index)] : above(steps, index).reverse()
      const found = way.find((at) => at !== index && steps[at]?.[4].some((known) => stops.has(known)))
      return found === undefined ? '' : (steps[found]?.[4].find((known) => stops.has(known)) ?? '')
    }
    svg.addEventListener('keydown', (event) => {
      const at = thingAt(event.target)
      if (!stops.has(at)) return
      const place = names.indexOf(at)
      /** @type {Record<string, string | undefined>} */
      const goals = {
        ArrowDown: names[place + 1],
        ArrowUp: names[place - 1],
        ArrowRight: along(at, true),
        ArrowLeft: along(at, false),
        Home: names[0],
        End: names.at(-1),
      }
      if (event.key === 'Enter' || event.key === ' ') keep(at === kept ? '' : at)
      else if (event.key in goals) {
        if (kept !== '') keep('')
        go(goals[event.key] ?? '')
      } else return
      event.preventDefault()
    })
  }

  const fromHash = () => {
    const found = /^#(pin|wire|net)=(.*)$/.exec(location.hash)
    if (!found) return
    let name = found[2] ?? ''
    try {
      name = decodeURIComponent(name)
    } catch {
      return
    }
    const inNet = () => {
      const net = data.nets.indexOf(name)
      for (const steps of data.circuits)
        for (const step of steps) if (step[3] === net && step[4][0]) return step[4][0]
      return ''
    }
    const address = found[1] === 'net' ? inNet() : [name, data.own + name].find((one) => spots.has(one))
    if (!address) return
    keep(address)
    const all = (spots.get(address)?.steps[spots.get(address)?.index ?? 0]?.[4] ?? []).flatMap(
      (one) => shown.get(one) ?? [],
    )
    all[0]?.scrollIntoView({ block: 'center', inline: 'center' })
  }
  addEventListener('hashchange', fromHash)
  fromHash()
})()
