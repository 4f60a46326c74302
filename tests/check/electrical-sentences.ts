/** What each rule of power, levels and lines says of its tripping example, in order. */
export const electricalSentences: Readonly<Record<string, readonly string[]>> = {
  'supplies-meet': [
    'lead/standby.J.1: 2 supplies meet with nothing between them: main.J.1 (12.00 V) and standby.J.1 (12.00 V)',
  ],
  'bank-middle-loaded': ['lead/radio.J.1: 1 load on the middle of the bank at lower.J.1: radio.J.1'],
  'supply-range-fits': [
    'lead/tracker.J.1: tracker.J.1 works from 9.00 V up and gets 6.50 V while the engine cranks',
  ],
  'body-return-absent': ['job/lamp.J.1: The return of lamp.J.1 goes through body metal that is no return'],
  'fuses-not-paralleled': ['lead.F2: F1 and F2 lie side by side between the same two points'],
  'fuses-step-down': ['lead.F2: F2 (10 A) is hardly smaller than F1 (10 A) before it'],
  'short-opens-fuse': [
    'lead/lamp.J.1: A short at lamp.J.1 draws 8.43 A, 1.7 times F1 (5 A): it opens within 29 s',
  ],
  'parts-outlast-fuse': ['lead.S1: The switch S1 is rated 5 A and stands behind F1 of 10 A'],
  'load-within-ampacity': ['lead.A03: A03 carries 10 A in off and bears 6.07 A'],
  'vehicle-circuit-overloaded': [
    'lead/tap.J.1: tap.J.1 would carry 9 A, and 8 A is the most its 10 A fuse should',
  ],
  'restraint-circuit-tapped': [
    'job/module.J.1: A01 takes a feed from module, which belongs to a restraint circuit',
  ],
  'isolator-back-fed': [
    'lead.S1: With S1 open in standby, lamp.J.1 still gets 6.50 V through something else',
  ],
  'supply-not-overloaded': ['lead/station.J.1: station.J.1 has to give 300 mA in off and gives 200 mA'],
  'ground-lost': ['lead.A05: If the ground at radio.J.2 opens, A05 carries 7.5 A in off (bears 1 A)'],
  'logic-levels': [
    'lead/radio.J.1: radio.J.1 sees 1.10 V with controller.J.1 on, and takes only less than 0.80 V as low',
  ],
  'one-pull-up': ['lead/logger.J.1: Nothing pulls logger.J.1 up, and controller.J.1 only pulls down'],
  'input-kind-fits': [
    'lead/radio.J.1: radio.J.1 wants a contact and gets a voltage from alarm.J.1 (switching output)',
  ],
  'key-and-mic-returns': ['lead.A03: A03 is the return of both the key line and the microphone of fist'],
  'relay-terminals': ['lead.K1: The feed of K1 comes in at 87 and goes out at 30'],
  'speakers-in-phase': ['lead/right.J.1: right is connected the other way round than the 1 beside'],
  'speaker-line-loss': ['lead/amplifier.J.1: The line of amplifier.J.1 loses 1.27 dB on the way to 4 Ω'],
  'constant-voltage-line': [
    'lead/amplifier.J.1: The taps on amplifier.J.1 add up to 20 W, and the amplifier gives 18 W',
  ],
  'audio-levels-match': [
    'lead/radio.J.1: player.J.1 (line output, +4 dBu) feeds radio.J.1 (microphone input, -50 dBu)',
  ],
  'input-bridges-output': ['lead/desk.J.1: 1 input of 1.2 kΩ together load desk.J.1 of 600 Ω: -3.52 dB'],
  'bias-reaches-only-takers': [
    'lead/microphone.J.1: 48.00 V from desk.J.1 reaches microphone.J.1, a ribbon microphone',
  ],
  'speaker-in-mic-cable': ['lead.W1: W1, a screened audio cable, carries loudspeaker current'],
  'stereo-into-balanced': [
    'lead/desk.J.1: player.J.1 and player.J.2 go into the two legs of one input, desk.J.1 and desk.J.2',
  ],
  'screen-sole-return': ['lead.W1.screen: The screen W1.screen is the only return of pack.J.1'],
  'ground-loop-in-signal': ['lead.A08: A08 closes a ground loop through amplifier and player'],
  'noise-in-shared-return': [
    'lead/radio.J.2: 35.9 mV of supply drop lie between the returns of console.J.3 and radio.J.2: noise 2.70 dB under the signal',
  ],
  'earth-kept': [
    'lead/amplifier.J.3: The protective earth at amplifier.J.3 leads to no other earth',
    'lead/outlet.J.3: The protective earth at outlet.J.3 leads to no other earth',
  ],
  'mains-apart': ['lead.A03: A03 runs with A01 at 230 V in bundle duct'],
  'signal-beside-power': [
    'lead.A03: A03, an open microphone lead, runs 2 m beside A01 with 6 A: noise 16.79 dB under the signal',
  ],
  'compass-clear': ['job/lead.A01: A01 with 2 A passes the compass and is not twisted with its return'],
  'bus-stub-lengths': ['lead/tap.J.1: tap.J.1 hangs 1.5 m off the bus; 300 mm is the most at 1 Mbit/s'],
  'serial-directions': ['lead/radio.J.2: computer.J.2 (RXD) and radio.J.2 (RXD) all listen on one wire'],
  'bus-is-a-line': [
    'lead/sensor.J.1: sensor shares no reference with controller on the line of controller.J.1',
  ],
  'lan-pairs': ['lead/switch.J.1: Pins 1 and 2 of switch.J are not one twisted pair'],
  'cable-impedance': ['lead.W1: W1 of 50 Ω carries audio-aes3, made for 110 Ω: return loss 8.52 dB'],
}
