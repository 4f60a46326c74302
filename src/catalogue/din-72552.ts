/** Terminal designations of road vehicles and their meanings, DIN 72552. */
export const DIN_72552 = {
  '1': 'ignition coil, low side',
  '4': 'ignition coil, high-voltage output',
  '15': 'switched positive after the ignition switch',
  '15a': 'resistor output to coil and starter',
  '17': 'glow plug start',
  '19': 'glow plug preheat',
  '30': 'battery positive, direct',
  '30a': 'second battery positive (12/24 V changeover)',
  '31': 'battery negative or ground, direct',
  '31b': 'switched ground (low side)',
  '32': 'motor return',
  '33': 'motor main connection',
  '45': 'separate starter relay output',
  '49': 'flasher input',
  '49a': 'flasher output',
  '50': 'starter control',
  '50a': 'battery changeover output',
  '51': 'DC at the alternator rectifier',
  '53': 'wiper motor positive',
  '53a': 'wiper positive, park position',
  '53b': 'wiper shunt winding',
  '53c': 'washer pump',
  '53e': 'wiper brake',
  '54': 'stop lamps, trailer',
  '54g': 'trailer auxiliary solenoid',
  '55': 'fog lamps',
  '56': 'headlamps',
  '56a': 'main beam and its telltale',
  '56b': 'dipped beam',
  '57a': 'parking lamps',
  '57L': 'parking lamps, left',
  '57R': 'parking lamps, right',
  '58': 'side, tail, number-plate and instrument lamps',
  '58L': 'side lamps, left',
  '58R': 'side lamps, right',
  '61': 'charge lamp',
  '71': 'horn sequence input',
  '75': 'radio and lighter',
  '76': 'loudspeaker',
  '85': 'relay coil, end (negative)',
  '86': 'relay coil, start (positive)',
  '86a': 'relay coil 1, start',
  '87': 'relay contact, closes when energised',
  '87a': 'relay contact, opens when energised',
  '87b': 'relay contact, second output',
  '87z': 'relay contact, input',
  '88': 'make contact set',
  'B+': 'battery positive',
  'B-': 'battery negative',
  'D+': 'dynamo positive',
  'D-': 'dynamo negative',
  DF: 'dynamo field',
  L: 'turn lamps, left',
  R: 'turn lamps, right',
  C: 'flasher telltale',
} as const

export type Din72552Terminal = keyof typeof DIN_72552

/** Part each terminal of a relay plays, ISO 7588-1. With a diode across the coil, 86 is the positive end. */
export const RELAY_ROLES = {
  '30': 'common',
  '85': 'coil negative',
  '86': 'coil positive',
  '87': 'make',
  '87a': 'break',
} as const

export type RelayTerminal = keyof typeof RELAY_ROLES

/** What a terminal is for, or undefined when the designation is not in the standard. */
export function din72552Meaning(terminal: string): string | undefined {
  return Object.hasOwn(DIN_72552, terminal) ? DIN_72552[terminal as Din72552Terminal] : undefined
}
