import { addressIn } from './address-in.ts'
import { COVERAGE_PATH } from './coverage-page.ts'
import { LEVEL_WORDS, pageOf, placeNear } from './finding-view.ts'
import { linkTo, makePage, type Site } from './page.ts'
import { POLICY_PATH } from './policy-page.ts'
import { type RuleExample, ruleExamples } from './rule-example.ts'
import type { RulePage, SiteFile } from './site-input.ts'

/** The list of rules and one page for each. */
export function rulePages(site: Site): SiteFile[] {
  const { rules } = site.input
  const list = makePage(
    site,
    'rules',
    { path: 'rules.html', title: 'Rules', about: 'Every rule the checks apply, with its reason and source.' },
    {
      policy: POLICY_PATH,
      coverage: site.input.coverage ? COVERAGE_PATH : '',
      rules: rules.map((rule) => ({
        id: rule.id,
        title: rule.title,
        level: LEVEL_WORDS[rule.level],
        href: linkTo('rules.html', site.map.rule(rule.id)),
      })),
    },
  )
  const exampleOf = ruleExamples()
  return [list, ...rules.map((rule) => rulePage(site, rule, exampleOf(rule.id)))]
}

function rulePage(site: Site, rule: RulePage, example: RuleExample | undefined): SiteFile {
  const path = site.map.rule(rule.id) ?? ''
  const hits = site.input.looms.flatMap(({ loom, findings }) =>
    findings
      .filter((finding) => finding.rule === rule.id)
      .map((finding) => ({
        what: finding.what,
        job: loom.title,
        href: linkTo(path, placeNear(site, loom, addressIn(loom, finding.subject)) ?? pageOf(site, loom)),
      })),
  )
  const gaps = site.input.looms.flatMap(({ loom, notChecked }) =>
    notChecked.filter((one) => one.rule === rule.id).map((one) => ({ needs: one.needs, job: loom.title })),
  )
  return makePage(
    site,
    'rule',
    { path, title: rule.title, about: `Rule ${rule.id}: ${rule.title}.` },
    {
      ...rule,
      asks: rule.asks ?? '',
      sources: rule.sources,
      level: rule.level,
      levelWord: LEVEL_WORDS[rule.level],
      hits,
      gaps,
      example,
    },
  )
}
