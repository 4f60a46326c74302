import { toCsv } from '../sheets/csv.ts'
import { marginLine } from '../sheets/head-view.ts'
import { toMarkdown } from '../sheets/markdown.ts'
import { CSV_PAPERS } from '../sheets/papers.ts'
import { qrMarkup } from '../sheets/qr.ts'
import type { Sheet } from '../sheets/sheet.ts'
import { type SheetView, sheetView } from '../sheets/sheet-view.ts'
import type { HarnessEntry } from './harness-entries.ts'
import { linkTo, makePage, type Site } from './page.ts'
import { facesOf } from './pinout-view.ts'
import { siteAddress } from './site-address.ts'
import type { SiteFile } from './site-input.ts'

/** From this many columns on a paper is printed across the sheet. */
const WIDE_COLUMNS = 9

/** Links to the papers of a harness, pinout tables last. */
export function paperLinks(site: Site, path: string, entry: HarnessEntry) {
  const { harness } = entry
  return site.papers(entry).sheets.map((sheet) => ({
    title: sheet.title,
    href: linkTo(path, site.map.paper(harness.id, sheet.id, 'html')),
    csv: CSV_PAPERS.has(sheet.id) ? linkTo(path, site.map.paper(harness.id, sheet.id, 'csv')) : '',
    markdown: linkTo(path, site.map.paper(harness.id, sheet.id, 'md')),
  }))
}

/** Every paper of a harness as a page to print, as Markdown, and as CSV where a machine reads it. */
export function paperPages(site: Site, entry: HarnessEntry): SiteFile[] {
  return site.papers(entry).sheets.flatMap((sheet) => {
    const name = (ending: string) => site.map.paper(entry.harness.id, sheet.id, ending)
    const csv = CSV_PAPERS.has(sheet.id) ? [{ path: name('csv'), content: toCsv(sheet) }] : []
    return [paperPage(site, entry, sheet), { path: name('md'), content: toMarkdown(sheet) }, ...csv]
  })
}

function paperPage(site: Site, entry: HarnessEntry, sheet: Sheet): SiteFile {
  const { harness, use } = entry
  const path = site.map.paper(harness.id, sheet.id, 'html')
  const facts = {
    path,
    title: `${sheet.title}: ${harness.title}`,
    about: `${sheet.title} of harness ${harness.id}.`,
    paper: true,
    margin: marginLine(sheet.title, sheet.head),
  }
  const shown =
    sheet.id === 'ring-out'
      ? use.halves.filter((half) => half.pins.size > 1)
      : use.halves.filter((half) => sheet.id === `pinout-${half.id}`)
  return makePage(site, 'paper', facts, {
    sheet: withAddress(sheetView(sheet), siteAddress(site, path)),
    wide: sheet.columns.length >= WIDE_COLUMNS,
    back: linkTo(path, site.map.harness(harness.id)),
    backText: harness.title,
    csv: CSV_PAPERS.has(sheet.id) ? linkTo(path, site.map.paper(harness.id, sheet.id, 'csv')) : '',
    markdown: linkTo(path, site.map.paper(harness.id, sheet.id, 'md')),
    faces: shown
      .map((half) => ({ name: half.id, title: half.title ?? '', ...facesOf(site, half) }))
      .filter((one) => one.hasFaces)
      .map(({ name, title, faces }) => ({ name, title, faces })),
  })
}

/** With an address to open, the code of a paper opens the paper itself: what it says is then the current issue. */
const withAddress = (view: SheetView, address: string | undefined): SheetView =>
  address === undefined ? view : { ...view, qr: qrMarkup(address) }
