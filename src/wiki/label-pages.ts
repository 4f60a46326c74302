import { sheetHead } from '../sheets/head.ts'
import { issueLine } from '../sheets/head-view.ts'
import {
  type LabelSheet,
  labelCsv,
  labelSheet,
  onSheets,
  PLAIN_STOCK,
  TEXT_SIZE_MM,
} from '../sheets/label-sheet.ts'
import { labelsOf } from '../sheets/labels.ts'
import { qrModules, qrPath, qrSide } from '../sheets/qr.ts'
import type { HarnessEntry } from './harness-entries.ts'
import { linkTo, makePage, type Site } from './page.ts'
import { siteAddress } from './site-address.ts'
import type { SiteFile } from './site-input.ts'

/** Margin that takes a line of words above the first row, in mm. */
const HEAD_ROOM_MM = 8
const CSV = 'labels'

const stockOf = ({ job }: HarnessEntry) => job.loom.settings.stated.labels?.stock ?? PLAIN_STOCK

const pathOf = (site: Site, { harness }: HarnessEntry, stockId: string): string =>
  site.map.paper(harness.id, `labels-${stockId}`, 'html')

/** Links to the label sheets of a harness and to its texts for a label printer. */
export function labelLinks(site: Site, path: string, entry: HarnessEntry) {
  return stockOf(entry).map(({ id }, index) => ({
    title: `Labels to print, ${id}`,
    href: linkTo(path, pathOf(site, entry, id)),
    csv: index === 0 ? linkTo(path, site.map.paper(entry.harness.id, CSV, 'csv')) : '',
    markdown: '',
  }))
}

/** The labels of a harness: a sheet for each stock of the shop, and one record a label for a label printer. */
export function labelPages(site: Site, entry: HarnessEntry): SiteFile[] {
  const { harness, job, use } = entry
  const labels = labelsOf(job.loom, use)
  const head = sheetHead(job.loom, use, 'Labels')
  const code = siteAddress(site, site.map.harness(harness.id)) ?? issueLine(head)
  const revision = harness.revision ?? ''
  const csv = labelCsv(labels, { harness: harness.id, revision, match: head.match, code })
  const pages = stockOf(entry).map((stock) =>
    sheetPage(site, entry, labelSheet(labels, stock, revision, code), {
      code,
      sleeves: labels.length - onSheets(labels).length,
      running: `${harness.id}, ${harness.title}, ${revision === '' ? 'no revision' : `rev ${revision}`}, match ${head.match}`,
    }),
  )
  return [...pages, { path: site.map.paper(harness.id, CSV, 'csv'), content: csv }]
}

interface SheetFacts {
  readonly code: string
  readonly sleeves: number
  readonly running: string
}

const mm = (value: number): string => String(Math.round(value * 100) / 100)

function sheetPage(site: Site, entry: HarnessEntry, sheet: LabelSheet, facts: SheetFacts): SiteFile {
  const { harness } = entry
  const { stock } = sheet
  const path = pathOf(site, entry, stock.id)
  const modules = qrModules(facts.code)
  const cells = sheet.pages.flat()
  const page = {
    path,
    title: `Labels: ${harness.title}`,
    about: `Labels of harness ${harness.id} to print on ${stock.id}.`,
    paper: true,
  }
  return makePage(site, 'labels', page, {
    title: harness.title,
    stock: stock.id,
    paper: stock.paper,
    paperName: stock.paper === 'a4' ? 'A4' : 'Letter',
    // Sheets that are bought are cut already; plain paper needs lines to cut along.
    cut: PLAIN_STOCK.includes(stock),
    size: `${mm(sheet.cellWidthMm)} × ${mm(sheet.cellHeightMm)} mm`,
    count: cells.length,
    sleeves: facts.sleeves,
    code: facts.code,
    moduleMm: mm(sheet.moduleMm),
    hasQr: sheet.qrMm > 0,
    qrMm: mm(sheet.qrMm),
    qrSide: modules ? qrSide(modules) : 0,
    qrPath: modules ? qrPath(modules) : '',
    csv: linkTo(path, site.map.paper(harness.id, CSV, 'csv')),
    list: linkTo(path, site.map.paper(harness.id, 'label-list', 'html')),
    back: linkTo(path, site.map.harness(harness.id)),
    backText: harness.title,
    misfits: [...new Set(cells.filter(({ fits }) => !fits).map(({ label }) => label.id))],
    problems: [
      ...new Set(cells.flatMap(({ label }) => label.problems.map((problem) => `${label.id}: ${problem}`))),
    ],
    width: mm(sheet.widthMm),
    // A hair less than the sheet: rounded up to printer dots it would run over onto another.
    height: mm(sheet.heightMm - 0.4),
    textSize: mm(TEXT_SIZE_MM),
    hasHead: stock.top >= HEAD_ROOM_MM,
    headTop: mm(stock.top - 6),
    left: mm(stock.left),
    hasScale: (stock.bottom ?? stock.top) >= HEAD_ROOM_MM,
    scaleTop: mm(sheet.heightMm - (stock.bottom ?? stock.top) + 2),
    running: facts.running,
    pages: sheet.pages.map((list, index) => ({
      number: index + 1,
      of: sheet.pages.length,
      cells: list.map((cell) => ({
        place: `left:${mm(cell.leftMm)}mm;top:${mm(cell.topMm)}mm;width:${mm(sheet.cellWidthMm)}mm;height:${mm(sheet.cellHeightMm)}mm`,
        id: cell.label.id,
        first: cell.first,
        lines: cell.lines,
        fits: cell.fits,
        qr: cell.qr,
      })),
    })),
  })
}
