/** A folder with this file in it was made by us: it may be replaced as a whole, and holds no descriptions. */
export const OUTPUT_MARKER = '.loomwright-output'
