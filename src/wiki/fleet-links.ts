import { attentionOf } from '../commission/asset-record.ts'
import { ATTENTION_MARKS, ATTENTION_WORDS } from '../commission/attention-words.ts'
import { fleetOf } from '../commission/fleet.ts'
import { linkTo, type Site } from './page.ts'

/** How many assets the first page names; the rest are a link away. */
const MOST_SHOWN = 5

/** Assets that ask for most, for the first page; with an installation given, its own and all of them. */
export function fleetLinks(site: Site, path: string, installation?: string) {
  const fleet = fleetOf(site.map.assets).filter(
    ({ loom }) => installation === undefined || loom.id === installation,
  )
  const shown = installation === undefined ? fleet.slice(0, MOST_SHOWN) : fleet
  return {
    fleet: shown.map((record) => ({
      asset: record.readings.asset,
      href: linkTo(path, site.map.asset(record, 'html')),
      mark: ATTENTION_MARKS[attentionOf(record)],
      words: ATTENTION_WORDS[attentionOf(record)],
    })),
    moreFleet: fleet.length - shown.length,
  }
}
