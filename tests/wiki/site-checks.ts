import { posix } from 'node:path'
import { HtmlValidate } from 'html-validate'
import type { SiteFile } from '../../src/wiki/site-input.ts'

export const pagesOf = (all: readonly SiteFile[]) => all.filter((file) => file.path.endsWith('.html'))

/** Links, sources and form targets within the site that lead nowhere, or to a place that is not there. */
export function brokenLinks(all: readonly SiteFile[]): string[] {
  const ids = new Map(
    pagesOf(all).map(({ path, content }) => [
      path,
      new Set([...content.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id)),
    ]),
  )
  const paths = new Set(all.map((file) => file.path))
  return pagesOf(all).flatMap(({ path, content }) =>
    [...content.matchAll(/\s(?:href|src|action)="([^"]*)"/g)].flatMap(([, link = '']) => {
      if (/^(https?|mailto|tel):/.test(link)) return []
      const [file = '', hash] = link.split('#')
      const target = file === '' ? path : posix.normalize(posix.join(posix.dirname(path), file))
      if (!paths.has(target)) return [`${path}: ${link} is not there`]
      return hash === undefined || ids.get(target)?.has(hash) ? [] : [`${path}: ${link} has no such place`]
    }),
  )
}

/** Tags and attributes that nobody of us put there. Within text a "<" is always escaped, so whatever looks like a tag is one. */
export function injected({ path, content }: SiteFile): string[] {
  if (!path.endsWith('.html')) return []
  const tags = (content.match(/<[A-Za-z][^>]*>/g) ?? []).map((tag) => tag.replace(/"[^"]*"/g, '""'))
  const strange = tags.filter((tag) =>
    /\son\w+\s*=|<(?:img|iframe|object|embed|base|foreignObject)\b/i.test(tag),
  )
  const scripts = [...content.matchAll(/<script\b[^>]*>/g)].map(([tag]) => tag)
  const unknown = scripts.filter(
    (tag) =>
      !/^<script (?:src="(?:\.\.\/)?assets\/[a-z-]+\.js" defer|type="application\/json" id="[a-z-]+")>$/.test(
        tag,
      ),
  )
  return [...strange, ...unknown].map((tag) => `${path}: ${tag}`)
}

/** What an independent checker has to say of pages. Pictures are left out: they are judged as SVG. */
export async function htmlProblems(pages: readonly SiteFile[]): Promise<string[]> {
  const validator = new HtmlValidate({
    extends: ['html-validate:recommended'],
    rules: {
      // The templates are written in the short forms of HTML that these ask to spell out.
      'no-inline-style': 'off',
      'long-title': 'off',
      'no-trailing-whitespace': 'off',
      'prefer-native-element': 'off',
    },
  })
  const problems: string[] = []
  for (const { path, content } of pages) {
    // Pictures may hold pictures: the innermost go first, until none is left.
    const innermost = /<svg(?:(?!<svg)[\s\S])*?<\/svg>/g
    let plain = content
    while (plain.search(innermost) >= 0) plain = plain.replace(innermost, '<span>picture</span>')
    const report = await validator.validateString(plain, path)
    for (const result of report.results)
      problems.push(...result.messages.map((one) => `${path}:${one.line} ${one.ruleId} ${one.message}`))
  }
  return problems
}
