/** What can hurt someone on a job. */
export type Hazard =
  | 'battery'
  | 'airbag'
  | 'high-voltage'
  | '24-volt'
  | 'rf'
  | 'hearing'
  | 'heights'
  | 'drilling'
  | 'fuel'
  | 'mains'
  | 'boat'
  | 'road'

export interface Caution {
  readonly hazard: Hazard
  readonly title: string
  readonly text: string
}

const TEXT: Readonly<Record<Hazard, readonly [title: string, text: string]>> = {
  battery: [
    'Battery',
    'Negative off first and on last. Ask for radio codes before you disconnect; clocks and windows may need setting again. Insulated tools, rings off, good ventilation. The fuse goes in last.',
  ],
  airbag: [
    'Airbags',
    'Yellow sleeves and plugs belong to the restraint system: never probe, splice, share a ground with, tie to, or mount in front of them. Battery off and the vehicle maker’s waiting time before any seat plug is parted.',
  ],
  'high-voltage': [
    'Hybrid and electric vehicles',
    'Orange cable is high voltage: trained people only. The 12 V side can stay alive through a converter with the battery off. Know the maker’s isolation step before you start.',
  ],
  '24-volt': [
    '24 V',
    'Measure the supply before anything is connected. Equipment for 12 V does not survive it.',
  ],
  rf: [
    'Radio energy',
    'Never transmit with anyone inside the distance the equipment maker states, into an open feeder, or near fuelling or blasting. Warn everybody before you key.',
  ],
  hearing: [
    'Hearing',
    'Volume right down before a headset is plugged in and before you key near a loudspeaker. Warn before a horn or sounder test.',
  ],
  heights: [
    'Working at height',
    'Secured ladder, three points of contact, nobody stands on a roof. Two people for a heavy lift.',
  ],
  drilling: [
    'Drilling',
    'Look behind first: tanks, harnesses, airbag curtains, brake pipes. Depth stop on the drill; deburr, prime and seal the hole; clear the swarf before power comes back.',
  ],
  fuel: [
    'Fuel, gas and dangerous goods',
    'No drilling or live work near them. Bonded isolators stay in circuit; bypassing one needs the customer’s written instruction.',
  ],
  mains: [
    'Mains and buildings',
    'A licensed or competent person where the law says so. Never open a protective earth. Surge protection where a cable enters the building.',
  ],
  boat: [
    'On board',
    'Shore power off. Check the bilge for gas before any switch or tool. Keep magnets off the compass.',
  ],
  road: [
    'On the road',
    'Nothing in the driver’s view or in the way of pedals and wheel. Type approval and insurance are the customer’s to confirm.',
  ],
}

/** The words printed for a hazard: the trade's usual caution, which never replaces the vehicle, vessel or building maker's. */
export function cautionFor(hazard: Hazard): Caution {
  const [title, text] = TEXT[hazard]
  return { hazard, title, text }
}

/** Printed at the head of every guide. */
export const LIMITS =
  'These steps do not replace the vehicle, vessel, building or equipment maker’s instructions, local codes, or licensed practice where the law asks for it. Aircraft, medical, rail and hazardous areas are outside what this guide claims. Passing these checks does not certify the installation.'
