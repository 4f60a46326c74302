import type { Trial, TrialSet } from '../check/what-if/trial.ts'
import { whatIf } from '../check/what-if/what-if.ts'
import { alikeWords, NONE_TRIED, TRIAL_TITLES } from '../report/what-if-text.ts'
import { LEVEL_MARKS, LEVEL_WORDS, pageOf, placeNear } from './finding-view.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { Job, SiteFile } from './site-input.ts'

/** The page of the simulations of one installation. */
export function whatIfPage(site: Site, job: Job): SiteFile {
  const { loom, solution } = job
  const path = site.map.whatIf(loom)
  const sets = whatIf({ loom, solution, paths: solution.paths })
  const bad = sets.flatMap(({ trials }) => trials).filter(({ level }) => level !== 'fine').length
  const facts = {
    path,
    title: `What if: ${loom.title}`,
    about: `What happens in ${loom.id} when plugs are swapped, grounds lost, plugs pulled, ends shorted and switches opened.`,
  }
  return makePage(site, 'what-if', facts, {
    job: loom.title,
    back: linkTo(path, pageOf(site, loom)),
    tried: sets.reduce((sum, { count }) => sum + count, 0),
    bad,
    sets: sets.map((one) => setView(site, path, job, one)),
  })
}

function setView(site: Site, path: string, job: Job, { kind, trials, count, left }: TrialSet) {
  return {
    anchor: `tried-${kind}`,
    title: TRIAL_TITLES[kind],
    count,
    left,
    none: NONE_TRIED[kind],
    trials: trials.map((trial) => trialView(site, path, job, trial)),
  }
}

function trialView(site: Site, path: string, { loom }: Job, trial: Trial) {
  const { level } = trial
  return {
    level,
    word: level === 'fine' ? 'OK' : LEVEL_WORDS[level],
    mark: level === 'fine' ? '✓' : LEVEL_MARKS[level],
    tried: trial.tried,
    alike: alikeWords(trial),
    outcome: trial.outcome,
    figure: trial.figure,
    path: (trial.path.length > 1 ? trial.path : []).map((address) => ({
      text: address,
      href: linkTo(path, placeNear(site, loom, address)),
    })),
  }
}
