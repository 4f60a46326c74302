import { electricalSentences } from './electrical-sentences.ts'
import { mechanicalSentences } from './mechanical-sentences.ts'
import { questionSentences } from './question-sentences.ts'

/** What each rule says of its tripping example: subject and sentence, in order. The first thing to write for a new rule. */
export const sentences: Readonly<Record<string, readonly string[]>> = {
  ...electricalSentences,
  ...mechanicalSentences,
  ...questionSentences,
  'pin-map-mirrored': [
    'lead.P2: lead.P2 is wired as its own mirror image: drawn from the other face at head.J2',
  ],
  'pinout-view-stated': ['lead/box.J1: The pinout of box.J1 does not say from which side its face was seen'],
  'mated-halves-fit': ['lead.P1: lead.P1 and box.J1 are both socket halves and cannot mate'],
  'plugs-not-interchangeable': [
    'lead.P1: lead.P1 and lead.P2 can be swapped: 12.00 V on microphone.J4.1, a microphone',
  ],
  'one-net-per-contact': ['lead.P2.1: lead.P2.1 joins two nets that do not belong together: A01 and A02'],
  'one-wire-per-contact': ['lead.P2.1: lead.P2.1 takes 2 wires in a contact for 1: A01 and A02'],
  'must-connect': ['lead/box.J1.2: box.J1.2 (0V, signal return) must be connected, and no wire reaches it'],
  'never-connect': ['lead/box.J1.2: A01 lands on box.J1.2 (reserved pin), which is not to be connected'],
  'one-driver-per-net': [
    'lead/radio.J2.1: 2 outputs drive one net: scanner.J1.1 (A OUT, line output) and radio.J2.1 (B OUT, line output)',
  ],
  'wire-fits-contact': [
    'lead.P1.1: A01 (0.75 mm² (≈18 AWG)) does not fit the contact of lead.P1.1, which takes 0.2 mm² to 0.5 mm²',
    'lead.P2.1: A01 (0.75 mm² (≈18 AWG)) does not fit the contact of lead.P2.1, which takes 0.2 mm² to 0.5 mm²',
  ],
  'seal-fits-wire': [
    'lead.P1.1: A01 is 2.9 mm over its insulation and the seal of lead.P1.1 takes 1.7 mm to 2.4 mm',
    'lead.P2.1: A01 is 2.9 mm over its insulation and the seal of lead.P2.1 takes 1.7 mm to 2.4 mm',
  ],
  'empty-cavities-plugged': ['lead.P1: lead.P1 is sealed and has 2 open cavities: 2 and 3'],
  'rings-per-stud': ['lead/bar.S1.1: 5 rings on the stud bar.S1.1 (limit 4)'],
  'plus-meets-minus': [
    'lead/supply.J1.1: Plus meets minus: supply.J1.1 (12.00 V supply) and panel.J2.2 (supply return) are one circuit',
  ],
  'pair-legs-together': [
    'lead/radio.J1.1: Port RX of radio.J1 is split over two pairs: W1.1 on pair1, W1.3 on pair2',
  ],
  'hot-cold-identity': ['lead/recorder.J2.2: The cold leg of recorder is on the hot leg of desk'],
  'cold-leg-accounted': [
    'lead/desk.J1.3: The cold leg of port OUT of desk.J1 is left open, and nothing says why',
  ],
  'line-terminated-once': ['lead.T2: The line lead.P1.3 is terminated 2 times, -5.91 dB off level'],
  'microphone-kind': [
    'lead/headset.J1.1: headset has a microphone of the electret kind on an input for the dynamic kind',
  ],
  'shell-off-pin-1': ['lead.A02: A02 ties the shell of lead.P1 to pin 1'],
  'label-fits': [
    'lead.A01: The label of lead.A01 has 25 characters and 20 fit on a line: “RECEIVE AUDIO TO RECORDER”',
  ],
  'label-unique': ['lead.P2: lead.P1 and lead.P2 are both labelled “com  a”'],
  'bridged-leg-grounded': [
    'lead/radio.J1.4: A leg of a bridged output is grounded: radio.J1.4 (SPK−, loudspeaker output) meets horn.J2.3 (chassis) through A02, A04',
  ],
  'speaker-load': ['lead/radio.J1.1: The loudspeakers on radio.J1.1 are 2 Ω together (limit 4 Ω)'],
  'coil-suppressed': [
    'lead.K1: The coil lead.K1 has no suppressor, and cue.J1.2 (CUE, switching output) switches it',
  ],
  'switch-current': [
    'lead/radio.J1.2: radio.J1.2 (ALARM, switching output) has to switch 180 mA (limit 100 mA)',
  ],
  'volts-within-limit': [
    'lead/box.J2.1: 14.40 V on box.J2.1 (ALERT, switching input), which stands at most 5.50 V',
  ],
  'active-level': [
    'lead/controller.J2.1: receiver.J1.1 (COR, switching output) is active low and controller.J2.1 (COR, switching input) is active high',
  ],
  'one-standard-per-joint': [
    'lead/radio.J2.1: Two standards on one line: computer.J1.1 (TXD, tia-232 line TXD) and radio.J2.1 (PROG, ttl line RXD)',
  ],
  'feeder-drop': ['boat/main.B02: The feeder loses 0.58 V in standby: 4.8 % of 12.00 V (limit 3 %)'],
  'voltage-at-load': ['van/radio.J2.1: radio.J2.1 loses 1.21 V in transmit (limit 1.00 V for short times)'],
  'fuse-in-feed': ['lead.A01: No fuse in A01 from panel.J1.1 (12.00 V to 14.40 V supply)'],
  'fuse-protects-wire': [
    'van/main.F1: F1 of 60 A is too large for A02 and A03: A02 (6 mm² (≈10 AWG)) bears 43.8 A',
  ],
  'return-as-big-as-feed': [
    'van/radio.J2.1: radio.J2.1 (supply input) is fed and has no way back to battery.J1.1',
  ],
  'ignition-sense-permanent': [
    'lead/radio.J2.1: radio.J2.1 (IGN, sense input) is on the permanent (terminal 30) feed taps.J1.1 and is to follow ignition (terminal 15)',
  ],
  'standing-drain': [
    'van/battery.J1.1: 300 mA while parked flattens the battery in 8.3 days (21 days asked for)',
  ],
  'cable-fault-keys': [
    'lead/radio.J1.1: With lead.P1 unplugged radio.J1.1 (PTT, transmit key input) goes low and keys the transmitter',
  ],
  'bend-radius': ['lead.W1: W1 is bent to 30 mm (limit 60 mm)'],
  'fuse-near-source': ['van/main.F1: F1 sits 1 m of wire from battery.J1.1 (limit 450 mm)'],
  'fuse-in-negative': ['lead.F2: F2 sits in a negative conductor'],
  'return-past-sensor': [
    'lead.A03: A03 goes to the battery post battery.J1.2 and bypasses the battery sensor',
  ],
  'thin-wire-afloat': ['boat/main.B08: B08 0.5 mm² is too thin for a single wire afloat (limit 1 mm²)'],
  'bus-terminated': [
    'boat/display.J1.1: The bus engine.J1.1 has 1 terminator (120 Ω); it wants two of 120 Ω, which are 60 Ω',
  ],
  'speaker-power': ['lead/speaker.J2.1: speaker gets up to 15 W and is rated 10 W'],
  'isolated-common-grounded': [
    'lead/talker.J1.3: The isolated common talker.J1.3 (C, signal return) is tied to ground at listener.J2.4',
  ],
  'data-legs-swapped': [
    'lead/listener.J2.2: listener.J2.2 (tia-422 line B) is on the other leg: talker.J1.1 (tia-422 line A)',
  ],
  'screen-both-ends': [
    'lead.W1.screen: The screen W1.screen of W1 is grounded at both ends, lead.P1.3 and lead.P2.3, and closes a loop',
  ],
  'contact-current': [
    'van/main.P1.1: The contact main.P1.1 carries 10 A in transmit (limit 8 A)',
    'van/main.P2.1: The contact main.P2.1 carries 10 A in transmit (limit 8 A)',
  ],
  'fuse-loaded': ['van/main.F1: F1 of 20 A carries 17 A in standby: 85 % (limit 80 %)'],
  'screen-bonded': ['lead.W1: The screen of W1 is landed at neither end'],
  'screen-on-chassis': [
    'lead.W1.screen: The screen W1.screen lands on signal 0 V, mixer.J1.2 (IN 0V, signal return)',
  ],
  'bus-drop-length': ['lead/display.J1.1: The drop from tee.A.1 to display.J1.1 is 7 m long (limit 6 m)'],
  'channels-share-return': [
    'lead.A07: A07 is the common of 2 channels, AUDIO A and AUDIO B: 0.16 V along it',
  ],
  'bare-copper-afloat': ['boat/main.B01: 7 wires of main have strands of bare copper: Flexible wire, 105 °C'],
}
