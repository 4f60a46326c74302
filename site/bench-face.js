/** Shows the faces a step touches, large, with its cavities marked by shape: a heavy double ring, and a letter for a probe. */
;(() => {
  const SVG = 'http://www.w3.org/2000/svg'
  const make = (name, facts) => {
    const element = document.createElementNS(SVG, name)
    for (const [key, value] of Object.entries(facts)) element.setAttribute(key, String(value))
    return element
  }

  /** The disc of a pin, or the outline for a shell; undefined where the face does not show it. */
  const spotOf = (svg, pin) => {
    const group = [...svg.querySelectorAll('.lw-facepin')].find((one) => one.dataset.pin === pin)
    const disc =
      group?.querySelector('path.lw-ink, path.lw-paper') ??
      (pin === 'shell' ? svg.querySelector('.lw-box') : undefined)
    if (!disc) return undefined
    const { x, y, width, height } = disc.getBBox()
    return { x: x + width / 2, y: y + height / 2, w: width, h: height, group }
  }

  const ring = (spot, className, more) =>
    spot.group
      ? make('circle', { class: className, cx: spot.x, cy: spot.y, r: spot.w / 2 + more })
      : make('rect', {
          class: className,
          x: spot.x - spot.w / 2 - more,
          y: spot.y - spot.h / 2 - more,
          width: spot.w + 2 * more,
          height: spot.h + 2 * more,
          rx: 8,
        })

  /** A letter in a disc on the rim of the ring; A and B on opposite sides, since neighbours are often held against each other. */
  const badge = (spot, letter) => {
    const side = letter === 'A' ? -1 : 1
    const at = { x: spot.x + side * (spot.w / 2 + 9), y: spot.y + side * (spot.h / 2 + 9) }
    const text = make('text', { class: 'bench-letter', x: at.x, y: at.y + 5.5, 'text-anchor': 'middle' })
    text.textContent = letter
    return [make('circle', { class: 'bench-badge', cx: at.x, cy: at.y, r: 11 }), text]
  }

  /** Marks pins on a picture that is on the page already; gives where they are. */
  const mark = (svg, marks) => {
    const spots = marks.flatMap(({ letter, pins }) =>
      pins.flatMap((pin, index) => {
        const spot = spotOf(svg, pin)
        return spot ? [{ ...spot, letter, first: index === 0 }] : []
      }),
    )
    const layer = make('g', { 'aria-hidden': 'true' })
    for (const spot of spots) {
      spot.group?.classList.add('bench-chosen')
      layer.append(ring(spot, 'bench-halo', 3.5))
    }
    // No halo may cover the ring of a neighbour, and no ring a letter.
    for (const spot of spots) layer.append(ring(spot, `bench-ring bench-ring-${spot.letter || 'here'}`, 3.5))
    for (const spot of spots) if (spot.letter && spot.first) layer.append(...badge(spot, spot.letter))
    svg.append(layer)
    svg.classList.add('bench-marked')
    return spots
  }

  /** A disc narrower than this on the screen cannot be read at arm's length, so its surroundings are drawn again, larger. */
  const LEAST_PX = 27
  const LARGE_PX = 46

  /** The surroundings of marked pins, large, under the whole face; nothing where it is large enough already or they lie far apart. */
  const closeUp = (svg, spots) => {
    const box = svg.viewBox.baseVal
    const { width, height } = svg.getBoundingClientRect()
    const [first] = spots
    if (!first?.group || svg.querySelectorAll('.lw-facepin').length === 1) return undefined
    if (first.w * Math.min(width / box.width, height / box.height) >= LEAST_PX) return undefined
    const w = Math.min(box.width, (width * first.w) / LARGE_PX)
    const h = Math.min(box.height, w * 0.5)
    const span = (axis) => {
      const all = spots.map((spot) => spot[axis])
      return { middle: (Math.min(...all) + Math.max(...all)) / 2, size: Math.max(...all) - Math.min(...all) }
    }
    const [across, down] = [span('x'), span('y')]
    if (across.size + 2 * first.w > w || down.size + 1.5 * first.w > h) return undefined
    const near = (middle, size, from, all) => Math.min(Math.max(middle - size / 2, from), from + all - size)
    const large = svg.cloneNode(true)
    const corner = `${near(across.middle, w, box.x, box.width)} ${near(down.middle, h, box.y, box.height)}`
    large.setAttribute('viewBox', `${corner} ${w} ${h}`)
    large.setAttribute('aria-hidden', 'true')
    large.setAttribute('class', `${svg.getAttribute('class')} bench-close`)
    return large
  }

  const SIDE_WORDS = {
    mating: 'Mating face: the end that plugs in',
    'wire-entry': 'Wire-entry face: the side your hands see',
    only: 'Seen from the side',
    alike: '',
  }
  /** More faces than this are named in words only. */
  const MOST = 4

  /** Spots of both probes by the half they are on, in order. */
  const byHalf = (step) => {
    const halves = new Map()
    for (const [letter, spots] of [
      ['A', step.a],
      ['B', step.b],
    ])
      for (const [half, pins] of spots) {
        const known = halves.get(half) ?? []
        halves.set(half, [
          ...known,
          { letter: step.proof ? letter : '', name: step.stage === 'look' ? 'End' : 'Probe', pins },
        ])
      }
    return halves
  }

  const figure = (store, half, side, marks) => {
    const found = [...store.querySelectorAll('figure')].filter((one) => one.dataset.half === half)
    const source = found.find((one) => one.dataset.side === side) ?? found[0]
    if (!source) return undefined
    const shown = source.cloneNode(true)
    const words = JSON.parse(source.dataset.words || '{}')
    const title = source.querySelector('figcaption')?.textContent ?? ''
    // A ring or a stud is called by its own name.
    const single = source.querySelectorAll('.lw-facepin').length === 1
    const names = marks.map(
      ({ letter, name, pins }) =>
        `${letter === '' ? '' : `${name} ${letter}: `}${half}${pins.length > 0 && !single ? `-${pins.join(', ')}` : ''}`,
    )
    const only = marks.flatMap(({ pins }) => pins)
    const where = only.length === 1 ? words[only[0]] : undefined
    const caption = document.createElement('figcaption')
    const strong = document.createElement('b')
    strong.textContent = names.join(' · ')
    const rest = document.createElement('span')
    rest.textContent = [
      title,
      SIDE_WORDS[source.dataset.side],
      where && where[0].toUpperCase() + where.slice(1),
    ]
      .filter(Boolean)
      .join('. ')
    caption.append(strong, ' ', rest)
    shown.replaceChild(caption, shown.querySelector('figcaption'))
    const svg = shown.querySelector('svg')
    svg?.setAttribute(
      'aria-label',
      [half, SIDE_WORDS[source.dataset.side], `marked: ${names.join('; ')}`].filter(Boolean).join(', '),
    )
    return shown
  }

  /**
   * Fills a box with the faces of a step. A proof shows both sides of each where there is room, the other steps the side asked for.
   * Gives what is to be said: sides, and whether there is a second side to turn to.
   */
  const showFaces = (box, store, step, side) => {
    box.replaceChildren()
    const halves = [...byHalf(step)]
    let turns = false
    if (halves.length > MOST) return { turns, shown: 0 }
    for (const [half, marks] of halves) {
      const sides = [...store.querySelectorAll('figure')]
        .filter((one) => one.dataset.half === half)
        .map((one) => one.dataset.side)
      turns ||= sides.length > 1
      const wanted = step.proof && sides.length > 1 ? [side, ...sides.filter((one) => one !== side)] : [side]
      wanted.forEach((one, index) => {
        const shown = figure(store, half, one, marks)
        if (!shown) return
        if (index > 0) shown.className = 'bench-other'
        box.append(shown)
        const svg = shown.querySelector('svg')
        if (!svg || svg.getClientRects().length === 0) return
        const large = closeUp(svg, mark(svg, marks))
        if (large) svg.after(large)
      })
    }
    return { turns, shown: box.children.length }
  }

  window.loomBench = { ...window.loomBench, showFaces }
})()
