/**
 * Measures of a wiring sheet. Four units are one millimetre, so that a module of 2.5 mm is a whole number and the layout
 * library, which rounds to whole numbers, loses nothing.
 */
export const UNITS_PER_MM = 4

/** Row pitch of a connector strip and pitch of conductors in a trunk: two modules of 2.5 mm. */
export const PITCH = 20
/** Distance of the conductors of a trunk where it runs up or down the page. */
export const TRUNK_SLOT = 9

/**
 * Text sizes in units. Capitals are 0.7 of the size: 2.5 mm on conductors and pins, 2.8 mm in titles, 2 mm in lists and
 * 1.8 mm, the least nominal size of ISO 3098-1, in the captions of the title block.
 */
export const TEXT = { label: 14.4, title: 16, small: 11.6, caption: 10.2 } as const
export type TextSize = keyof typeof TEXT

/** Sheets shrink a drawing by no more than this, which leaves capitals of 1.8 mm. */
export const LEAST_SCALE = 0.72
