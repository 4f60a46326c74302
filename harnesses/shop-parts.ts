import { part } from 'loomwright'

/** The longer barrel sold for the same two-way power housing: it takes 6 mm². */
export const bigPowerContact = part.contact('rect-power-6', {
  title: 'Crimp contact, power, long barrel for 6 mm²',
  half: 'any',
  join: 'crimp',
  area: '4..6 mm²',
  insulation: '3.4..4.8 mm',
  amps: '30 A',
  stripMm: 7,
  tool: 'Open-barrel (B-crimp) tool, 4–6 die',
  plating: 'tin',
  source: 'Sample card of the counter we buy from; pull-tested here on 6 mm².',
})
