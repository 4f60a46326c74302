import type { Loom, Net } from '../resolve/loom.ts'
import { sheetHead } from '../sheets/head.ts'
import { marginLine } from '../sheets/head-view.ts'
import { anchor } from './anchor.ts'
import { pageOf } from './finding-view.ts'
import { type NetContext, netView } from './net-view.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { Job, SiteFile } from './site-input.ts'

/** The nets of one job, as many on a page as stay light on a phone; each has its own place to link to. */
export function netPages(site: Site, job: Job): SiteFile[] {
  const { loom } = job
  const pages = new Map<string, Net[]>()
  for (const net of loom.nets) {
    const target = site.map.net(loom, net)
    if (target) pages.set(target.path, [...(pages.get(target.path) ?? []), net])
  }
  const linkOf = new Map(
    loom.links.flatMap((link) => (link.conductor ? [[link.conductor, link] as const] : [])),
  )
  const margin = marginLine('Nets', sheetHead(loom, undefined, 'Nets'))
  const harnesses = site.map.harnesses.filter((entry) => entry.job === job)
  const links = [...pages].flatMap(([path, nets]) => nets.map((net) => ({ path, net })))
  return [...pages].map(([path, nets], index) => {
    const context: NetContext = { site, path, job, harnesses, linkOf }
    const part = pages.size > 1 ? `, part ${index + 1} of ${pages.size}` : ''
    const title = `Nets of ${loom.title}${part}`
    const facts = {
      path,
      title,
      about: `Each net of ${loom.kind} ${loom.id}, with every pin and wire on it.`,
      margin,
    }
    return makePage(site, 'nets', facts, {
      title: loom.title,
      part,
      id: loom.id,
      kind: loom.kind,
      back: linkTo(path, pageOf(site, loom)),
      backText: loom.title,
      all: links.map((one) => ({
        name: one.net.name,
        href: linkTo(path, { path: one.path, anchor: anchor('net', one.net.name) }),
      })),
      nets: nets.map((net) => netView(context, net)),
    })
  })
}

/** The first page of a job's nets; empty where it has none. */
export function netsHref(site: Site, path: string, loom: Loom): string {
  const first = loom.nets.find((net) => site.map.net(loom, net))
  const target = first && site.map.net(loom, first)
  return linkTo(path, target?.path)
}
