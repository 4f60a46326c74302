import type { Question } from './question.ts'
import { antennaClearOfPeople } from './questions/antenna-clear-of-people.ts'
import { clearOfAirbags } from './questions/clear-of-airbags.ts'
import { clearOfFuelAndHeat } from './questions/clear-of-fuel-and-heat.ts'
import { feedFromPermittedPoint } from './questions/feed-from-permitted-point.ts'
import { livePlugGroundFirst } from './questions/live-plug-ground-first.ts'

/** Everything a person is asked, since no description can tell it. */
export const standardQuestions: readonly Question[] = [
  clearOfAirbags,
  clearOfFuelAndHeat,
  antennaClearOfPeople,
  feedFromPermittedPoint,
  livePlugGroundFirst,
]
