/** Reads the steps out of the list on the page, which is the same list that is printed, and shows their facts. */
;(() => {
  const factsOf = (item) =>
    [...item.querySelectorAll('dl > div')].map((row) => {
      const value = row.querySelector('dd')
      return {
        name: row.querySelector('dt').textContent,
        text: value.textContent,
        big: row.classList.contains('bench-big'),
        ground: value.dataset.ground,
        tracer: value.dataset.tracer,
      }
    })

  const PROOF = new Set(['continuity', 'open', 'look'])
  /** The steps of the page, from its list: words from the text, the rest from `data-step`. */
  const readSteps = (list) =>
    [...list.querySelectorAll('li[data-step]')].map((item) => {
      const data = JSON.parse(item.dataset.step)
      return {
        ...data,
        item,
        unit: data.ask === 'force' ? 'N' : data.ask === 'ohms' ? 'Ω' : undefined,
        proof: PROOF.has(data.stage),
        what: item.querySelector('.bench-what > span:last-child').textContent,
        section: item.closest('section').querySelector('h3').textContent,
        get facts() {
          return factsOf(item)
        },
        get expect() {
          return factsOf(item).find(({ name }) => name === 'Expect')?.text
        },
      }
    })

  const swatch = ({ ground, tracer }) => {
    const piece = document.createElement('span')
    piece.className = 'bench-swatch'
    piece.setAttribute('aria-hidden', 'true')
    piece.style.background = tracer
      ? `repeating-linear-gradient(135deg, ${ground} 0 1.1rem, ${tracer} 1.1rem 1.6rem)`
      : ground
    return piece
  }
  const factRow = (fact) => {
    const row = document.createElement('div')
    if (fact.big) row.className = 'bench-big'
    const name = document.createElement('dt')
    name.textContent = fact.name
    const value = document.createElement('dd')
    if (fact.ground) value.append(swatch(fact), ' ')
    value.append(fact.text)
    row.append(name, value)
    return row
  }

  window.loomBench = { ...window.loomBench, readSteps, factRow }
})()
