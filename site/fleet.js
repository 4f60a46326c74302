/** Puts the assets of the fleet page into another order. Without it they stand by the attention they need. */
;(() => {
  const list = document.getElementById('fleet')
  const bar = document.getElementById('fleet-order')
  const said = document.getElementById('fleet-said')
  if (!list || !bar || !said) return
  const assets = [...list.children].filter((one) => one instanceof HTMLElement)
  const natural = new Intl.Collator('en', { numeric: true })
  /** @type {Record<string, (a: HTMLElement, b: HTMLElement) => number>} */
  const orders = {
    attention: (a, b) => Number(a.dataset.rank) - Number(b.dataset.rank),
    asset: (a, b) => natural.compare(a.dataset.asset ?? '', b.dataset.asset ?? ''),
    date: (a, b) => natural.compare(b.dataset.date ?? '', a.dataset.date ?? ''),
  }
  const buttons = [...bar.querySelectorAll('button')]
  for (const button of buttons)
    button.addEventListener('click', () => {
      const order = orders[button.dataset.order ?? ''] ?? orders.attention
      list.append(...[...assets].sort(order))
      for (const one of buttons) one.setAttribute('aria-pressed', String(one === button))
      said.textContent = `Ordered by ${button.textContent}.`
    })
  bar.hidden = false
})()
