/** What each question says of its tripping example, as the sentences of rules. */
export const questionSentences: Readonly<Record<string, readonly string[]>> = {
  'answer-fits-question': [
    'van/answers.1: M. Teal answers clear-of-airbags at “roof”, where it is not asked',
  ],
  'clear-of-airbags': [
    'van/dash: Answered no: “In dash: is everything out of the way of the airbags, and tied to no restraint loom?”',
  ],
  'clear-of-fuel-and-heat': [
    'van/bonnet: Answered no: “In bonnet: is every conductor off fuel lines and hot exhaust parts, tied to none of them and in no hole with them?”',
  ],
  'antenna-clear-of-people': [
    'job/whip: 400 mm measured, and its maker states 900 mm: “Is whip at least 900 mm from people, and its feeder clear of restraint parts and control units?”',
  ],
  'feed-from-permitted-point': [
    'job/taps: Answered no: “Are taps.J.1 offered by the vehicle maker for added equipment, on no circuit of a control unit or restraint?”',
  ],
  'live-plug-ground-first': [
    'desk/head.J1: Answered no: “Is head.J1 plugged only with power off, as its label says, or does its ground make first?”',
  ],
}
