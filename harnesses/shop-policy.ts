import { policy } from 'loomwright'

/** What Hollin & Teal Communications has decided for every job. */
export const shopPolicy = policy({
  shop: 'Hollin & Teal Communications',
  drop: { continuous: '0.5 V', brief: '1.0 V', critical: '3 %', other: '10 %' },
  allowances: { contact: '2 mΩ', fuse: '4 mΩ', holder: '3 mΩ' },
  fuseWithin: '450 mm',
  fuseNegative: 'forbid',
  shields: 'one-end',
  parked: '21 days',
  conductorTemperature: '20 °C',
  reasons: {
    fuseNegative: 'Bond to the body instead: with the negative fuse blown the set returns by its coax.',
    shields: 'Short runs on one ground; the far end is sleeved.',
  },
  units: 'both',
})
