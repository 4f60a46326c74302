/** What questions, rules of papers and rules of feeders say of their tripping examples. */
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
  'coax-impedance': ['lead.W1: W1 is 50 Ω and the port radio.J.centre 75 Ω: return loss 13.98 dB'],
  'coax-plug-suits-cable': [
    'lead.P1: W1 is 10.3 mm over its jacket and the plug lead.P1 takes 4.7 mm to 6.4 mm',
    'lead.P2: W1 is 10.3 mm over its jacket and the plug lead.P2 takes 4.7 mm to 6.4 mm',
  ],
  'feeder-loss': [
    'job/lead.W1: The feeder from radio.J.centre to whip loses 5.63 dB at 450 MHz (limit 3.00 dB)',
  ],
  'colour-not-only-mark': ['lead.red: The wire “red” has no mark but a colour'],
  'issued-paper-complete': ['van: van is issued without the name of who checked it'],
  'splice-as-decided': ['job/lead.SP1: The splice SP1 is soldered, and the shop crimps splices in a vehicle'],
}
