/**
 * Search over the index that `find-data.js` puts on the window. Runs from disk: no server, no network.
 * Everything found is shown as text; nothing is read as markup.
 */
;(() => {
  /** @typedef {[title: string, kind: string, href: string, words: string]} Entry */

  const MOST = 60
  /** @type {Entry[]} */
  const entries = /** @type {any} */ (window).findData ?? []
  const list = document.getElementById('find-results')
  const said = document.getElementById('find-said')
  const box = document.getElementById('find-box')
  if (!list || !said || !(box instanceof HTMLInputElement)) return

  /** @param {string} text */
  const plain = (text) => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase()

  const searched = entries.map((entry) => ({
    entry,
    title: plain(entry[0]),
    text: plain(`${entry[0]} ${entry[1]} ${entry[3]}`),
  }))

  /**
   * Every word must be found; a title that starts with the first word comes first, then a title that holds it.
   * @param {string} query
   */
  const find = (query) => {
    const words = plain(query).split(/\s+/).filter(Boolean)
    const [first] = words
    if (!first) return []
    /** @param {string} title */
    const rank = (title) => (title.startsWith(first) ? 0 : title.includes(first) ? 1 : 2)
    return searched
      .filter((one) => words.every((word) => one.text.includes(word)))
      .map((one, index) => ({ entry: one.entry, rank: rank(one.title), index }))
      .sort((a, b) => a.rank - b.rank || a.index - b.index)
      .map((one) => one.entry)
  }

  /** @param {Entry} entry */
  const row = ([title, kind, href]) => {
    const item = document.createElement('li')
    const link = document.createElement('a')
    link.href = href
    link.textContent = title
    const after = document.createElement('span')
    after.className = 'quiet'
    after.textContent = ` ${kind}`
    item.append(link, after)
    return item
  }

  const show = () => {
    const found = find(box.value)
    list.replaceChildren(...found.slice(0, MOST).map(row))
    said.textContent =
      box.value.trim() === ''
        ? 'Type a pin, wire, plug, colour, fuse or signal in the box above.'
        : `${found.length} found${found.length > MOST ? `, the first ${MOST} shown` : ''}.`
  }

  box.value = new URLSearchParams(location.search).get('q') ?? ''
  box.addEventListener('input', show)
  show()
})()
