/**
 * Search over the index that `find-data.js` puts on the window. Runs from disk: no server, no network.
 * Everything found is shown as text; nothing is read as markup.
 */
;(() => {
  /** @typedef {[title: string, kind: number, page: number, anchor: string, words: string]} Entry */

  const MOST = 60
  /** Letters that are no plain letter with a mark, as people without that key type them. @type {Record<string, string>} */
  const LETTERS = { ß: 'ss', æ: 'ae', œ: 'oe', ø: 'o', ł: 'l', đ: 'd', ı: 'i' }
  /** Kinds that are found by whole sentences, and so by nearly any word: they come last. */
  const TOLD = new Set(['rule', 'stop', 'warning', 'note'])
  /** @type {{ kinds: string[], pages: [path: string, title: string][], rows: Entry[] }} */
  const data = /** @type {any} */ (window).findData ?? { kinds: [], pages: [], rows: [] }
  const list = document.getElementById('find-results')
  const said = document.getElementById('find-said')
  const box = document.getElementById('find-box')
  if (!list || !said || !(box instanceof HTMLInputElement)) return

  /** @param {string} text */
  // Letters without their accents, and "P1.3" as "P1-3": pins are typed both ways.
  const plain = (text) => {
    const low = text.toLowerCase().replaceAll('.', '-')
    // What is ASCII needs no folding, and most of it is.
    if (/^[\x00-\x7f]*$/.test(low)) return low
    return low
      .normalize('NFKD')
      .replace(/\p{M}/gu, '')
      .replace(/[ßæœøłđı]/g, (letter) => LETTERS[letter] ?? letter)
  }

  const pageTitles = data.pages.map(([, title]) => plain(title))
  const searched = data.rows.map((entry) => {
    const title = plain(entry[0])
    const kind = data.kinds[entry[1]] ?? ''
    return {
      entry,
      title,
      told: TOLD.has(kind),
      text: ` ${title} ${kind} ${plain(entry[4])} ${pageTitles[entry[2]]}`,
    }
  })

  /**
   * Every word must be found; a title that is or starts with what was typed comes first, then one that starts with its
   * first word, then one with all of its words, then what has the words beside its title.
   * @param {string} query
   */
  const find = (query) => {
    // A colour pair is one code here and two words there: WH/RD is found as WHRD.
    const words = plain(query.replace(/(\p{L})\/(?=\p{L})/gu, '$1 '))
      .split(/\s+/)
      .filter(Boolean)
    const [first] = words
    if (!first) return []
    const whole = words.join(' ')
    /** @param {typeof searched[number]} one */
    const rank = ({ title, text, told }) => {
      if (title === whole) return 0
      const last = told ? 10 : 0
      if (title.startsWith(whole)) return last + 1
      if (title.startsWith(first)) return last + 2
      if (words.every((word) => ` ${title}`.includes(` ${word}`))) return last + 3
      // "red" is meant as a word before it is meant as the end of "covered".
      return last + (words.every((word) => text.includes(` ${word}`)) ? 4 : 5)
    }
    return searched
      .filter((one) => words.every((word) => one.text.includes(word)))
      .map((one, index) => ({ entry: one.entry, rank: rank(one), index }))
      .sort((a, b) => a.rank - b.rank || a.index - b.index)
      .map((one) => one.entry)
  }

  /** @param {Entry} entry */
  const row = ([title, kind, page, anchor]) => {
    const [path = '', pageTitle = ''] = data.pages[page] ?? []
    const item = document.createElement('li')
    const link = document.createElement('a')
    link.href = anchor === '' ? path : `${path}#${anchor}`
    link.textContent = title
    link.dir = 'auto'
    const after = document.createElement('span')
    after.className = 'quiet'
    after.textContent = data.kinds[kind] ?? ''
    item.append(link, ' ', after)
    if (anchor !== '' && pageTitle !== '') {
      const on = document.createElement('bdi')
      on.textContent = pageTitle
      after.append(', on ', on)
    }
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
